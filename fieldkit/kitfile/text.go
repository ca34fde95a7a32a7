package kitfile

import (
	"fmt"
	"strconv"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// string reads a text or a field name in double quotes, the parser standing on
// the first of them. ok is false when it has no end.
func (p *parser) string(noun string, limit int) (s string, ok bool) {
	begin := p.at
	p.at++
	plainFrom := p.at
	var b strings.Builder
	bad := "" // the first fault of the characters
	for {
		if p.at == len(p.src) {
			return "", p.stop(begin, "a text is not closed", `write " at its end; a file that was cut off is best replaced by a whole copy`)
		}
		switch c := p.src[p.at]; {
		case c == '"':
			s = p.src[plainFrom:p.at]
			if b.Len() > 0 {
				b.WriteString(s)
				s = b.String()
			}
			p.at++
			if bad != "" {
				p.note(begin, bad, "write the text again")
			}
			if len(s) > limit {
				p.tooBig(begin, fmt.Sprintf("%s of %d bytes is longer than the most, %d", noun, len(s), limit), "shorten it")
			}
			return s, true
		case c == '\n' || c == '\r':
			return "", p.stop(begin, "a text is not closed on its line", `write " at its end, and \n for a line break inside it`)
		case c == '\\':
			b.WriteString(p.src[plainFrom:p.at])
			r, fault := p.escaped()
			b.WriteRune(r)
			if bad == "" {
				bad = fault
			}
			plainFrom = p.at
		case c < ' ':
			if bad == "" {
				bad = fmt.Sprintf("a text holds the control character %U", c)
			}
			p.at++
		case c < utf8.RuneSelf:
			p.at++
		default:
			r, size := utf8.DecodeRuneInString(p.src[p.at:])
			if r == utf8.RuneError && size == 1 && bad == "" {
				bad = "a text is not UTF-8"
			}
			p.at += size
		}
	}
}

var escapes = map[byte]rune{'"': '"', '\\': '\\', '/': '/', 'b': '\b', 'f': '\f', 'n': '\n', 'r': '\r', 't': '\t'}

// escaped reads one escape, the parser standing on its backslash. It never
// steps over the quote that ends the text.
func (p *parser) escaped() (r rune, fault string) {
	p.at++
	if p.at == len(p.src) {
		return utf8.RuneError, ""
	}
	c := p.src[p.at]
	if plain, ok := escapes[c]; ok {
		p.at++
		return plain, ""
	}
	if c != 'u' {
		return utf8.RuneError, `a text holds a backslash that begins nothing; \\ is a backslash`
	}
	p.at++
	first, ok := p.hex4()
	if !ok {
		return utf8.RuneError, `a text holds \u without four hexadecimal digits`
	}
	if !utf16.IsSurrogate(first) {
		return first, ""
	}
	if strings.HasPrefix(p.src[p.at:], `\u`) {
		p.at += 2
		second, ok := p.hex4()
		if r := utf16.DecodeRune(first, second); ok && r != utf8.RuneError {
			return r, ""
		}
	}
	return utf8.RuneError, "a text holds half a character"
}

func (p *parser) hex4() (rune, bool) {
	if len(p.src)-p.at < 4 {
		return 0, false
	}
	n, err := strconv.ParseUint(p.src[p.at:p.at+4], 16, 32)
	if err != nil || strings.ContainsAny(p.src[p.at:p.at+4], "+_") {
		return 0, false
	}
	p.at += 4
	return rune(n), true
}

const hexDigits = "0123456789abcdef"

// appendText writes a text in double quotes: only what JSON demands is escaped,
// and what is not UTF-8 becomes the replacement character.
func appendText(b []byte, s string) []byte {
	b = append(b, '"')
	if isPlain(s) {
		return append(append(b, s...), '"')
	}
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b = append(b, '\\', byte(r))
		case r == '\n':
			b = append(b, `\n`...)
		case r == '\r':
			b = append(b, `\r`...)
		case r == '\t':
			b = append(b, `\t`...)
		case r < ' ':
			b = append(b, '\\', 'u', '0', '0', hexDigits[r>>4], hexDigits[r&15])
		default:
			b = utf8.AppendRune(b, r)
		}
	}
	return append(b, '"')
}

// isPlain reports a text of ASCII of which nothing is escaped, as nearly all are.
func isPlain(s string) bool {
	for i := range len(s) {
		if c := s[i]; c < ' ' || c >= utf8.RuneSelf || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}
