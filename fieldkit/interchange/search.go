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
	*area
	back  bool // against the direction of the links
	whole bool // also along links that a does-not-fit link contradicts

	round int
	seen  []int        // by part: the last round that reached it
	came  []came       // by part: how that round reached it
	done  []bool       // by part: its best chain is known
	spent map[*tie]int // the last round that went through it
	edges []edge       // scratch
}

type came struct {
	from int
	via  edge
}

func (a *area) walk(back, whole bool) *walk {
	n := len(a.ids)
	return &walk{area: a, back: back, whole: whole, seen: make([]int, n), came: make([]came, n), done: make([]bool, n), spent: map[*tie]int{}}
}

// from calls found for every part that a chain leads to, best chain first, until
// found returns false.
func (w *walk) from(start int, found func(to int) bool) {
	left := len(w.reach(start, len(gradeOrder)-1, 1)) - 1
	w.done[start] = true
	for rank := range gradeOrder {
		for strength := len(fieldkit.EvidenceOrder); strength > 0; strength-- {
			if left == 0 {
				return
			}
			for _, to := range w.reach(start, rank, strength) {
				if w.done[to] {
					continue
				}
				w.done[to] = true
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
	w.seen[start] = w.round
	w.came[start] = came{from: -1}
	queue := []int{start}
	for i := 0; i < len(queue); i++ {
		at := queue[i]
		for _, e := range w.steps(at, rank, strength) {
			if w.seen[e.to] == w.round {
				continue
			}
			w.seen[e.to] = w.round
			w.came[e.to] = came{from: at, via: e}
			queue = append(queue, e.to)
		}
	}
	return queue
}

func (w *walk) steps(at, rank, strength int) []edge {
	links := w.area.edges[at]
	if w.back {
		links = w.area.back[at]
	}
	edges := w.edges[:0]
	for _, e := range links {
		if e.rank <= rank && e.strength >= strength && (w.whole || !e.denied) {
			edges = append(edges, e)
		}
	}
	sorted := true
	for _, t := range w.tied[at] {
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
			if !w.whole && w.bars(at, m.part) {
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

// chain writes down the steps of the present round to a part, from the part that is
// wanted to the one that stands in.
func (w *walk) chain(to int) StandIn {
	var steps []Step
	for at := to; ; {
		came := w.came[at]
		if came.from < 0 {
			break
		}
		steps = append(steps, w.step(came.from, at, came.via, w.back))
		at = came.from
	}
	if !w.back {
		slices.Reverse(steps)
	}
	s := StandIn{Part: w.ids[to], Grade: fieldkit.DropIn, Weakest: fieldkit.EvidenceOrder[0], Chain: steps}
	for _, step := range steps {
		s.Grade = Compose(s.Grade, step.Grade)
		s.Changes = addChanges(s.Changes, step.Changes)
		if step.Evidence.Strength() < s.Weakest.Strength() {
			s.Weakest = step.Evidence
		}
	}
	s.Contested = w.contested(steps)
	return s
}

func (a *area) step(from, to int, via edge, back bool) Step {
	if back {
		from, to = to, from
	}
	s := Step{From: a.ids[from], To: a.ids[to], Grade: gradeOrder[via.rank]}
	if via.tie != nil {
		s.Standard = via.tie.name
		s.Evidence = fieldkit.EvidenceOrder[len(fieldkit.EvidenceOrder)-via.strength]
		return s
	}
	s.Link, s.Changes, s.On, s.By = via.link.ID, via.link.Changes, via.link.On, via.link.By
	s.Evidence = evidenceOf(via.link.Evidence)
	return s
}
