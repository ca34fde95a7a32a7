package standards

import (
	"fmt"
	"strconv"

	"trailfieldkit/fieldkit"
)

// boreOf gives the bore for the last two digits of a bearing number: 00, 01, 02 and
// 03 are 10, 12, 15 and 17 mm, 04 to 96 a fifth of the bore. ok is false beyond, where
// the bore is written after a slash. Source: ISO 15 bore numbers, DIN 623-1; from
// memory, and it holds for every row of the tables.
func boreOf(code string) (bore fieldkit.Length, ok bool) {
	n, err := strconv.Atoi(code)
	switch {
	case err != nil || len(code) != 2 || n < 0 || n > 96:
		return 0, false
	case n < 4:
		return [...]fieldkit.Length{10, 12, 15, 17}[n] * fieldkit.Millimetre, true
	}
	return fieldkit.Length(n) * 5 * fieldkit.Millimetre, true
}

// explainBore says how the bore is read from the end of a basic number.
func explainBore(basic, series string, bore fieldkit.Length) []Piece {
	code := basic[min(len(series), len(basic)):]
	pieces := []Piece{{series, "dimension series: goes with width and outside diameter"}}
	switch {
	case code == "" || basic[:len(series)] != series:
		return []Piece{{basic, fmt.Sprintf("bore %s", bore.Both(fieldkit.Metric))}}
	case code[0] == '/':
		return append(pieces, Piece{code, fmt.Sprintf("bore %s, written out", bore.Both(fieldkit.Metric))})
	case len(code) == 1:
		return append(pieces, Piece{code, fmt.Sprintf("bore %s, written out", bore.Both(fieldkit.Metric))})
	case code < "04":
		return append(pieces, Piece{code, fmt.Sprintf("bore %s: 00 to 03 are 10, 12, 15 and 17 mm", bore.Both(fieldkit.Metric))})
	}
	return append(pieces, Piece{code, fmt.Sprintf("bore %s: five times %s", bore.Both(fieldkit.Metric), code)})
}
