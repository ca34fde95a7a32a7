package standards

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxText is the longest text read as a designation, in runes.
const MaxText = 64

// scan reads a text from left to right. Capitals and small letters, the ways to
// write ×, dashes and blanks are the same to it; every rune stays in its place, so
// that at is the place in what was typed.
type scan struct {
	text  string
	runes []rune
	at    int
	quiet bool // whoever asks needs no reason for a refusal

	refused Misread // quiet
}

func newScan(text string) *scan {
	s := &scan{text: text, runes: make([]rune, 0, len(text))}
	for _, r := range text {
		s.runes = append(s.runes, plain(r))
	}
	s.blank()
	return s
}

// plain folds the ways to write one character to the one that is compared.
func plain(r rune) rune {
	switch r {
	case '×', '✕', '✖', '*':
		return 'X'
	case '–', '—', '−', '‐', '‑':
		return '-'
	case '⁄', '∕':
		return '/'
	case '°', 'º':
		return '°'
	}
	if unicode.IsSpace(r) {
		return ' '
	}
	return unicode.ToUpper(r)
}

// peek gives the next rune, 0 at the end.
func (s *scan) peek() rune {
	if s.at < len(s.runes) {
		return s.runes[s.at]
	}
	return 0
}

func (s *scan) done() bool { return s.at >= len(s.runes) }

// blank skips blanks.
func (s *scan) blank() { s.skip(" ") }

// skip passes over any runes of a set and reports whether there were any.
func (s *scan) skip(set string) bool {
	start := s.at
	for !s.done() && strings.ContainsRune(set, s.peek()) {
		s.at++
	}
	return s.at > start
}

// take passes over one rune if it is the next.
func (s *scan) take(r rune) bool {
	if s.peek() != r || s.done() {
		return false
	}
	s.at++
	return true
}

// times passes over the sign between two sizes, with blanks around it.
func (s *scan) times() bool {
	start := s.at
	s.blank()
	if !s.take('X') {
		s.at = start
		return false
	}
	s.blank()
	return true
}

// digits takes a run of digits.
func (s *scan) digits() string {
	start := s.at
	for r := s.peek(); r >= '0' && r <= '9'; r = s.peek() {
		s.at++
	}
	return string(s.runes[start:s.at])
}

// letters takes a run of letters.
func (s *scan) letters() string {
	start := s.at
	for r := s.peek(); r >= 'A' && r <= 'Z'; r = s.peek() {
		s.at++
	}
	return string(s.runes[start:s.at])
}

// decimal takes digits with at most one point or comma between digits, and writes
// it with a point. Without digits in front, ".25" is read too.
func (s *scan) decimal() string {
	start := s.at
	whole := s.digits()
	mark := s.at
	if s.take('.') || whole != "" && s.take(',') {
		if part := s.digits(); part != "" {
			return whole + "." + part
		}
		s.at = mark
	}
	if whole == "" {
		s.at = start
	}
	return whole
}

// word takes one of the words, the longest that fits, if no letter follows one that
// ends in a letter. Words are in capitals.
func (s *scan) word(words ...string) string {
	best := ""
	for _, w := range words {
		if len(w) > len(best) && s.has(w) {
			best = w
		}
	}
	s.at += utf8.RuneCountInString(best)
	return best
}

func (s *scan) has(w string) bool {
	if w == "" || !s.begins(w) {
		return false
	}
	end := s.at + utf8.RuneCountInString(w)
	last, _ := utf8.DecodeLastRuneInString(w)
	return end == len(s.runes) || !unicode.IsLetter(last) || !unicode.IsLetter(s.runes[end])
}

// begins reports whether what follows begins with w.
func (s *scan) begins(w string) bool {
	at := s.at
	for _, r := range w {
		if at == len(s.runes) || s.runes[at] != r {
			return false
		}
		at++
	}
	return true
}

// piece takes one of the codes, the longest that fits, whatever follows it.
func (s *scan) piece(codes []string) string {
	best := ""
	for _, c := range codes {
		if len(c) > len(best) && s.begins(c) {
			best = c
		}
	}
	s.at += len(best)
	return best
}

// rest gives what is left as it was typed.
func (s *scan) rest() string {
	return strings.TrimSpace(string([]rune(s.text)[min(s.at, len(s.runes)):]))
}

// next gives what stands at the place, up to the next blank, for a reason.
func (s *scan) next() string {
	rest, _, _ := strings.Cut(s.rest(), " ")
	return rest
}

// misread makes the refusal of what stands at the place.
func (s *scan) misread(kind Kind, why string, args ...any) *Misread {
	if s.quiet {
		s.refused = Misread{Kind: kind, At: s.at}
		return &s.refused
	}
	return &Misread{Text: s.text, Kind: kind, At: s.at, Why: fmt.Sprintf(why, args...)}
}

// expected refuses with what is missing at the place.
func (s *scan) expected(kind Kind, what string) *Misread {
	if s.quiet || s.done() {
		return s.misread(kind, "%s is missing", what)
	}
	return s.misread(kind, "%q is not %s", s.next(), what)
}

// end refuses what is left over.
func (s *scan) end(kind Kind) *Misread {
	s.blank()
	if s.done() {
		return nil
	}
	if s.quiet {
		return s.misread(kind, "")
	}
	return s.misread(kind, "%q is left over", s.rest())
}
