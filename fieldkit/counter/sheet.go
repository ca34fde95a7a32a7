package counter

import (
	"strings"
	"unicode/utf8"
)

// sheet is lines of text, none wider than TextWidth.
type sheet struct{ strings.Builder }

func (s *sheet) line(text string) { s.item("", text) }

// section begins a part of the text that has any lines.
func (s *sheet) section(title string, lines int) {
	if lines > 0 {
		s.WriteString("\n" + title + "\n")
	}
}

// deepest is how far the further lines of an item are set in.
const deepest = 6

// item writes text behind a mark, further lines set in below it; nothing for no text.
func (s *sheet) item(mark, text string) {
	width := utf8.RuneCountInString(mark)
	indent := strings.Repeat(" ", min(width, deepest))
	for _, line := range wrap(text, TextWidth-width, TextWidth-len(indent)) {
		s.WriteString(mark + line + "\n")
		mark = indent
	}
}

// wrap breaks text into lines at its spaces, the first line of one width and the rest
// of another. A word longer than a line is broken where it must.
func wrap(text string, first, rest int) (lines []string) {
	var line []rune
	width := first
	end := func() {
		lines = append(lines, string(line))
		line, width = nil, rest
	}
	for _, field := range strings.Fields(text) {
		for word := []rune(field); len(word) > 0; {
			switch {
			case len(line) == 0 && len(word) > width:
				line, word = word[:width], word[width:]
				end()
			case len(line) == 0:
				line, word = append(line, word...), nil
			case len(line)+1+len(word) > width:
				end()
			default:
				line, word = append(append(line, ' '), word...), nil
			}
		}
	}
	if len(line) > 0 {
		end()
	}
	return lines
}
