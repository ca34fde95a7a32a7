package interchange

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// walk looks for the best chain from one part to every other: the best grade, then
// the strongest weakest evidence, then the fewest steps, then the first by part ID.
//
// Grade and evidence are as good as the worst step, so the best pair of them is found
// by trying the pairs from the best down and asking each time what can be reached
// with steps no worse than that; the first to reach a part wins, and going breadth
// first gives it the fewest steps.
type walk struct {
	g     *Graph
	back  bool // against the direction of the links
	whole bool // also along links that a does-not-fit link contradicts

	round int
	// The lists below are by slot: only parts of one area can be reached.
	seen  []int        // the last round that reached it
	came  []came       // how that round reached it
	done  []bool       // its best chain is known
	spent map[*tie]int // the last round that went through it
	edges []edge       // scratch
}

type came struct {
	from int
	via  edge
}

func (g *Graph) walk(start int, back, whole bool) *walk {
	n := g.size[g.area[start]]
	return &walk{g: g, back: back, whole: whole, seen: make([]int, n), came: make([]came, n), done: make([]bool, n), spent: map[*tie]int{}}
}

// from calls found for every part that a chain leads to, best chain first, until
// found returns false.
func (w *walk) from(start int, found func(to int) bool) {
	left := len(w.reach(start, len(gradeOrder)-1, 1)) - 1
	w.done[w.g.slot[start]] = true
	for rank := range gradeOrder {
		for strength := len(fieldkit.EvidenceOrder); strength > 0; strength-- {
			if left == 0 {
				return
			}
			for _, to := range w.reach(start, rank, strength) {
				if w.done[w.g.slot[to]] {
					continue
				}
				w.done[w.g.slot[to]] = true
				left--
				if !found(to) {
					return
				}
			}
		}
	}
}

// reach lists what steps no worse than these lead to, breadth first.
func (w *walk) reach(start, rank, strength int) []int {
	w.round++
	w.seen[w.g.slot[start]] = w.round
	w.came[w.g.slot[start]] = came{from: -1}
	queue := []int{start}
	for i := 0; i < len(queue); i++ {
		at := queue[i]
		for _, e := range w.steps(at, rank, strength) {
			slot := w.g.slot[e.to]
			if w.seen[slot] == w.round {
				continue
			}
			w.seen[slot] = w.round
			w.came[slot] = came{from: at, via: e}
			queue = append(queue, e.to)
		}
	}
	return queue
}

func (w *walk) steps(at, rank, strength int) []edge {
	links := w.g.edges[at]
	if w.back {
		links = w.g.back[at]
	}
	edges := w.edges[:0]
	for _, e := range links {
		if e.rank <= rank && e.strength >= strength && (w.whole || !e.denied) {
			edges = append(edges, e)
		}
	}
	sorted := true
	for _, t := range w.g.tied[at] {
		own := t.strengthOf(at)
		if own < strength || w.spent[t] == w.round {
			continue
		}
		w.spent[t] = w.round
		sorted = false
		for _, m := range t.members {
			if m.part == at || m.strength < strength {
				continue
			}
			if !w.whole && w.g.bars(at, m.part) {
				w.spent[t] = 0 // another part of the tie may still lead there
				continue
			}
			edges = append(edges, edge{to: m.part, strength: min(own, m.strength), tie: t})
		}
	}
	if !sorted {
		order.By(edges, compareEdges)
	}
	w.edges = edges
	return edges
}

func (g *Graph) bars(a, b int) bool {
	_, barred := g.blocks[pair(a, b)]
	return barred
}

// chain writes down the steps of the present round to a part, from the part that is
// wanted to the one that stands in.
func (w *walk) chain(to int) StandIn {
	var steps []Step
	for at := to; ; {
		came := w.came[w.g.slot[at]]
		if came.from < 0 {
			break
		}
		steps = append(steps, w.g.step(came.from, at, came.via, w.back))
		at = came.from
	}
	if !w.back {
		slices.Reverse(steps)
	}
	s := StandIn{Part: w.g.ids[to], Grade: fieldkit.DropIn, Weakest: fieldkit.EvidenceOrder[0], Chain: steps}
	for _, step := range steps {
		s.Grade = Compose(s.Grade, step.Grade)
		s.Changes = addChanges(s.Changes, step.Changes)
		if step.Evidence.Strength() < s.Weakest.Strength() {
			s.Weakest = step.Evidence
		}
	}
	s.Contested = w.g.contested(steps)
	return s
}

func (g *Graph) step(from, to int, via edge, back bool) Step {
	if back {
		from, to = to, from
	}
	s := Step{From: g.ids[from], To: g.ids[to], Grade: gradeOrder[via.rank]}
	if via.tie != nil {
		s.Standard = via.tie.name
		s.Evidence = fieldkit.EvidenceOrder[len(fieldkit.EvidenceOrder)-via.strength]
		return s
	}
	s.Link, s.Changes, s.On, s.By = via.link.ID, via.link.Changes, via.link.On, via.link.By
	s.Evidence = evidenceOf(via.link.Evidence)
	return s
}
