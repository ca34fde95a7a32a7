package fit

import (
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
)

// Verdict is the answer to whether the part in hand fits.
type Verdict string

const (
	Fits         Verdict = "fits"
	WithChanges  Verdict = "fits with changes"
	DoesNotFit   Verdict = "does not fit"
	MeasureFirst Verdict = "measure these first"
)

// Result is a part in hand compared with the one wanted.
type Result struct {
	Verdict Verdict
	Lines   []Line   // in the order of the schema
	Changes []string // what must be done, one each
	// Measure is the shortest list of what is still to find out before the verdict
	// can be given; empty once it is given.
	Measure []ToDo
	// Weakest is the least proof among what the verdict rests on; "" if it rests on
	// nothing yet.
	Weakest fieldkit.Evidence
	Caution string // of the kind
}

// ToDo is one thing to find out.
type ToDo struct {
	Name    string   // of the attribute
	Wanted  bool     // on the part wanted: the old one
	InHand  bool     // on the part in hand
	How     string   // how to measure it
	Why     string   // what is open
	Instead []string // the attributes that need no measuring then
}

// Compare judges the part in hand against the one wanted.
//
// It does not fit if any attribute differs and no change makes up for it. It fits,
// with or without changes, once every attribute that must agree does. Until then what
// is open is listed. A number on the part in hand that is proven for the wanted one
// settles everything, a designation both bear what its standard defines, but never what
// was measured to differ. For a kind that carries a caution, an attribute that must agree does so
// only if both sides are measured or read off the part, or seen where it is by eye.
func Compare(s Schema, wanted Part, hand Hand) Result {
	r := Result{Caution: s.Kind.Caution}
	for _, a := range s.Attributes {
		r.Lines = append(r.Lines, a.compare(wanted.Readings.Of(a.Name), hand.Readings.Of(a.Name)))
	}
	r.settle(s, wanted, hand)
	if s.Careful() {
		for i := range r.Lines {
			l := &r.Lines[i]
			if (l.Outcome == Agrees || l.Outcome == Changed) && l.Attribute.Must && l.Proof.Strength() < l.Attribute.enough().Strength() {
				l.Outcome, l.Why = NotProven, notProvenWords(*l)
			}
		}
	}
	r.conclude()
	return r
}

// On says on which part it is to be found out.
func (d ToDo) On() string {
	switch {
	case d.Wanted && d.InHand:
		return "on both parts"
	case d.Wanted:
		return "on the part wanted"
	}
	return "on the part in hand"
}

// Of finds what is known of an attribute; nil if nothing is.
func (list Readings) Of(name string) *Reading {
	if r, ok := list[foldName(name)]; ok {
		return &r
	}
	return nil
}

// Set keeps a reading under its attribute's name.
func (list Readings) Set(name string, r Reading) { list[foldName(name)] = r }

// settle lets the number of the part and designations speak for what they stand for.
func (r *Result) settle(s Schema, wanted Part, hand Hand) {
	for i := range r.Lines {
		l := r.Lines[i]
		if l.Outcome != Agrees || len(l.Attribute.Spec.Settles) == 0 {
			continue
		}
		for j := range r.Lines {
			if slices.Contains(l.Attribute.Spec.Settles, r.Lines[j].Name()) {
				r.Lines[j].settled(l.Name()+" "+l.Got.Value.Text, l.Proof)
			}
		}
	}
	number := foldNumber(hand.Number)
	named := number != "" && slices.Contains(wanted.Numbers, number)
	how, designated := wanted.Designations[number]
	for i := range r.Lines {
		l := &r.Lines[i]
		switch proof := weaker(how, fieldkit.NumberRead); {
		case named:
			l.settled("number "+strings.TrimSpace(hand.Number), fieldkit.NumberRead)
		case !designated || !slices.Contains(s.Designated, l.Name()):
		case s.Careful() && l.open() && proof.Strength() < l.Attribute.enough().Strength():
			l.Why = fmt.Sprintf("%s is not proven for the part wanted", strings.TrimSpace(hand.Number))
		default:
			l.settled("designation "+strings.TrimSpace(hand.Number), proof)
		}
	}
}

func notProvenWords(l Line) string {
	side := "of the part in hand"
	if l.Wanted != nil && l.Got != nil && l.Wanted.How.Strength() < l.Got.How.Strength() {
		side = "of the part wanted"
	}
	if l.Proof == fieldkit.Seen {
		return fmt.Sprintf("%s it is only looked at, or nothing says how it was measured", side)
	}
	return fmt.Sprintf("%s it is only known by %s", side, l.Proof)
}

func (r *Result) conclude() {
	open := false
	for _, l := range r.Lines {
		switch l.Outcome {
		case Differs:
			r.Verdict = DoesNotFit
		case Changed:
			r.Changes = append(r.Changes, l.Name()+": "+l.Why)
		case Agrees, OtherName:
		default:
			open = open || l.Attribute.Must
		}
		if l.Proof != "" && (l.Attribute.Must || l.Outcome == Differs || l.Outcome == Changed) && (r.Weakest == "" || l.Proof.Strength() < r.Weakest.Strength()) {
			r.Weakest = l.Proof
		}
	}
	switch {
	case r.Verdict == DoesNotFit:
	case open:
		r.Verdict = MeasureFirst
		r.Measure = r.shortest()
	case len(r.Changes) > 0:
		r.Verdict = WithChanges
	default:
		r.Verdict = Fits
	}
}

// Differing names the attributes that differ.
func (r Result) Differing() []string {
	var list []string
	for _, l := range r.Lines {
		if l.Outcome == Differs {
			list = append(list, l.Name())
		}
	}
	return list
}

// Say gives the verdict in one sentence.
func (r Result) Say() string {
	switch r.Verdict {
	case DoesNotFit:
		return "does not fit: " + strings.Join(r.Differing(), ", ")
	case WithChanges:
		return "fits with changes: " + strings.Join(r.Changes, "; ")
	case MeasureFirst:
		var names []string
		for _, d := range r.Measure {
			names = append(names, d.Name)
		}
		return "measure these first: " + strings.Join(names, ", ")
	}
	if r.Weakest == fieldkit.Hearsay {
		return "fits, as far as hearsay goes"
	}
	return "fits"
}
