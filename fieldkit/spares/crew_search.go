package spares

import (
	"cmp"
	"fmt"
	"slices"

	"trailfieldkit/fieldkit"
)

// A crew's list is planned as one: a spare that several rigs can use is carried once.
// Then it is shared out over the rigs by what each carries, every line on one of them. The
// plan keeps within what the rigs carry together, and takes no piece that none of them can;
// that its lines can be shared out so that no rig is over follows from neither. Where they
// cannot, at least one line of those that do not go together has fewer pieces: each of
// these cases is planned again, the one that promises most first. What is best of them is
// proved if all cases were gone through.

const (
	// maxShares bounds how often a list is planned again with one piece less of what
	// found no room, to have a list that goes; then it is left at home.
	maxShares = 8
	// maxCases bounds the cases that are planned to find a better one.
	maxCases = 48
)

// sharing is the best choice of one case, shared out as far as it goes.
type sharing struct {
	items      []item // what the case offers
	sol        solution
	lines      []fieldkit.PackLine
	over       []int   // lines for which no rig has room
	net, bound float64 // what it saves less packing, and the most that any of the case does
}

// planned finds the best choice whose lines can be shared out over the rigs.
func (m *model) planned(keep *fieldkit.Pack, keepGoing func() bool, found func(value, bound float64)) (solution, []fieldkit.PackLine) {
	defer func(offered []item) { m.items = offered }(m.items)
	whole := m.share(m.items, keep, keepGoing, found)
	if len(whole.over) == 0 {
		return whole.sol, whole.lines
	}
	best := whole
	for try := 0; len(best.over) > 0; try++ {
		items := slices.Clone(best.items)
		for _, i := range best.over {
			item := m.index[RefOf(best.lines[i])]
			items[item].most = max(best.sol.counts[item]-1, items[item].least)
			if try >= maxShares {
				items[item].most = items[item].least
			}
		}
		best = m.share(items, keep, keepGoing, nil)
	}
	best, bound := m.bestCase(whole, best, keep, keepGoing, found)
	s := best.sol
	s.bound = max(s.value, s.value+bound-best.net)
	s.proved = bound <= best.net+1e-9*max(s.value, 1)
	return s, best.lines
}

// share plans one case and shares it out.
func (m *model) share(items []item, keep *fieldkit.Pack, keepGoing func() bool, found func(value, bound float64)) sharing {
	m.items = items
	c := sharing{items: items, sol: m.exact(keepGoing, found)}
	c.lines = m.lines(c.sol.counts, keep)
	c.over = slices.DeleteFunc(m.shareOut(c.lines), func(i int) bool { return Stays(c.lines[i]) })
	packing := m.packing(c.sol.counts)
	c.net, c.bound = c.sol.value-packing, c.sol.bound-packing
	if c.sol.proved {
		c.bound = c.net
	}
	return c
}

// bestCase goes through the cases of a choice that cannot be shared out, from a list that
// goes, and tells found of the best; bound is the most that any list which goes saves,
// packing counted.
func (m *model) bestCase(whole, best sharing, keep *fieldkit.Pack, keepGoing func() bool, found func(value, bound float64)) (_ sharing, bound float64) {
	open, closed, seen := []sharing{whole}, best.net, map[string]bool{}
	for cases := 0; len(open) > 0; {
		slices.SortStableFunc(open, func(a, b sharing) int { return cmp.Compare(b.bound, a.bound) })
		c := open[0]
		if c.bound <= best.net {
			break
		}
		if found != nil {
			found(best.net, max(closed, c.bound))
		}
		clash := m.clash(c.lines)
		if cases >= maxCases || len(clash) == 0 || keepGoing != nil && !keepGoing() {
			return best, max(closed, c.bound)
		}
		open = open[1:]
		for _, i := range clash {
			item := m.index[RefOf(c.lines[i])]
			items := slices.Clone(c.items)
			if items[item].most = c.sol.counts[item] - 1; items[item].most < items[item].least {
				continue // it stays whatever is planned
			}
			key := caseKey(items)
			if seen[key] {
				continue
			}
			seen[key] = true
			cases++
			next := m.share(items, keep, keepGoing, nil)
			if len(next.over) > 0 {
				open = append(open, next)
				continue
			}
			closed = max(closed, next.bound)
			if next.net > best.net {
				best = next
			}
		}
	}
	return best, max(closed, best.net)
}

// caseKey tells cases apart.
func caseKey(items []item) string {
	most := make([]int, len(items))
	for i := range items {
		most[i] = items[i].most
	}
	return fmt.Sprint(most)
}

// clash names lines that do not go together with what stays, as few as are easily found:
// every list that goes has fewer pieces of one of them. It names none if what stays does
// not go by itself, or if that they do not go is not certain.
func (m *model) clash(lines []fieldkit.PackLine) (names []int) {
	var stay []fieldkit.PackLine
	for i, l := range lines {
		if Stays(l) {
			stay = append(stay, l)
		} else {
			names = append(names, i)
		}
	}
	goes := func(some []int) (ok, sure bool) {
		try := slices.Clone(stay)
		for _, i := range some {
			try = append(try, lines[i])
		}
		for i := range try {
			if !Stays(try[i]) {
				try[i].Rig = ""
			}
		}
		p, _ := m.placing(try)
		ok = p.place(0)
		return ok, p.sure()
	}
	if ok, _ := goes(nil); !ok {
		return nil
	}
	if ok, sure := goes(names); ok || !sure {
		return nil
	}
	for k := len(names) - 1; k >= 0; k-- {
		fewer := slices.Delete(slices.Clone(names), k, k+1)
		if ok, sure := goes(fewer); !ok && sure {
			names = fewer
		}
	}
	return names
}
