package counter

import (
	"fmt"
	"strings"

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
// A position is ready when the part is known and more than hearsay says that it sits
// there, where a part entered without a word on how it is known counts as seen; when
// there is somebody or something to ask by, a donor, a standard
// designation or a number read off the part; and when what decides is known: such a
// number, or all the measurements that the kind of part must have.
func Ready(kit fieldkit.Kit, cat fieldkit.Catalog, rig string) []Readiness {
	l := openLedger(kit, cat)
	graph := interchange.Of(kit.Parts, kit.Links)
	var list []Readiness
	for _, p := range kit.PositionsOf(rig) {
		list = append(list, l.judge(p, graph))
	}
	return list
}

// ReadyAt judges one position, as Ready does.
func ReadyAt(kit fieldkit.Kit, cat fieldkit.Catalog, at fieldkit.Position) Readiness {
	return openLedger(kit, cat).judge(at, interchange.Of(kit.Parts, kit.Links))
}

func (l *ledger) judge(at fieldkit.Position, graph *interchange.Graph) Readiness {
	part, known := l.kit.Part(at.Part)
	kind := l.kindOf(part, at)
	r := Readiness{Rig: l.rigOf(at).ID, Position: at.ID, Title: at.Title(), Part: part.ID}
	a := l.assess(at, part, known, kind)
	r.Gaps = a.words
	for _, g := range a.open {
		g.Positions, g.Title, g.Part = []string{at.ID}, at.Title(), part.ID
		g.rate, g.lost, g.spare = kind.Per10000, kind.IfLeft, l.spareFor(part.ID, graph)
		r.open = append(r.open, g)
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
	words []string
	open  []Gap // the same as things to do: what settles the same is one
	steps int
}

func (l *ledger) assess(at fieldkit.Position, part fieldkit.Part, known bool, kind fieldkit.PartKind) assessment {
	if !known {
		what := whichPart(kind)
		return assessment{words: []string{what}, open: []Gap{{What: what, AtPosition: true, steps: 1}}, steps: 1}
	}
	var a assessment
	if at.Proof != nil && at.Proof.How == fieldkit.Hearsay {
		a.words = []string{fmt.Sprintf("that %s sits here is only hearsay", l.partName(part.ID))}
		a.open = []Gap{{What: a.words[0], AtPosition: true}}
	}
	lacking := l.lacking(part, kind)
	a.words = append(a.words, lacking...)
	n, hasNumber := unproven(part)
	if hasNumber && len(lacking) > 0 {
		number := fmt.Sprintf("number %s %s: read it off the part", n.Value, unprovenWords(n))
		a.words = append(a.words, number)
		a.open = append(a.open, Gap{What: number + ", or else: " + strings.Join(lacking, ", ")})
	} else {
		for _, what := range lacking {
			a.open = append(a.open, Gap{What: what})
		}
	}
	a.steps = len(a.open)
	for i := range a.open {
		a.open[i].steps = a.steps
	}
	return a
}

// lacking says what must be found out about a part of which no number is proven.
func (l *ledger) lacking(part fieldkit.Part, kind fieldkit.PartKind) (list []string) {
	if hasProven(part) {
		return nil
	}
	if _, ok := l.donors[part.Donor]; !ok {
		list = append(list, "donor not known")
	}
	for _, d := range kind.Deciding {
		if _, ok := reading(part, d.Name); d.Must && !ok {
			list = append(list, toMeasure(d))
		}
	}
	return list
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
	n := l.kit.Stock(part)
	for _, s := range graph.StandIns(part) {
		if len(s.Changes) == 0 && len(s.Contested) == 0 && s.Grade != fieldkit.WithChanges {
			n += l.kit.Stock(s.Part)
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
