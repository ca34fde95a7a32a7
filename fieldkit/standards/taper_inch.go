package standards

import (
	"strings"

	"trailfieldkit/fieldkit"
)

// TaperInch is an inch tapered roller bearing: a set of cone and cup, or one of the
// halves, which are numbered and sold by themselves.
type TaperInch struct {
	Cone, Cup           string // one may be ""
	Bore, OD, Width     fieldkit.Length
	ConeWidth, CupWidth fieldkit.Length
	Partners            []string // of a half: the other halves it is listed with
	listed              bool
	source              string
}

// ParseTaperInch reads a set, LM501349/LM501310 or LM501349/10, or either half
// alone. A K before the numbers is left out. The error is a *Misread.
func (h *Handbook) ParseTaperInch(text string) (TaperInch, error) {
	return parse(text, h.readTaperInch)
}

func (h *Handbook) readTaperInch(s *scan) (TaperInch, *Misread) {
	first, m := h.readHalf(s, "")
	if m != nil {
		return TaperInch{}, m
	}
	mark := s.at
	if !s.skip(" /-,+&") || s.done() {
		s.at = mark
		return h.half(first), nil
	}
	at := s.at
	second, m := h.readHalf(s, first)
	if m != nil {
		return TaperInch{}, m
	}
	if t, ok := h.sets.named(first + "/" + second); ok {
		return t, nil
	}
	if t, ok := h.sets.named(second + "/" + first); ok {
		return t, nil
	}
	one, other := h.half(first), h.half(second)
	if one.Cone == "" {
		one, other = other, one
	}
	if one.Cone == "" || other.Cup == "" {
		s.at = at
		return TaperInch{}, s.misread(KindTaperInch, "%q and %q are two cones or two cups; a set has one of each", first, second)
	}
	// A cone runs in several cups of its series, of which the table may not list
	// each. What is known of the halves holds; the width of the set does not.
	if seriesOf(one.Cone) != seriesOf(other.Cup) {
		s.at = at
		return TaperInch{}, s.misread(KindTaperInch, "cone %s is not listed with cup %s, but with %s", one.Cone, other.Cup, strings.Join(one.Partners, ", "))
	}
	one.Cup, one.OD, one.CupWidth, one.Partners, one.listed = other.Cup, other.OD, other.CupWidth, nil, false
	return one, nil
}

// readHalf takes one number. after is the number before it, whose beginning may be
// left out: LM501349/10.
func (h *Handbook) readHalf(s *scan, after string) (string, *Misread) {
	start := s.at
	number := s.letters()
	if number == "K" && s.take('-') {
		number = s.letters()
	}
	number += s.digits()
	if tail := s.letters(); tail != "" {
		// 355A is a number, 355A-X is not: letters behind belong to the number where
		// the table has it so.
		for n := len(tail); n > 0; n-- {
			if h.isHalf(number+tail[:n]) || h.isHalf(strings.TrimPrefix(number, "K")+tail[:n]) {
				number += tail[:n]
				tail = tail[n:]
				break
			}
		}
		s.at -= len(tail)
	}
	if !h.isHalf(number) {
		number = strings.TrimPrefix(number, "K")
	}
	if n := len(number); after != "" && !h.isHalf(number) && (n == 2 || n == 3) && n < len(after) {
		number = after[:len(after)-n] + number
	}
	if h.isHalf(number) {
		return number, nil
	}
	s.at = start
	if number == "" {
		return "", s.expected(KindTaperInch, "the number of a cone or cup")
	}
	typed := s.next()
	s.at += min(h.halves.common(s, number), len(s.runes)-s.at)
	return "", s.misread(KindTaperInch, "no cone or cup of the table is numbered %q", typed)
}

func (h *Handbook) isHalf(number string) bool {
	_, ok := h.halves.named(number)
	return ok
}

func (h *Handbook) half(number string) TaperInch {
	t, _ := h.halves.named(number)
	return t
}

// seriesOf gives a number without its last two digits and what follows: halves of
// one series share it (ABMA 19.2 numbering, from memory).
func seriesOf(number string) string {
	digits := strings.TrimRight(number, "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
	return digits[:max(len(digits)-2, 0)]
}

func (t TaperInch) Kind() Kind   { return KindTaperInch }
func (t TaperInch) Listed() bool { return t.listed }

func (t TaperInch) String() string {
	if t.Cone == "" || t.Cup == "" {
		return t.Cone + t.Cup
	}
	return t.Cone + "/" + t.Cup
}

func (t TaperInch) Dims() []Dim {
	var d dims
	d.length("bore", t.Bore)
	d.length("od", t.OD)
	d.length("width", t.Width)
	d.length("cone_width", t.ConeWidth)
	d.length("cup_width", t.CupWidth)
	return d
}

func (t TaperInch) Source() string { return t.source }

func (t TaperInch) Explain() []Piece {
	var pieces []Piece
	if t.Cone != "" {
		pieces = append(pieces, Piece{t.Cone, "cone: the inner ring with its rollers"})
	}
	if t.Cup != "" {
		pieces = append(pieces, Piece{t.Cup, "cup: the outer ring"})
	}
	if len(t.Partners) > 0 {
		pieces = append(pieces, Piece{strings.Join(t.Partners, ", "), "what it is listed with; the other half decides width and fit"})
	}
	return pieces
}

func (o *opener) sets(h *Handbook) {
	o.each("tapered_inch", func(r row) {
		t := TaperInch{
			Cone: r.text("cone"), Cup: r.text("cup"),
			Bore: r.mm("bore_mm"), OD: r.mm("od_mm"), Width: r.mm("width_T_mm"),
			ConeWidth: r.mm("cone_width_B_mm"), CupWidth: r.mm("cup_width_C_mm"),
			listed: true, source: r.source(),
		}
		h.sets.add(t, t.String())
		h.addHalf(TaperInch{Cone: t.Cone, Bore: t.Bore, ConeWidth: t.ConeWidth, Partners: []string{t.Cup}, listed: true, source: t.source})
		h.addHalf(TaperInch{Cup: t.Cup, OD: t.OD, CupWidth: t.CupWidth, Partners: []string{t.Cone}, listed: true, source: t.source})
	})
}

func (h *Handbook) addHalf(half TaperInch) {
	if i, ok := h.halves.by[half.String()]; ok {
		known := &h.halves.all[i]
		known.Partners = append(known.Partners, half.Partners...)
		return
	}
	h.halves.add(half, half.String())
}
