package interchange

import (
	"cmp"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// area is parts of which each is connected with each by some chain of ties, in
// whatever direction, and all that is known between them. It never changes.
type area struct {
	ids    []string       // of the parts, sorted: a part's index is its rank
	index  map[string]int // the other way round
	edges  [][]edge       // by part that is wanted, sorted
	back   [][]edge       // by part that stands in, sorted
	tied   [][]*tie       // by part: the standard designations it shares with others
	blocks map[[2]int]*fieldkit.Link
	barred [][]int // by part: the parts it is known not to fit
}

// edge leads from a part that is wanted to one that stands in (in area.back: the
// other way), by a link or by a standard designation.
type edge struct {
	to       int
	rank     int  // of the grade
	strength int  // of the evidence
	denied   bool // does not fit is recorded between the same two parts
	link     *fieldkit.Link
	tie      *tie
}

// survey puts together the area of a part.
func (g *Graph) survey(part string) *area {
	a := &area{index: map[string]int{}, blocks: map[[2]int]*fieldkit.Link{}}
	var links, refusing []*fieldkit.Link
	var shared []string
	reach := func(id string) {
		if _, known := a.index[id]; !known {
			a.index[id] = 0
			a.ids = append(a.ids, id)
		}
	}
	reach(part)
	ties := map[string]bool{}
	for i := 0; i < len(a.ids); i++ {
		id := a.ids[i]
		for _, l := range g.links.under(id) {
			switch {
			case l.Grade == fieldkit.DoesNotFit && l.For == id:
				refusing = append(refusing, l)
			case Rank(l.Grade) < len(gradeOrder):
				reach(l.For)
				reach(l.With)
				if l.For == id {
					links = append(links, l)
				}
			}
		}
		for _, designation := range g.borne.under(id) {
			if ties[designation] {
				continue
			}
			ties[designation] = true
			shared = append(shared, designation)
			for _, p := range g.bears.under(designation) {
				reach(p.ID)
			}
		}
	}
	slices.Sort(a.ids)
	for i, id := range a.ids {
		a.index[id] = i
	}
	n := len(a.ids)
	a.edges, a.back, a.tied, a.barred = make([][]edge, n), make([][]edge, n), make([][]*tie, n), make([][]int, n)
	order.By(refusing, compareLinks)
	for _, l := range refusing {
		a.block(l)
	}
	for _, l := range links {
		a.tieByLink(l)
	}
	for i := range a.edges {
		order.By(a.edges[i], compareEdges)
		order.By(a.back[i], compareEdges)
	}
	for _, designation := range shared {
		a.tieByStandard(designation, g.bears.under(designation))
	}
	for _, of := range a.tied {
		slices.SortFunc(of, func(a, b *tie) int { return strings.Compare(a.name, b.name) })
	}
	return a
}

func pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// block records a does-not-fit link; of several for one pair the best proven stays.
func (a *area) block(l *fieldkit.Link) {
	this, knownThis := a.index[l.For]
	other, knownOther := a.index[l.With]
	if !knownThis || !knownOther {
		return // nothing else ties the two
	}
	known, ok := a.blocks[pair(this, other)]
	if !ok {
		a.barred[this], a.barred[other] = append(a.barred[this], other), append(a.barred[other], this)
	}
	if !ok || betterBlock(l, known) {
		a.blocks[pair(this, other)] = l
	}
}

func betterBlock(a, b *fieldkit.Link) bool {
	if d := a.Evidence.Strength() - b.Evidence.Strength(); d != 0 {
		return d > 0
	}
	return a.ID < b.ID
}

func (a *area) tieByLink(l *fieldkit.Link) {
	wanted, with := a.index[l.For], a.index[l.With]
	_, denied := a.blocks[pair(wanted, with)]
	e := edge{to: with, rank: Rank(l.Grade), strength: evidenceOf(l.Evidence).Strength(), denied: denied, link: l}
	a.edges[wanted] = append(a.edges[wanted], e)
	reverse := e
	reverse.to = wanted
	a.back[with] = append(a.back[with], reverse)
	if l.Grade == fieldkit.OneWay {
		return
	}
	a.edges[with] = append(a.edges[with], reverse)
	a.back[wanted] = append(a.back[wanted], e)
}

// compareEdges puts edges in the order in which equal chains are preferred: by
// part, a designation before links, then fewer changes, then the link's ID.
func compareEdges(a, b edge) int {
	switch {
	case a.to != b.to:
		return a.to - b.to
	case a.link == nil && b.link == nil:
		return 0
	case a.link == nil:
		return -1
	case b.link == nil:
		return 1
	}
	return compareLinks(a.link, b.link)
}

func compareLinks(a, b *fieldkit.Link) int {
	return cmp.Or(len(a.Changes)-len(b.Changes), strings.Compare(a.ID, b.ID))
}

func (a *area) bars(this, other int) bool {
	_, barred := a.blocks[pair(this, other)]
	return barred
}
