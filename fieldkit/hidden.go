package fieldkit

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Hidden finds the first character of a text that is not seen and changes how what
// stands around it is read or found: control characters, marks and signs that turn
// the direction of writing, blanks without width, tags. In a text of several lines
// line breaks and tabs may stand. The joiners U+200C and U+200D may stand everywhere:
// scripts and pictures need them.
// Source: Unicode Standard Annex 9 (bidirectional formatting characters, table 1), and
// Unicode Technical Report 36, 3.4 (what is not seen).
func Hidden(text string, lines bool) (at int, r rune, found bool) {
	for at, r := range text {
		if isHidden(r) && (!lines || r != '\n' && r != '\t') || r == utf8.RuneError && !strings.HasPrefix(text[at:], "\ufffd") {
			return at, r, true
		}
	}
	return 0, 0, false
}

func isHidden(r rune) bool {
	switch {
	case r < ' ', r >= 0x7F && r <= 0x9F: // controls
	case r == 0x061C, r == 0x200E, r == 0x200F, r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069: // direction
	case r == 0xAD, r == 0x180E, r == 0x200B, r == 0x2028, r == 0x2029, r >= 0x2060 && r <= 0x2064, r == 0xFEFF: // no width
	case r >= 0xFFF9 && r <= 0xFFFB, r&0xFFFE == 0xFFFE, r >= 0xE0000 && r <= 0xE007F: // notes between lines, no characters, tags
	default:
		return false
	}
	return true
}

// WithoutHidden takes out what Hidden finds; a line break or a tab that may not stand
// becomes a blank.
func WithoutHidden(text string, lines bool) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\t':
			if lines {
				return r
			}
			return ' '
		case isHidden(r):
			return -1
		}
		return r
	}, strings.ToValidUTF8(text, ""))
}

// ShowHidden refuses a text that Hidden finds something in, and shows where it stands.
// Error of kind BadInput.
func ShowHidden(text string, lines bool) error {
	at, r, found := Hidden(text, lines)
	if !found {
		return nil
	}
	before, after := []rune(WithoutHidden(text[:at], false)), []rune(WithoutHidden(text[at:], false))
	name := fmt.Sprintf("⟨%U⟩", r)
	switch r {
	case '\n':
		name = "⟨line break⟩"
	case '\t':
		name = "⟨tab⟩"
	}
	around := string(before[max(0, len(before)-12):]) + name + string(after[:min(len(after), 12)])
	return badInput("a character that is not seen stands here: "+around, "take it out, or type the text again")
}

// script is a writing system whose letters pass for those of another one.
type script struct {
	name     string
	from, to rune
}

var alikeScripts = []script{
	{"Latin", 'A', 'Z'}, {"Latin", 'a', 'z'}, {"Latin", 0xC0, 0x24F}, {"Greek", 0x370, 0x3FF}, {"Cyrillic", 0x400, 0x52F}, {"Armenian", 0x531, 0x58F},
	{"Cherokee", 0x13A0, 0x13FF}, {"wide", 0xFF01, 0xFF5E}, {"mathematical", 0x1D400, 0x1D7FF},
}

// MixedScript refuses a part number of which the letters are of several scripts, such
// as a Cyrillic К in K-4410: it reads the same and is never found.
// Error of kind BadInput, which names the letter. Source: Unicode Technical Standard
// 39, 5.1 (mixed scripts).
func MixedScript(number string) error {
	first := ""
	for _, r := range number {
		for _, s := range alikeScripts {
			if r < s.from || r > s.to {
				continue
			}
			if first == "" {
				first = s.name
			}
			if s.name != first {
				return badInput(fmt.Sprintf("%q holds letters of two scripts that look alike: %q is %s, others are %s", number, string(r), s.name, first),
					"type the number again on one keyboard")
			}
		}
	}
	return nil
}
