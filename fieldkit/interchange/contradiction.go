package interchange

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// MaxContradictions bounds the list; more than this is a kit to be sorted out by
// hand anyway.
const MaxContradictions = 200

// Contradiction is a chain that says a part can stand in for another, against a
// link that says it does not fit.
type Contradiction struct {
	Block fieldkit.Link
	Chain StandIn // Chain.Chain[0].From is the part wanted
}

// Wanted is the part in whose place the other does or does not fit.
func (c Contradiction) Wanted() string { return c.Chain.Chain[0].From }

// Contradictions lists the does-not-fit links that a chain speaks against, by the
// link's ID. Each names the best such chain. There are at most MaxContradictions.
func (g *Graph) Contradictions() []Contradiction {
	var refusing []*fieldkit.Link
	for _, page := range g.links {
		for part, links := range page {
			for _, l := range links {
				if l.Grade == fieldkit.DoesNotFit && l.For == part {
					refusing = append(refusing, l)
				}
			}
		}
	}
	return g.contradictions(refusing)
}

// ContradictionsAround lists those that there are between the parts that ties connect
// with a part: all that a link of the part may have to do with.
func (g *Graph) ContradictionsAround(part string) []Contradiction {
	a := g.areaOf(part)
	var refusing []*fieldkit.Link
	for _, l := range a.blocks {
		refusing = append(refusing, l)
	}
	return g.contradictions(refusing)
}

func (g *Graph) contradictions(refusing []*fieldkit.Link) (list []Contradiction) {
	order.By(refusing, func(a, b *fieldkit.Link) int { return strings.Compare(a.ID+"\x00"+a.For, b.ID+"\x00"+b.For) })
	for _, l := range refusing {
		if len(list) == MaxContradictions {
			break
		}
		a := g.areaOf(l.For)
		if with, near := a.index[l.With]; !near || a.blocks[pair(a.index[l.For], with)] != l {
			continue // nothing else ties the two, or another link says the same
		}
		if chain, ok := g.Despite(l.For, l.With); ok {
			list = append(list, Contradiction{Block: *l, Chain: chain})
		}
	}
	return list
}

// Despite finds the best chain that says two parts stand in for each other, or one
// for the other, whatever does-not-fit link there is between them: what such a link
// contradicts. The chain in place of the first part goes before that the other way.
func (g *Graph) Despite(wanted, with string) (s StandIn, ok bool) {
	a := g.areaOf(wanted)
	if _, near := a.index[with]; !near {
		return s, false
	}
	if s, ok = a.despite(wanted, with); !ok {
		s, ok = a.despite(with, wanted)
	}
	return s, ok
}

func (a *area) despite(wanted, with string) (s StandIn, ok bool) {
	end := a.index[with]
	w := a.walk(false, true)
	w.from(a.index[wanted], func(to int) bool {
		if to == end {
			s, ok = w.chain(to), true
		}
		return !ok
	})
	return s, ok
}

// contested lists the does-not-fit links between any two parts of a chain, in the
// order of the chain.
func (a *area) contested(chain []Step) []fieldkit.Link {
	if len(a.blocks) == 0 || len(chain) == 0 {
		return nil
	}
	along := []int{a.index[chain[0].From]}
	for _, s := range chain {
		along = append(along, a.index[s.To])
	}
	place := map[int]int{}
	for i, part := range along {
		place[part] = i
	}
	var list []fieldkit.Link
	for i, part := range along {
		for _, other := range a.barred[part] {
			if place[other] > i { // 0, the place of the part wanted, is not after any
				list = append(list, *a.blocks[pair(part, other)])
			}
		}
	}
	return list
}

// Say tells the contradiction in one sentence, both sides named and dated; name
// gives what people call a part.
func (c Contradiction) Say(name func(part string) string) string {
	return fmt.Sprintf("%q in place of %q: does not fit by %s, yet %s by %s; find out which is wrong and remove it",
		name(c.Chain.Part), name(c.Wanted()),
		source(c.Block.ID, c.Block.Evidence, c.Block.On, c.Block.By),
		c.Chain.Grade, Say(c.Chain.Chain, name))
}

// Say tells a chain step by step, each with how it is known.
func Say(chain []Step, name func(part string) string) string {
	var steps []string
	for _, s := range chain {
		steps = append(steps, fmt.Sprintf("%q → %q %s, %s", name(s.From), name(s.To), s.Grade, s.Source()))
	}
	return strings.Join(steps, "; ")
}

// Source says where a step is known from: "link k-4, test-fitted, 2 May 2024, Ana"
// or "both bear ISO 15 6207-2RS C3".
func (s Step) Source() string {
	if s.Standard != "" {
		text := "both bear " + s.Standard
		if s.Evidence != fieldkit.PublishedStandard {
			text += " (" + string(s.Evidence) + ")"
		}
		return text
	}
	return source(s.Link, s.Evidence, s.On, s.By)
}

func source(id string, how fieldkit.Evidence, on fieldkit.Date, by string) string {
	words := []string{"link " + id, string(evidenceOf(how)), on.Show()}
	if by != "" {
		words = append(words, by)
	}
	return strings.Join(words, ", ")
}
