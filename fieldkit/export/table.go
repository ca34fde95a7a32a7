package export

import (
	"bytes"
	"encoding/csv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// table writes rows as RFC 4180 with a byte order mark in front.
func table(rows [][]string) []byte {
	var b bytes.Buffer
	b.WriteString("\ufeff")
	w := csv.NewWriter(&b)
	w.UseCRLF = true
	_ = w.WriteAll(rows) // a bytes.Buffer takes everything
	return b.Bytes()
}

// cell makes a text safe in a spreadsheet, which runs cells that begin like a
// formula. An apostrophe in front makes it plain text; a text that begins with
// one gets another, so that taking one away always gives the text back.
// Source of the dangerous characters: OWASP, "CSV Injection".
func cell(text string) string {
	text = clean(text)
	start := strings.TrimLeftFunc(text, unicode.IsSpace)
	if strings.HasPrefix(text, "'") || strings.HasPrefix(text, "\t") || strings.HasPrefix(text, "\n") ||
		start != "" && strings.ContainsRune("=+-@＝＋－＠", firstRune(start)) {
		return "'" + text
	}
	return text
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// clean gives lines one ending and drops what neither table nor XML can hold.
func clean(text string) string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.ToValidUTF8(text, "\ufffd"))
	return strings.Map(func(r rune) rune {
		if !isXMLChar(r) {
			return -1
		}
		return r
	}, text)
}

// isXMLChar is the production Char of XML 1.0, section 2.2.
func isXMLChar(r rune) bool {
	return r == '\t' || r == '\n' || r == '\r' || r >= 0x20 && r <= 0xd7ff || r >= 0xe000 && r <= 0xfffd || r >= 0x10000 && r <= 0x10ffff
}
