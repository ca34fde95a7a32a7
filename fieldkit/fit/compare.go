package fit

import (
	"fmt"
	"math"

	"trailfieldkit/fieldkit"
)

// Outcome is how one attribute of the part in hand stands to the one wanted.
type Outcome string

const (
	Agrees      Outcome = "agrees"
	Changed     Outcome = "agrees with a change"
	Differs     Outcome = "differs"
	NotSure     Outcome = "not sure"     // the tools or the words cannot tell
	NotProven   Outcome = "not proven"   // agrees as far as known, which is not enough where it is dangerous
	NotMeasured Outcome = "not measured" // on the part in hand
	NotKnown    Outcome = "not known"    // of the part wanted
	OtherName   Outcome = "another name" // another designation: it may measure the same
)

// Line is the comparison of one attribute.
type Line struct {
	Attribute Attribute
	Wanted    *Reading // nil if not known
	Got       *Reading
	Outcome   Outcome
	Why       string            // in words, for any outcome but agrees
	By        string            // what settled it, if not its own reading: "series 1350"
	Proof     fieldkit.Evidence // the weaker of both sides; "" while one is missing
}

// compare judges one attribute by its own readings.
func (a Attribute) compare(wanted, got *Reading) Line {
	l := Line{Attribute: a, Wanted: wanted, Got: got}
	if wanted != nil && wanted.Value.Dim != a.Dim {
		l.Wanted = nil
		l.Outcome, l.Why = NotKnown, fmt.Sprintf("the kit has %q, which is no %s", wanted.Value.String(), a.Dim)
		return l
	}
	switch {
	case wanted == nil:
		l.Outcome, l.Why = NotKnown, "it is not known of the part wanted"
		return l
	case got == nil:
		l.Outcome = NotMeasured
		return l
	}
	l.Proof = weaker(wanted.How, got.How)
	if a.Dim == fieldkit.DimText {
		l.Outcome, l.Why = a.words(wanted.Value.Text, got.Value.Text)
	} else {
		l.Outcome, l.Why = a.amounts(*wanted, *got)
	}
	if l.Outcome == Differs && len(a.Spec.Settles) > 0 && !a.Must {
		l.Outcome, l.Why = OtherName, "another designation may measure the same: measure it"
	}
	return l
}

func weaker(a, b fieldkit.Evidence) fieldkit.Evidence {
	if b.Strength() < a.Strength() {
		return b
	}
	return a
}

func (a Attribute) words(wanted, got string) (Outcome, string) {
	s := a.Spec
	list := []string{wanted}
	if s.Rule == Listed {
		list = append(list, alternatives(wanted)...)
	}
	best := unlike
	for _, one := range list {
		if len(s.Order) > 0 && s.Rule != Equal && s.Rule != Listed {
			below, above, ok := compareOrder(one, got, s.Order)
			switch {
			case !ok:
				best = min(best, hazy)
			case s.Rule == AtLeast && !below, s.Rule == AtMost && !above:
				best = same
			}
			continue
		}
		best = min(best, compareWords(one, got, s.Words))
	}
	switch best {
	case same:
		return Agrees, ""
	case hazy:
		return NotSure, fmt.Sprintf("%q and %q may be the same or not: lay part on part", got, wanted)
	}
	if c := s.Change; c != nil && c.forWords(got, s.Words) {
		return Changed, c.Do
	}
	return Differs, orElse(a.Why, "it is not the same")
}

func (c Change) forWords(got string, vocabulary []string) bool {
	if len(c.When) == 0 {
		return true
	}
	for _, when := range c.When {
		if compareWords(when, got, append(vocabulary, when)) != unlike {
			return true
		}
	}
	return false
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}

// endless is further than any part measures; it can be added to without overflow.
const endless = math.MaxInt64 / 8

// span is how far the part in hand may lie below and above the wanted one.
type span struct{ below, above int64 }

func (a Attribute) tolerance(wanted fieldkit.Value) span {
	t := span{a.Spec.Below.of(wanted), a.Spec.Above.of(wanted)}
	switch a.Spec.Rule {
	case AtLeast:
		t.above = endless
	case AtMost:
		t.below = endless
	}
	return t
}

// amounts compares by size. The doubt is that of both tools, added as independent
// readings are (root of the sum of squares: JCGM 100, 5.1.2), and wear on top. A value
// agrees that lies within the tolerance, if the doubt is no larger than the tolerance
// or than the distance to its end; it differs if it lies outside by more than the
// doubt.
func (a Attribute) amounts(wanted, got Reading) (Outcome, string) {
	off := got.Value.Base - wanted.Value.Base
	t := a.tolerance(wanted.Value)
	doubt := int64(math.Ceil(math.Hypot(float64(wanted.Within), float64(got.Within))))
	worn := a.wear(wanted, got)
	low, high := off+t.below, t.above-off // room to either end, below 0 outside
	fine := doubt <= finite(t)
	switch {
	case low >= 0 && high >= 0 && (fine || min(low, high) >= doubt):
		return Agrees, ""
	case low+doubt+worn.above < 0 || high+doubt+worn.below < 0:
		if c := a.Spec.Change; c != nil && c.forAmounts(off, wanted.Value) {
			return Changed, c.Do
		}
		return Differs, orElse(a.Why, "it is not the same")
	case worn.above > 0 && low+doubt < 0, worn.below > 0 && high+doubt < 0:
		return NotSure, "the difference may be wear: measure a new one, or where it is not worn"
	}
	return NotSure, fmt.Sprintf("a finer tool must tell: these two readings may be off by %s together", fieldkit.Length(doubt).Both(fieldkit.Metric))
}

// finite is the larger finite end of a tolerance.
func finite(t span) int64 {
	switch {
	case t.below >= endless:
		return t.above
	case t.above >= endless:
		return t.below
	}
	return max(t.below, t.above)
}

// wear says how far the true difference may lie below and above the one read, because
// one of the parts is worn.
func (a Attribute) wear(wanted, got Reading) (w span) {
	if a.Spec.Worn == nil {
		return w
	}
	below, above := a.Spec.Worn.Below.of(wanted.Value), a.Spec.Worn.Above.of(wanted.Value)
	if wanted.Worn { // new, it measured more by up to below: the difference is less
		w.below, w.above = w.below+below, w.above+above
	}
	if got.Worn {
		w.below, w.above = w.below+above, w.above+below
	}
	return w
}

func (c Change) forAmounts(off int64, wanted fieldkit.Value) bool {
	if !c.Below.Written && !c.Above.Written {
		return true
	}
	return off >= -c.Below.of(wanted) && off <= c.Above.of(wanted)
}

// settled makes a line agree by something else than its own reading, unless that
// speaks against it.
func (l *Line) settled(by string, proof fieldkit.Evidence) {
	if l.Outcome == Differs || l.Outcome == Changed || l.Outcome == Agrees {
		return
	}
	l.Outcome, l.Why, l.By, l.Proof = Agrees, "", by, proof
}

// enough says what proof an attribute of a dangerous kind needs: what is measured must
// be measured or read off the part; for looks it is enough to have seen both.
func (a Attribute) enough() fieldkit.Evidence {
	if a.Dim == fieldkit.DimText {
		return fieldkit.Seen
	}
	return fieldkit.NumberRead
}

// Both says what a line compares in words, the system read first in front.
func (l Line) Both(first fieldkit.System) (wanted, got string) {
	show := func(r *Reading) string {
		if r == nil {
			return ""
		}
		text := r.Value.Both(first)
		if r.Worn {
			text += ", worn"
		}
		return text
	}
	return show(l.Wanted), show(l.Got)
}

// Name is what the attribute is called.
func (l Line) Name() string { return l.Attribute.Name }
