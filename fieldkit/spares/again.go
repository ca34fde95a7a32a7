package spares

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Again answers what a list would be if one thing of it were different, by planning the
// rest anew: leaving something at home is made up for by what else could come along, and
// what was just left out comes along as soon as there is room for the best list with it.
// Each answer takes one plan or many, so that they are asked for one at a time.
//
// Lines that rigs could not share out are not looked into: the limits of the rigs count
// together here.
type Again struct {
	m     *model
	keep  *fieldkit.Pack
	saves float64 // by the list as it stands, friends' things and all
	nets  float64 // that less what packing it is taken to cost
}

// PlanAgain prepares the questions about a list. keep is what it was planned around, as
// in Plan. keepGoing only gets its turn; nil is left alone.
func PlanAgain(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, keep *fieldkit.Pack, pack fieldkit.Pack, keepGoing func() bool) *Again {
	m := newModel(kit, cat, guides, trip, keep, keepGoing)
	a := &Again{m: m, keep: keep}
	counts := m.countsOf(pack)
	a.saves = newSearch(&m.problem, counts).total()
	a.nets = a.net(solution{counts: counts, value: a.saves})
	m.turn = orNothing(nil) // each question comes with its own
	return a
}

// countsOf is a list as a choice, with what rides with friends.
func (m *model) countsOf(pack fieldkit.Pack) []int {
	counts := m.friends()
	for _, l := range pack.Lines {
		if i, ok := m.index[RefOf(l)]; ok {
			counts[i] += piecesOf(l)
		}
	}
	return counts
}

// Best says how far a list as it stands is from the best one within its limits.
type Best struct {
	More   Hours // the best list found saves so much more, packing counted; 0 or more
	Most   Hours // no list saves more than this beyond it; More where that is proved
	Proved bool
}

// Best plans everything anew that the list planned around does not hold, as Plan does,
// the rigs sharing it out. It ends early when keepGoing says no; nil never ends it.
func (a *Again) Best(keepGoing func() bool) Best {
	s, _ := a.m.planned(a.keep, keepGoing, nil)
	b := Best{More: Hours(max(a.net(s)-a.nets, 0)), Proved: s.proved}
	if b.Most = b.More; !b.Proved {
		b.Most = max(b.More, Hours(s.bound-a.saves))
	}
	return b
}

// nearly is what two lists may differ by and still count as equally good: under a minute
// on the whole trip is nothing anybody plans for.
const nearly = Hours(leastGain)

// Words say it in a sentence. ticked reports that the list has lines that stay for no
// other reason than a tick: Best takes them to be free, planning again does not. guessed
// marks what rests on starting guesses.
func (b Best) Words(ticked, guessed bool) string {
	words := b.words(guessed)
	if ticked && b.More >= nearly {
		words += " What is ticked stays when you plan again: take the tick off what may be left at home for it."
	}
	return words
}

func (b Best) words(guessed bool) string {
	more, most := Guess(b.More.String(), guessed), Guess(b.Most.String(), guessed)
	switch {
	case b.Proved && b.More < nearly:
		return "Proved: no list within the limits saves more, less a minute for packing each piece."
	case b.Proved:
		return "Another list within the limits saves " + more + " more, and that is proved to be the most."
	case b.More < nearly:
		return "Not proved to be the best: another list within the limits may save up to " + most + " more."
	}
	return "Another list within the limits saves " + more + " more, and none saves over " + most + " more."
}

// Drop is what leaving one thing at home costs once the rest is planned anew.
type Drop struct {
	Costs  Hours // what the best list without it saves less than the list as it stands; 0 or more
	Most   Hours // it costs no more than this; Costs where that is proved
	Proved bool
}

// Without plans without one thing, pinned or not. It ends early when keepGoing says no;
// nil never ends it.
func (a *Again) Without(ref Ref, keepGoing func() bool) Drop {
	item, ok := a.m.index[ref]
	if !ok {
		return Drop{Proved: true}
	}
	p := a.with(item, a.m.items[item].friend, a.m.items[item].friend, a.m.limits)
	s := p.exact(keepGoing, nil)
	return Drop{Hours(max(a.saves-s.bound, 0)), Hours(max(a.saves-s.value, 0)), s.proved}.settled()
}

func (d Drop) settled() Drop {
	if d.Proved {
		d.Costs = d.Most // bound and value differ by rounding
	}
	return d
}

// with is the problem with an item in at least so many pieces and at most so many.
func (a *Again) with(item, least, most int, limits fieldkit.Limits) *problem {
	p := a.m.problem
	p.items, p.limits = slices.Clone(p.items), limits
	p.items[item].least, p.items[item].most = least, most
	return &p
}

// net is what a choice saves less what packing it is taken to cost: what exact makes the
// most of.
func (a *Again) net(s solution) float64 {
	return s.value - a.m.packing(s.counts)
}
