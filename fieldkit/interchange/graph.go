package interchange

import (
	"cmp"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Graph holds parts and what ties them together. It never changes after New and
// may be used by several goroutines.
type Graph struct {
	ids    []string       // of the parts, sorted: a part's index is its rank
	index  map[string]int // the other way round
	edges  [][]edge       // by part that is wanted, sorted
	back   [][]edge       // by part that stands in, sorted
	tied   [][]*tie       // by part: the standard designations it shares with others
	blocks map[[2]int]fieldkit.Link
	barred [][]int // by part: the parts it is known not to fit
	area   []int   // by part: a number shared by all parts that ties connect
	slot   []int   // by part: its place among those of its area
	size   []int   // by area: how many parts it has
}

// edge leads from a part that is wanted to one that stands in (in Graph.back: the
// other way), by a link or by a standard designation.
type edge struct {
	to       int
	rank     int  // of the grade
	strength int  // of the evidence
	denied   bool // does not fit is recorded between the same two parts
	link     *fieldkit.Link
	tie      *tie
}

// New builds the graph. Links of a part to itself and of a grade that is not known
// are left out; parts that only links mention take part like any other.
func New(parts []fieldkit.Part, links []fieldkit.Link) *Graph {
	g := &Graph{index: map[string]int{}, blocks: map[[2]int]fieldkit.Link{}}
	g.number(parts, links)
	n := len(g.ids)
	g.edges, g.back, g.tied = make([][]edge, n), make([][]edge, n), make([][]*tie, n)
	g.barred, g.area, g.slot, g.size = make([][]int, n), make([]int, n), make([]int, n), make([]int, n)

	links = slices.Clone(links) // the caller may go on with its own
	var refusing []*fieldkit.Link
	for i := range links {
		if links[i].Grade == fieldkit.DoesNotFit {
			refusing = append(refusing, &links[i])
		}
	}
	order.By(refusing, compareLinks)
	for _, l := range refusing {
		g.block(*l)
	}
	for i := range links {
		g.tieByLink(&links[i])
	}
	for i := range g.edges {
		order.By(g.edges[i], compareEdges)
		order.By(g.back[i], compareEdges)
	}
	g.tieByStandard(parts)
	g.findAreas()
	return g
}

func (g *Graph) number(parts []fieldkit.Part, links []fieldkit.Link) {
	add := func(id string) {
		if _, known := g.index[id]; !known {
			g.index[id] = 0
			g.ids = append(g.ids, id)
		}
	}
	for i := range parts {
		add(parts[i].ID)
	}
	for i := range links {
		add(links[i].For)
		add(links[i].With)
	}
	slices.Sort(g.ids)
	for i, id := range g.ids {
		g.index[id] = i
	}
}

func pair(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// block records a does-not-fit link; of several for one pair the best proven stays.
func (g *Graph) block(l fieldkit.Link) {
	a, b := g.index[l.For], g.index[l.With]
	if a == b {
		return
	}
	known, ok := g.blocks[pair(a, b)]
	if !ok {
		g.barred[a], g.barred[b] = append(g.barred[a], b), append(g.barred[b], a)
	}
	if !ok || betterBlock(l, known) {
		g.blocks[pair(a, b)] = l
	}
}

func betterBlock(a, b fieldkit.Link) bool {
	if d := a.Evidence.Strength() - b.Evidence.Strength(); d != 0 {
		return d > 0
	}
	return a.ID < b.ID
}

func (g *Graph) tieByLink(l *fieldkit.Link) {
	a, b := g.index[l.For], g.index[l.With]
	rank := Rank(l.Grade)
	if a == b || rank == len(gradeOrder) {
		return
	}
	_, denied := g.blocks[pair(a, b)]
	e := edge{to: b, rank: rank, strength: evidenceOf(l.Evidence).Strength(), denied: denied, link: l}
	g.edges[a] = append(g.edges[a], e)
	reverse := e
	reverse.to = a
	g.back[b] = append(g.back[b], reverse)
	if l.Grade == fieldkit.OneWay {
		return
	}
	g.edges[b] = append(g.edges[b], reverse)
	g.back[a] = append(g.back[a], e)
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
