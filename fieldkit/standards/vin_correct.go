package standards

import "slices"

// Correction is one change that makes the check digit of a vehicle number right.
type Correction struct {
	Place   int    // of the character, from 1
	Read    string // what stands there
	Instead string
	Text    string // the number put right
	doubt   int    // lower is likelier
}

// MaxCorrections is how many corrections are offered.
const MaxCorrections = 6

// How likely a slip is, lower first. A character that is in no vehicle number is
// surely wrong; then come look-alikes, then neighbours in the wrong order, then any
// other single character. The check digit itself comes between.
const (
	doubtImpossible = iota
	doubtLookAlike
	doubtSwapped
	doubtCheckDigit
	doubtOther
)

// Corrections gives the single slips that explain a wrong check digit, the likeliest
// first: which place is wrong most likely is that of the first.
func (v VIN) Corrections() []Correction {
	runes := []rune(v.Text)
	if v.Plain || len(runes) != vinLength {
		return nil
	}
	fixed, impossible := replaceImpossible(runes)
	if impossible > 0 {
		if vinRight(fixed) {
			return []Correction{{Place: impossible, Read: string(runes[impossible-1]), Instead: string(fixed[impossible-1]), Text: string(fixed)}}
		}
		runes = fixed
	}
	var list []Correction
	try := func(place int, changed []rune, instead string, doubt int) {
		if vinRight(changed) && plausible(changed) {
			list = append(list, Correction{place + 1, string(runes[place]), instead, string(changed), doubt})
		}
	}
	for i, r := range runes {
		for _, c := range "0123456789ABCDEFGHJKLMNPRSTUVWXYZ" {
			if c == r || i == vinCheckAt && c != 'X' && (c < '0' || c > '9') {
				continue
			}
			changed := slices.Clone(runes)
			changed[i] = c
			doubt := doubtOther
			switch {
			case LookAlike(c, r):
				doubt = doubtLookAlike
			case i == vinCheckAt:
				doubt = doubtCheckDigit
			}
			try(i, changed, string(c), doubt)
		}
		if i+1 < vinLength && runes[i+1] != r {
			changed := slices.Clone(runes)
			changed[i], changed[i+1] = changed[i+1], changed[i]
			try(i, changed, string(changed[i:i+2]), doubtSwapped)
		}
	}
	slices.SortStableFunc(list, func(a, b Correction) int { return a.doubt - b.doubt })
	return list[:min(len(list), MaxCorrections)]
}

// replaceImpossible puts 1, 0 and 0 for I, O and Q; place is that of the first, from
// 1, or 0.
func replaceImpossible(runes []rune) (fixed []rune, place int) {
	fixed = slices.Clone(runes)
	for i, r := range runes {
		instead, wrong := map[rune]rune{'I': '1', 'O': '0', 'Q': '0'}[r]
		if !wrong {
			continue
		}
		if fixed[i] = instead; place == 0 {
			place = i + 1
		}
	}
	return fixed, place
}

func vinRight(runes []rune) bool { return vinCheckDigit(runes) == runes[vinCheckAt] }

// plausible holds a number against what is known of its form: a code of a model year
// in the tenth place, figures in the last four.
func plausible(runes []rune) bool {
	for _, r := range runes[vinSerialAt:] {
		if r < '0' || r > '9' {
			return false
		}
	}
	return slices.Contains([]rune(vinYears), runes[vinYearAt])
}
