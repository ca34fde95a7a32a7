package spares

import "trailfieldkit/fieldkit"

// Entry is the least by which one limit must be raised for a thing that was left out to
// be on the best list, everything else planned anew. One of the amounts is set; none if
// no one limit keeps it out.
type Entry struct {
	Mass   fieldkit.Mass
	Volume fieldkit.Volume
	Money  fieldkit.Money
	// Costs is what taking it along within the limits as they are would cost: what the
	// best list with it saves less than the best without.
	Costs  Hours
	Proved bool // with less it is not on the best list; else this much brings it in, and less may
	Done   bool // the search was not ended early
}

// Found reports whether raising one limit brings it in.
func (e Entry) Found() bool { return e.Mass > 0 || e.Volume > 0 || e.Money.Cents > 0 }

// axis is one limit as a number, and how it is raised.
type axis struct {
	step int64 // by which it is raised: less than anybody weighs a rig by
	now  func(fieldkit.Limits) (limit int64, limited bool)
	set  func(l *fieldkit.Limits, to int64)
	free func(*fieldkit.Limits)
	of   func(load) int64
	tell func(e *Entry, more int64, l fieldkit.Limits)
}

// axes are the limits in the order in which a person would rather raise them.
var axes = []axis{
	{
		int64(100 * fieldkit.Gram),
		func(l fieldkit.Limits) (int64, bool) { return int64(l.Mass), l.Mass > 0 },
		func(l *fieldkit.Limits, to int64) { l.Mass = fieldkit.Mass(to) },
		func(l *fieldkit.Limits) { l.Mass = 0 },
		func(x load) int64 { return int64(x.mass) },
		func(e *Entry, more int64, _ fieldkit.Limits) { e.Mass = fieldkit.Mass(more) },
	},
	{
		100, // cents
		func(l fieldkit.Limits) (int64, bool) {
			if l.Money == nil {
				return 0, false
			}
			return l.Money.Cents, true
		},
		func(l *fieldkit.Limits, to int64) { l.Money = &fieldkit.Money{Cents: to, Currency: l.Money.Currency} },
		func(l *fieldkit.Limits) { l.Money = nil },
		func(x load) int64 { return x.cents },
		func(e *Entry, more int64, l fieldkit.Limits) {
			e.Money = fieldkit.Money{Cents: more, Currency: l.Money.Currency}
		},
	},
	{
		int64(500 * fieldkit.Millilitre),
		func(l fieldkit.Limits) (int64, bool) { return int64(l.Volume), l.Volume > 0 },
		func(l *fieldkit.Limits, to int64) { l.Volume = fieldkit.Volume(to) },
		func(l *fieldkit.Limits) { l.Volume = 0 },
		func(x load) int64 { return int64(x.volume) },
		func(e *Entry, more int64, _ fieldkit.Limits) { e.Volume = fieldkit.Volume(more) },
	},
}

const (
	// entrySteps bounds the steps that a limit is raised in; they are larger if need be.
	entrySteps = 1024
	// entryPlans bounds the plans that one question takes before it is content with what
	// it has.
	entryPlans = 40
)

// Entry finds how much more weight would bring in a thing that was left out; where no
// weight does, how much more money, else how much more space. It ends early when
// keepGoing says no; nil never ends it.
//
// A thing may be on the best list for one limit and not for a wider one. So the search
// first halves its way to some limit that brings it in, and then looks whether one below
// does. What is best with a thing and what is best without it both only rise with a limit:
// no limit between two brings it in if the best with it at the upper one is worth less
// than the best without it at the lower.
func (a *Again) Entry(ref Ref, keepGoing func() bool) (e Entry) {
	item, ok := a.m.index[ref]
	if !ok || a.m.items[item].most <= a.m.items[item].least {
		return Entry{Proved: true, Done: true} // it may not come along at all, or is pinned
	}
	s := &entrySearch{again: a, item: item, keepGoing: keepGoing, proved: true}
	limits := a.m.limits
	with, without := s.plan(limits, true), s.plan(limits, false)
	if !with.asGoodAs(without.net) {
		e.Costs = Hours(without.net - max(with.net, 0))
		for _, axis := range axes {
			if more, found := s.along(axis, limits, without.net); found {
				axis.tell(&e, more, limits)
				break
			}
		}
	}
	e.Proved, e.Done = s.proved && !s.ended(), !s.stopped
	return e
}

// entrySearch looks along one limit after the other.
type entrySearch struct {
	again     *Again
	item      int
	keepGoing func() bool
	plans     int
	proved    bool
	stopped   bool

	axis   axis
	limits fieldkit.Limits // as they are
	step   int64
	known  map[bool][]span // with the thing and without
}

// planned is one plan: what it is worth and what it takes.
type planned struct {
	net  float64
	load load
}

// asGoodAs compares but for what rounding leaves.
func (p planned) asGoodAs(net float64) bool { return p.net >= net-1e-9 }

// span is a plan that is the best from one number of steps to another: what is best for
// the upper one and fits the lower as well.
type span struct {
	from, to int64
	planned
}

func (s *entrySearch) ended() bool { return s.stopped || s.plans > entryPlans }

// in reports whether so many steps bring the thing in.
func (s *entrySearch) in(n int64) bool { return s.at(n, true).asGoodAs(s.at(n, false).net) }

// along finds by how much a limit must be raised; now is what is best without the thing.
func (s *entrySearch) along(a axis, limits fieldkit.Limits, now float64) (more int64, found bool) {
	limit, limited := a.now(limits)
	if !limited {
		return 0, false
	}
	free := limits
	a.free(&free)
	top := s.plan(free, true) // beyond what this takes nothing changes for the list with it
	if s.ended() || !top.asGoodAs(now) {
		return 0, false
	}
	s.axis, s.limits, s.known, s.step = a, limits, map[bool][]span{}, a.step
	for (a.of(top.load)-limit)/s.step >= entrySteps {
		s.step *= 2
	}
	n := max((a.of(top.load)-limit)/s.step+1, 1)
	if found = s.in(n); found {
		for low := int64(0); low+1 < n; { // not at low, at n it is
			if middle := low + (n-low)/2; s.in(middle) {
				n = middle
			} else {
				low = middle
			}
		}
	}
	if s.ended() {
		return 0, false
	}
	if lower, ok := s.first(1, n-1); ok {
		n, found = lower, true
	}
	if !found {
		return 0, false
	}
	return max(a.of(s.at(n, true).load)-limit, 1), true // what that list takes, and no more
}

// first is the least number of steps between two, both counted, that brings the thing in,
// as far as the plans reach.
func (s *entrySearch) first(low, high int64) (n int64, found bool) {
	if low > high || !s.at(high, true).asGoodAs(s.at(low, false).net) || s.ended() {
		return 0, false
	}
	if s.in(low) {
		return low, !s.ended()
	}
	if low == high {
		return 0, false
	}
	middle := low + (high-low)/2
	if n, found = s.first(low+1, middle); found {
		return n, true
	}
	return s.first(middle+1, high)
}

// at is what is best at so many steps.
func (s *entrySearch) at(n int64, with bool) planned {
	for _, known := range s.known[with] {
		if known.from <= n && n <= known.to {
			return known.planned
		}
	}
	limit, _ := s.axis.now(s.limits)
	l := s.limits
	s.axis.set(&l, limit+n*s.step)
	p := s.plan(l, with)
	from := min(n, max(0, (s.axis.of(p.load)-limit+s.step-1)/s.step))
	s.known[with] = append(s.known[with], span{from, n, p})
	return p
}

// plan plans within limits.
func (s *entrySearch) plan(limits fieldkit.Limits, with bool) planned {
	a := s.again
	s.stopped = s.stopped || s.keepGoing != nil && !s.keepGoing()
	if s.plans++; s.ended() {
		return planned{}
	}
	it := a.m.items[s.item]
	least, most := it.friend, it.friend
	if with {
		least, most = it.friend+1, max(it.most, it.friend+1)
	}
	p := a.with(s.item, least, most, limits)
	if with {
		pinned := make([]int, len(p.items))
		for i := range pinned {
			pinned[i] = p.items[i].least
		}
		if len(p.beyond(p.load(pinned))) > 0 {
			return planned{net: -1}
		}
	}
	sol := p.exact(s.keepGoing, nil)
	s.proved = s.proved && sol.proved
	return planned{a.net(sol), p.load(sol.counts)}
}
