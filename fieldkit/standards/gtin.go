package standards

import (
	"fmt"
	"strings"
)

// GTIN is an article number with its check digit, as barcodes hold it. Numbers of 8,
// 12 and 13 digits are the same number with noughts in front: all are kept as 14.
type GTIN struct {
	Digits string // 14
}

const (
	gtinLength = 14
	gtinSource = "GS1 General Specifications: check digit, weights 3 and 1 from the right"
)

// ParseGTIN reads an article number of 8 (EAN-8), 12 (UPC-A), 13 (EAN-13) or 14
// digits, blanks and dashes left out. The error is a *Misread.
func (h *Handbook) ParseGTIN(text string) (GTIN, error) { return parse(text, h.readGTIN) }

// ParseUPCE reads the short form of UPC, 8 digits that begin with 0 or 1, and gives
// the whole number. The error is a *Misread.
func (h *Handbook) ParseUPCE(text string) (GTIN, error) { return parse(text, h.readUPCE) }

func (h *Handbook) readGTIN(s *scan) (GTIN, *Misread) {
	digits, places, m := s.articleDigits()
	if m != nil {
		return GTIN{}, m
	}
	switch len(digits) {
	case 8, 12, 13, 14:
	default:
		return GTIN{}, s.misread(KindGTIN, "%d digits, and an article number has 8, 12, 13 or 14", len(digits)).notOfKind()
	}
	return s.checkedGTIN(digits, places)
}

func (h *Handbook) readUPCE(s *scan) (GTIN, *Misread) {
	digits, places, m := s.articleDigits()
	if m != nil {
		return GTIN{}, m
	}
	if len(digits) != 8 || digits[0] > '1' {
		return GTIN{}, s.misread(KindGTIN, "the short form of UPC has 8 digits and begins with 0 or 1").notOfKind()
	}
	g, m := s.checkedGTIN(expandUPCE(digits), places)
	if m != nil { // the long form says it better
		m.Nearest, m.standing = nil, foreign
	}
	return g, m
}

// expandUPCE gives the twelve digits of UPC-A for the eight of UPC-E, whose seventh
// says where noughts were left out (GS1 General Specifications).
func expandUPCE(d string) string {
	system, six, check := d[:1], d[1:7], d[7:]
	switch last := six[5]; {
	case last <= '2':
		return system + six[:2] + string(last) + "0000" + six[2:5] + check
	case last == '3':
		return system + six[:3] + "00000" + six[3:5] + check
	case last == '4':
		return system + six[:4] + "00000" + six[4:5] + check
	default:
		return system + six[:5] + "0000" + string(last) + check
	}
}

// articleDigits takes all digits to the end, blanks and dashes between them.
func (s *scan) articleDigits() (digits string, places []int, m *Misread) {
	var b strings.Builder
	for ; !s.done(); s.at++ {
		switch r := s.peek(); {
		case r >= '0' && r <= '9':
			b.WriteRune(r)
			places = append(places, s.at)
		case r != ' ' && r != '-':
			return "", nil, s.expected(KindGTIN, "a digit").notOfKind()
		}
	}
	return b.String(), places, nil
}

func (s *scan) checkedGTIN(digits string, places []int) (GTIN, *Misread) {
	long := strings.Repeat("0", gtinLength-len(digits)) + digits
	if onlyNoughts(digits) {
		return GTIN{}, s.misread(KindGTIN, "nothing but noughts")
	}
	if want := gtinCheck(long[:gtinLength-1]); want != long[gtinLength-1] {
		s.at = places[len(places)-1]
		m := s.misread(KindGTIN, "the check digit is %c and should be %c", long[gtinLength-1], want).surely()
		if !s.quiet {
			m.Nearest = gtinNear(digits, want)
		}
		s.at = len(s.runes)
		return GTIN{}, m
	}
	return GTIN{long}, nil
}

func onlyNoughts(digits string) bool { return strings.Trim(digits, "0") == "" }

// gtinCheck gives the check digit of 13 digits: weights 3 and 1 in turn, from the
// right.
func gtinCheck(thirteen string) byte {
	sum := 0
	for i := range thirteen {
		weight := 3
		if i%2 == 1 {
			weight = 1
		}
		sum += int(thirteen[i]-'0') * weight
	}
	return byte('0' + (10-sum%10)%10)
}

// gtinNear gives what may have been meant: neighbours in the wrong order, digits that
// look alike, then the right check digit.
func gtinNear(digits string, want byte) (near []Designation) {
	add := func(changed []byte) {
		long := strings.Repeat("0", gtinLength-len(changed)) + string(changed)
		if !onlyNoughts(long) && gtinCheck(long[:gtinLength-1]) == long[gtinLength-1] && len(near) < maxNearest {
			near = append(near, GTIN{long})
		}
	}
	for i := range digits[:len(digits)-1] {
		swapped := []byte(digits)
		swapped[i], swapped[i+1] = swapped[i+1], swapped[i]
		if string(swapped) != digits {
			add(swapped)
		}
	}
	for i := range digits {
		for c := byte('0'); c <= '9'; c++ {
			if LookAlike(rune(c), rune(digits[i])) {
				changed := []byte(digits)
				changed[i] = c
				add(changed)
			}
		}
	}
	right := []byte(digits)
	right[len(right)-1] = want
	add(right)
	return near
}

func (g GTIN) Kind() Kind     { return KindGTIN }
func (g GTIN) Listed() bool   { return true }
func (g GTIN) String() string { return g.Digits }

// Short gives the number as a label prints it: 8, 12, 13 or 14 digits.
func (g GTIN) Short() string {
	for _, n := range []int{8, 12, 13} {
		if onlyNoughts(g.Digits[:gtinLength-n]) {
			return g.Digits[gtinLength-n:]
		}
	}
	return g.Digits
}

func (g GTIN) Dims() []Dim    { return nil }
func (g GTIN) Source() string { return gtinSource }

func (g GTIN) Explain() []Piece {
	return []Piece{
		{g.Short(), fmt.Sprintf("article number of %d digits", len(g.Short()))},
		{g.Digits[gtinLength-1:], "check digit, right: the number was read whole"},
	}
}
