package interchange

import (
	"maps"
	"slices"
	"sync"

	"trailfieldkit/fieldkit"
)

// Graph holds parts and what ties them together. Its answers never change, and it may
// be used by several goroutines. What it knows of parts that ties connect is put
// together when one of them is asked for, and goes over to the graph of a kit in which
// other parts were edited.
type Graph struct {
	links register[*fieldkit.Link] // by part: those that name it
	bears register[*fieldkit.Part] // by designation: those that bear it
	borne register[string]         // by part: its designations

	mu    sync.Mutex
	areas map[string]*area // by part
}

// New makes the graph. Links of a part to itself and of a grade that is not known
// are left out; parts that only links mention take part like any other.
func New(parts []fieldkit.Part, links []fieldkit.Link) *Graph {
	parts, links = slices.Clone(parts), slices.Clone(links) // the caller may go on with its own
	return newGraph(fieldkit.ListOf(parts), fieldkit.ListOf(links))
}

func newGraph(parts fieldkit.List[fieldkit.Part], links fieldkit.List[fieldkit.Link]) *Graph {
	g := &Graph{areas: map[string]*area{}}
	for _, l := range links.Refs() {
		if l.For != l.With {
			g.links.enter(l.For, l)
			g.links.enter(l.With, l)
		}
	}
	for _, p := range parts.Refs() {
		for _, designation := range designationsOf(p) {
			g.bears.enter(designation, p)
			g.borne.enter(p.ID, designation)
		}
	}
	return g
}

// edited is the graph with some parts and links gone and others in their place.
func (g *Graph) edited(gone, came []*fieldkit.Part, gaveUp, given []*fieldkit.Link) *Graph {
	var touched []string
	lines := func(links []*fieldkit.Link) (all []entered[*fieldkit.Link]) {
		for _, l := range links {
			if l.For != l.With {
				all = append(all, entered[*fieldkit.Link]{l.For, l}, entered[*fieldkit.Link]{l.With, l})
			}
			touched = append(touched, l.For, l.With)
		}
		return all
	}
	designations := func(parts []*fieldkit.Part) (bears []entered[*fieldkit.Part], borne []entered[string]) {
		for _, p := range parts {
			touched = append(touched, p.ID)
			for _, designation := range designationsOf(p) {
				bears = append(bears, entered[*fieldkit.Part]{designation, p})
				borne = append(borne, entered[string]{p.ID, designation})
				if others := g.bears.under(designation); len(others) > 0 {
					touched = append(touched, others[0].ID) // all of them are in one area
				}
			}
		}
		return bears, borne
	}
	bearsNoMore, borneNoMore := designations(gone)
	bearsNow, borneNow := designations(came)
	next := &Graph{
		links: g.links.revised(lines(gaveUp), lines(given)),
		bears: g.bears.revised(bearsNoMore, bearsNow),
		borne: g.borne.revised(borneNoMore, borneNow),
	}
	g.mu.Lock()
	next.areas = maps.Clone(g.areas)
	g.mu.Unlock()
	for _, part := range touched {
		if a := next.areas[part]; a != nil {
			for _, id := range a.ids {
				delete(next.areas, id)
			}
		}
	}
	return next
}

// areaOf gives the parts that ties connect with a part, and what is between them.
func (g *Graph) areaOf(part string) *area {
	g.mu.Lock()
	defer g.mu.Unlock()
	a := g.areas[part]
	if a == nil {
		a = g.survey(part)
		for _, id := range a.ids {
			g.areas[id] = a
		}
	}
	return a
}
