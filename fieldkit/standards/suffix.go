package standards

import (
	"slices"
	"strings"
)

// Suffix is a code behind a bearing's number.
type Suffix struct {
	Code string // "2RS", "C3"
	Says string
}

// trait is what a suffix is about: a bearing has at most one of each. They are
// printed in this order (DIN 623-1 practice, from memory).
type trait int

const (
	inside trait = iota
	seals
	taper
	groove
	cage
	pairing
	class
	clearance
	heat
	other
)

// traits sorts the codes of the suffix table. A code the table gains later is of
// trait other until it is sorted in here.
var traits = map[string]trait{
	"E": inside, "V": inside,
	"2RS": seals, "RS": seals, "ZZ": seals, "2Z": seals, "Z": seals, "2RZ": seals, "RZ": seals, "ZN": seals, "ZNR": seals,
	"K": taper, "K30": taper,
	"N": groove, "NR": groove,
	"M": cage, "MA": cage, "MB": cage, "J": cage, "Y": cage, "TN": cage,
	"DB": pairing, "DF": pairing, "DT": pairing,
	"P0": class, "P6": class, "P5": class, "P4": class, "P2": class,
	"C1": clearance, "C2": clearance, "CN": clearance, "C0": clearance, "C3": clearance, "C4": clearance, "C5": clearance,
	"S0": heat, "S1": heat,
}

func traitOf(code string) trait {
	if t, ok := traits[code]; ok {
		return t
	}
	return other
}

// suffixes are what codes mean behind the numbers of one kind of bearing.
type suffixes struct {
	says  map[string]string
	codes []string
}

func (o *opener) suffixes(appliesTo ...string) suffixes {
	says := map[string]string{}
	o.each("bearing_suffixes", func(r row) {
		if r.text("position") == "suffix" && slices.Contains(appliesTo, r.text("applies_to")) {
			says[r.text("code")] = r.text("meaning")
		}
	})
	return suffixes{says, keys(says)}
}

// read takes the suffixes at the place, written with or without dashes, slashes
// and blanks between them.
func (c suffixes) read(s *scan, kind Kind) ([]Suffix, *Misread) {
	var list []Suffix
	for {
		s.skip(" -/.")
		if s.done() {
			break
		}
		start := s.at
		code := s.piece(c.codes)
		if code == "" {
			return nil, s.misread(kind, "%q is no suffix of the standards; makers have their own, and it may be left out", s.next())
		}
		for _, before := range list {
			if t := traitOf(code); t == traitOf(before.Code) && (t != other || before.Code == code) {
				s.at = start
				return nil, s.misread(kind, "%q comes after %q, and a bearing has one of these", code, before.Code)
			}
		}
		list = append(list, Suffix{code, c.says[code]})
	}
	slices.SortStableFunc(list, func(a, b Suffix) int { return int(traitOf(a.Code)) - int(traitOf(b.Code)) })
	return list, nil
}

// withSuffixes prints a number with its suffixes: seals after a dash, all else after
// a blank.
func withSuffixes(number string, list []Suffix) string {
	var b strings.Builder
	b.WriteString(number)
	for _, x := range list {
		if traitOf(x.Code) == seals {
			b.WriteString("-" + x.Code)
		} else {
			b.WriteString(" " + x.Code)
		}
	}
	return b.String()
}

func explainSuffixes(list []Suffix) (pieces []Piece) {
	for _, x := range list {
		pieces = append(pieces, Piece{x.Code, x.Says})
	}
	return pieces
}

// Suffixes lists the codes that may stand behind the numbers of a kind of bearing;
// none for other kinds.
func (h *Handbook) Suffixes(kind Kind) []string {
	switch kind {
	case KindBall:
		return h.ballSuffixes.codes
	case KindRoller:
		return h.rollerSuffixes.codes
	case KindTaperMetric:
		return h.taperSuffixes.codes
	}
	return nil
}
