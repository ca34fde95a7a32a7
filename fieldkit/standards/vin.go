package standards

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// VIN is a vehicle's number of seventeen characters, as vehicles have borne since
// 1981. What was there before has no common form: it is kept as plain text.
type VIN struct {
	Text  string
	Plain bool // from before 1981, or of no known form: nothing is read out of it
}

const (
	vinLength    = 17
	vinCheckAt   = 8 // places from 0
	vinYearAt    = 9
	vinSeventh   = 6
	vinSerialAt  = 13 // the last four are figures
	shortestText = 5
	vinSource    = "49 CFR 565.15 (check digit, model year, figures at the end), ISO 3779"
)

// vinWeights are the weights of the places (49 CFR 565.15).
var vinWeights = [vinLength]int{8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2}

// vinValue gives what a character counts (49 CFR 565.15); ok is false for I, O, Q and
// all that is no capital or figure.
func vinValue(r rune) (value int, ok bool) {
	switch {
	case r >= '0' && r <= '9':
		return int(r - '0'), true
	case r >= 'A' && r <= 'H':
		return int(r-'A') + 1, true
	case r >= 'J' && r <= 'N':
		return int(r-'J') + 1, true
	case r == 'P':
		return 7, true
	case r == 'R':
		return 9, true
	case r >= 'S' && r <= 'Z':
		return int(r-'S') + 2, true
	}
	return 0, false
}

// ParseVIN reads a vehicle number; blanks and dashes are left out. Seventeen
// characters that begin like a North American number must have the right check
// digit; fewer are kept as plain text. The error is a *Misread: its place is the
// character that is wrong most likely, its nearest readings put that right.
func (h *Handbook) ParseVIN(text string) (VIN, error) {
	return parse(text, func(s *scan) (VIN, *Misread) {
		v, m := h.readVIN(s)
		if m == nil {
			return v, nil
		}
		whole := strings.Join(strings.Fields(string(newScan(text).runes)), " ")
		count := len(strings.NewReplacer(" ", "", "-", "").Replace(whole))
		plain := strings.Trim(whole, "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 -./*") == ""
		if count >= shortestText && count < vinLength && plain {
			s.at = len(s.runes)
			return VIN{Text: whole, Plain: true}, nil
		}
		return VIN{}, m
	})
}

// readVIN takes seventeen characters.
func (h *Handbook) readVIN(s *scan) (VIN, *Misread) {
	var runes []rune
	var places []int
	first := s.at
	for ; !s.done(); s.at++ {
		r := s.peek()
		if r == ' ' || r == '-' {
			continue
		}
		if !(r >= '0' && r <= '9' || r >= 'A' && r <= 'Z') {
			return VIN{}, s.misread(KindVIN, "%q is in no vehicle number", string(r)).notOfKind()
		}
		runes, places = append(runes, r), append(places, s.at)
	}
	if len(runes) != vinLength {
		return VIN{}, s.misread(KindVIN, "%d characters, and a vehicle number has %d since 1981", len(runes), vinLength).notOfKind()
	}
	v := VIN{Text: string(runes)}
	refuse := func(place int, why string, args ...any) (VIN, *Misread) {
		s.at = places[place]
		m := s.misread(KindVIN, why, args...).surely()
		if s.quiet {
			return VIN{}, m
		}
		for _, c := range v.Corrections() {
			m.Nearest = append(m.Nearest, VIN{Text: c.Text})
		}
		s.at = first
		return VIN{}, m
	}
	for i, r := range runes {
		if _, ok := vinValue(r); !ok {
			return refuse(i, "%q is in no vehicle number: I, O and Q are left out", string(r))
		}
	}
	if want, ok := v.Check(); !ok && v.NorthAmerican() {
		place, what := vinCheckAt, ""
		if c := v.Corrections(); len(c) > 0 && !s.quiet {
			place = c[0].Place - 1
			what = fmt.Sprintf("; most likely character %d is %s", c[0].Place, c[0].Instead)
		}
		return refuse(place, "the check digit is %c and should be %c%s", v.Text[vinCheckAt], want, what)
	}
	return v, nil
}

// Check gives the check digit that the other characters call for, and whether it is
// there. Outside North America no check digit is required: a failed check is no
// more than a warning.
func (v VIN) Check() (want rune, ok bool) {
	if v.Plain || len(v.Text) != vinLength {
		return 0, false
	}
	want = vinCheckDigit([]rune(v.Text))
	return want, want == rune(v.Text[vinCheckAt])
}

func vinCheckDigit(runes []rune) rune {
	sum := 0
	for i, r := range runes {
		value, _ := vinValue(r)
		sum += value * vinWeights[i]
	}
	if sum %= 11; sum == 10 {
		return 'X'
	}
	return rune('0' + sum%11)
}

// NorthAmerican reports a number given out in the United States, Canada or Mexico,
// where the check digit is required (ISO 3780 regions, 1 to 5).
func (v VIN) NorthAmerican() bool {
	return !v.Plain && v.Text != "" && v.Text[0] >= '1' && v.Text[0] <= '5'
}

func (v VIN) Kind() Kind     { return KindVIN }
func (v VIN) Listed() bool   { return !v.Plain }
func (v VIN) String() string { return v.Text }

func (v VIN) Dims() []Dim {
	var d dims
	if likely, other := v.ModelYears(); likely != 0 {
		d.text("model_year", fmt.Sprintf("%d (on a heavier vehicle perhaps %d)", likely, other))
	}
	return d
}

func (v VIN) Source() string { return vinSource }

func (v VIN) Explain() []Piece {
	if v.Plain {
		return []Piece{{v.Text, "a number of no common form, as before 1981: kept as it is"}}
	}
	pieces := []Piece{{v.Text[:3], "maker, " + vinRegion(v.Text[0])}, {v.Text[3:8], "what the maker says of the vehicle"}}
	switch want, ok := v.Check(); {
	case ok:
		pieces = append(pieces, Piece{v.Text[8:9], "check digit, right"})
	default:
		pieces = append(pieces, Piece{v.Text[8:9], fmt.Sprintf("not the check digit of North America, which would be %c; elsewhere none is required", want)})
	}
	if likely, other := v.ModelYears(); likely != 0 {
		pieces = append(pieces, Piece{v.Text[9:10], fmt.Sprintf("model year %d; above 10 000 lb it may be %d as well", likely, other)})
	} else {
		pieces = append(pieces, Piece{v.Text[9:10], "no code of a model year in North America"})
	}
	return append(pieces, Piece{v.Text[10:11], "plant"}, Piece{v.Text[11:], "number in the series"})
}

// vinRegion gives the part of the world for the first character (ISO 3780).
func vinRegion(r byte) string {
	switch {
	case r >= '1' && r <= '5':
		return "North America"
	case r == '6' || r == '7':
		return "Oceania"
	case r == '8' || r == '9':
		return "South America"
	case r == '0':
		return "no region given out"
	case r <= 'H':
		return "Africa"
	case r <= 'R':
		return "Asia"
	}
	return "Europe"
}

// vinYears are the codes of model years 1980 to 2009; they came round again in 2010.
const (
	vinYears     = "ABCDEFGHJKLMNPRSTVWXY123456789"
	firstVINYear = 1980
	vinCycle     = len(vinYears)
)

// ModelYears gives the two model years that the tenth character may stand for, the
// likely one first; 0 if it stands for none. A figure in the seventh place means 1980
// to 2009, a letter 2010 to 2039 (49 CFR 565.15), but only on vehicles of up to
// 10,000 lb: the number of a heavier one does not say which of the two.
func (v VIN) ModelYears() (likely, other int) {
	if v.Plain || len(v.Text) != vinLength {
		return 0, 0
	}
	i := strings.IndexByte(vinYears, v.Text[vinYearAt])
	if i < 0 {
		return 0, 0
	}
	early, late := firstVINYear+i, firstVINYear+vinCycle+i
	if c := v.Text[vinSeventh]; c >= '0' && c <= '9' {
		return early, late
	}
	return late, early
}

// DonorYears gives the model years of a donor, of which the one of a vehicle up to
// 10,000 lb stands first; heavy says that the vehicle is known to be heavier, and
// then both are as likely.
func (v VIN) DonorYears(weight fieldkit.Mass) []int {
	likely, other := v.ModelYears()
	switch {
	case likely == 0:
		return nil
	case weight > 0 && weight <= heaviestDated:
		return []int{likely}
	}
	return []int{likely, other}
}

// heaviestDated is up to which gross weight the seventh character dates a vehicle
// (49 CFR 565.15).
const heaviestDated = 10_000 * fieldkit.Pound
