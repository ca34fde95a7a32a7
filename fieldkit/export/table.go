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

// elsewhere are the characters other than commas at which programs divide a line into
// cells: where a comma stands in numbers, they take semicolons, and then quotes in the
// middle of a line mean nothing to them, not around a line break either.
const elsewhere = ";\t\n"

// cell makes a text safe in a spreadsheet, which runs cells that begin like a
// formula. An apostrophe in front makes it plain text, also where a cell may begin
// inside the text; one that is there gets another, so that taking one away at each of
// these places always gives the text back.
// Source of the dangerous characters, and of quotes not being enough: OWASP, "CSV
// Injection".
func cell(text string) string {
	var safe strings.Builder
	for text = clean(text); ; {
		end := strings.IndexAny(text, elsewhere) + 1
		piece := text
		if end > 0 {
			piece = text[:end]
		}
		if runs(piece) {
			safe.WriteByte('\'')
		}
		safe.WriteString(piece)
		if end == 0 {
			return safe.String()
		}
		text = text[end:]
	}
}

// runs reports a piece of text that a spreadsheet may take for a formula, or that begins
// with the apostrophe that says it is none.
func runs(piece string) bool {
	start := strings.TrimLeftFunc(piece, func(r rune) bool {
		return unicode.IsSpace(r) || unicode.Is(unicode.Cf, r) || strings.ContainsRune(blankOrQuote, r)
	})
	return strings.HasPrefix(piece, "'") || start != "" && strings.ContainsRune("=+-@＝＋－＠", firstRune(start))
}

// blankOrQuote may stand in front of a formula: a program that divides at semicolons takes
// quotes off, and these letters show nothing.
const blankOrQuote = "\"\u115f\u1160\u2800\u3164\uffa0"

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
