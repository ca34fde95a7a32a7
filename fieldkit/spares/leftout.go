package spares

import (
	"cmp"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// LeftOut is a spare that is not on the list.
type LeftOut struct {
	Ref     Ref
	Name    string
	Adds    Hours  // expected time one piece would save beside the list, with what its repair still lacks
	Needed  []Ref  // tools and consumables that would have to come with it
	Over    []Over // the limits both would break
	Guessed bool   // what it would save rests on a starting guess
	Why     string // why else it is not on the list; empty if only limits keep it out
}

// Text says why it was left out.
func (l LeftOut) Text(first fieldkit.System) string {
	if l.Why != "" {
		return l.Why
	}
	text := ""
	for i, o := range l.Over {
		if i > 0 {
			text += ", "
		}
		text += o.Text(first)
	}
	return text
}

// leftOut lists the spares that are not on the list and would save something, the
// most useful first.
func (m *model) leftOut(s *search, pack fieldkit.Pack) []LeftOut {
	var list []LeftOut
	now, guessed, typical := m.load(s.counts), m.guessedItems(), m.typical(s.counts)
	for i := range s.options {
		if s.counts[i] > 0 {
			continue
		}
		m.turn()
		l, possible := m.oneMore(s, i, now)
		l.Guessed = guessed[i]
		l.markTypical(m, typical)
		switch {
		case float64(l.Adds) < leastGain:
			continue
		case !carried(m.trip, m.articles[i]):
			l.Why = "it is more than any one rig carries"
		case banned(&pack, l.Ref):
			l.Why = "kept at home on purpose"
		case !possible:
			l.Why = m.lacking(s, i)
		case m.items[i].most == 0:
			l.Why = "its price is not known, and the trip's money is limited"
		case len(l.Over) == 0:
			l.Why = "there is room for it: add it by hand, or plan again"
		}
		list = append(list, l)
	}
	order.By(list, func(a, b LeftOut) int {
		return cmp.Or(cmp.Compare(b.Adds, a.Adds), a.Ref.compare(b.Ref))
	})
	return list
}

// markTypical marks what is over a limit by weights or space that are those of the kind:
// of the list as it is, of the thing itself or of what has to come with it.
func (l LeftOut) markTypical(m *model, list Typical) {
	for _, ref := range append(slices.Clip(l.Needed), l.Ref) {
		list.add(m.article(ref).guess)
	}
	for k, o := range l.Over {
		l.Over[k].Typical = o.Mass > 0 && list.Mass || o.Volume > 0 && list.Volume
	}
}

// typical tells whether some of the weight or space of a choice is that of its kind.
func (m *model) typical(counts []int) (t Typical) {
	for i, n := range counts {
		if n > m.items[i].friend {
			t.add(m.articles[i].guess)
		}
	}
	return t
}

// oneMore says what one piece of an item would add beside the choice and its load now,
// whatever the limits; possible is false if no repair it is for can be done with what the kit
// lists, and the figure is then what it would add if one could.
func (m *model) oneMore(s *search, i int, now load) (l LeftOut, possible bool) {
	l = LeftOut{Ref: m.articles[i].ref, Name: m.articles[i].name}
	for _, r := range s.options[i] {
		gear, ok := s.complete(r, now)
		if !ok {
			continue
		}
		possible = true
		all := append(gear, option{i, 1})
		if gain := Hours(s.gain(all, 1)); gain > l.Adds {
			l.Adds, l.Over, l.Needed = gain, m.beyond(m.with(now, s.counts, all)), nil
			for _, a := range gear {
				l.Needed = append(l.Needed, m.articles[a.item].ref)
			}
		}
	}
	if !possible {
		l.Adds = m.alone(i)
	}
	return l, possible
}

// guessedItems tells of each item whether what it saves at one of its places rests on a
// guess.
func (m *model) guessedItems() []bool {
	guessed := make([]bool, len(m.items))
	for d, pl := range m.places {
		if pl.guessed() {
			for _, r := range m.demands[d].reach {
				guessed[r.item] = true
			}
		}
	}
	return guessed
}

// alone is what one piece of an item saves with every tool at hand and no other
// spare: P(N ≥ 1) of the demands it reaches together, times the hours a failure
// costs on average.
func (m *model) alone(i int) Hours {
	rate, weighed := 0.0, 0.0
	for _, d := range m.demands {
		for _, r := range d.reach {
			if r.item == i {
				rate += d.rate
				weighed += d.rate * float64(d.hours) * r.worth
			}
		}
	}
	if rate == 0 {
		return 0
	}
	return Hours(AtLeast(1, rate) * weighed / rate)
}

// lacking names the first thing that keeps every repair an item is for from being
// done.
func (m *model) lacking(s *search, i int) string {
	for _, r := range s.options[i] {
		for _, w := range m.remedies[r].wants {
			switch {
			case w.met(s.counts) || slices.ContainsFunc(w.anyOf, m.mayTake):
			case len(w.anyOf) == 0:
				return "its repair needs " + w.name + ", and the kit lists none"
			default:
				return "its repair needs " + w.name + ": what the kit has of it is banned, pinned at too few or without a price"
			}
		}
	}
	return ""
}
