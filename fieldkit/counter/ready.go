package counter

import (
	"fmt"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// State says whether a stranger at a counter could be told what to ask for.
type State string

const (
	StateReady  State = "ready"
	StateNearly State = "nearly" // one thing to find out
	StateNot    State = "not ready"
)

// Readiness is how well the part at one position is known.
type Readiness struct {
	Rig      string // ID
	Position string // ID
	Title    string // of the position
	Part     string // ID, if one is known
	State    State
	Gaps     []string // what is not known, in words; none when ready

	open []Gap
}

// Ready judges every position of a rig, in the order of the kit.
//
// A position is ready when the part is known and proven to sit there by more than
// hearsay; when there is somebody or something to ask by, a donor, a standard
// designation or a number read off the part; and when what decides is known: such a
// number, or all the measurements that the kind of part must have.
func Ready(kit fieldkit.Kit, cat fieldkit.Catalog, rig string) []Readiness {
	l := openLedger(kit, cat)
	graph := interchange.New(kit.Parts, kit.Links)
	var list []Readiness
	for _, p := range kit.PositionsOf(rig) {
		list = append(list, l.judge(p, graph))
	}
	return list
}

func (l *ledger) judge(at fieldkit.Position, graph *interchange.Graph) Readiness {
	part, known := l.parts[at.Part]
	kind := l.kindOf(part, at)
	r := Readiness{Rig: l.rigOf(at).ID, Position: at.ID, Title: at.Title(), Part: part.ID}
	a := l.assess(at, part, known, kind)
	for _, m := range a.missing {
		r.Gaps = append(r.Gaps, m.What)
		m.Positions, m.Title, m.Part = []string{at.ID}, at.Title(), part.ID
		m.rate, m.lost, m.spare = kind.Per10000, kind.IfLeft, l.spareFor(part.ID, graph)
		r.open = append(r.open, m)
	}
	switch {
	case a.steps == 0:
		r.State = StateReady
	case a.steps == 1 && known:
		r.State = StateNearly
	default:
		r.State = StateNot
	}
	return r
}

// assessment is what is missing at one position and how many things must be found
// out, at the least, to make it ready.
type assessment struct {
	missing []Gap
	steps   int
}

func (l *ledger) assess(at fieldkit.Position, part fieldkit.Part, known bool, kind fieldkit.PartKind) assessment {
	if !known {
		return assessment{steps: 1, missing: []Gap{{steps: 1, atPosition: true, What: whichPart(kind)}}}
	}
	number := hasProven(part)
	_, donor := l.donors[part.Donor]

	placed := 0
	if at.Proof != nil && at.Proof.How == fieldkit.Hearsay {
		placed = 1
	}
	var open []Gap // what else must be found out if no number is proven
	if !donor && !number {
		open = append(open, Gap{What: "donor not known"})
	}
	if !number {
		for _, d := range kind.Deciding {
			if _, ok := reading(part, d.Name); d.Must && !ok {
				open = append(open, Gap{What: toMeasure(d)})
			}
		}
	}
	a := assessment{steps: placed + len(open)}
	for i := range open {
		open[i].steps = placed + len(open)
	}
	if n, ok := unproven(part); ok && len(open) > 0 {
		open = append(open, Gap{steps: placed + 1, What: fmt.Sprintf("number %s %s: read it off the part", n.Value, unprovenWords(n))})
		a.steps = placed + 1
	}
	if placed > 0 {
		a.missing = append(a.missing, Gap{steps: a.steps, atPosition: true, What: fmt.Sprintf("that %s sits here is only hearsay", l.partName(part.ID))})
	}
	a.missing = append(a.missing, open...)
	return a
}

func whichPart(kind fieldkit.PartKind) string {
	text := "find out which part is fitted"
	if kind.Name != "" {
		text += " (" + kind.Name + ")"
	}
	return text
}

func unprovenWords(n fieldkit.Number) string {
	if n.Proof == nil || n.Proof.How == "" {
		return "without a word on how it is known"
	}
	return "only " + string(n.Proof.How)
}

// toMeasure says what to do about a missing measurement.
func toMeasure(a fieldkit.Attribute) string {
	switch a.Dim {
	case fieldkit.DimCount:
		return "count " + a.Name
	case fieldkit.DimText:
		return "note " + a.Name
	}
	return "measure " + a.Name
}

// spareFor counts the pieces in stock that take the place of a part as they are.
func (l *ledger) spareFor(part string, graph *interchange.Graph) int {
	n := l.stock[part]
	for _, s := range graph.StandIns(part) {
		if len(s.Changes) == 0 && len(s.Contested) == 0 && s.Grade != fieldkit.WithChanges {
			n += l.stock[s.Part]
		}
	}
	return n
}

func orElse(text, other string) string {
	if text == "" {
		return other
	}
	return text
}
