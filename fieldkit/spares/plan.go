package spares

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Proposal is a packing list with its reasons.
type Proposal struct {
	// Pack is the list as a record: the ID of the list it was planned from, or none.
	// It has no date; whoever keeps it gives it both.
	Pack fieldkit.Pack
	// Value is the expected time the list saves: Bare is what the trip's failures
	// cost on average with nothing on board but what rides with friends, Left what they
	// still cost with the list.
	Value, Bare, Left Hours
	Guessed           bool // some of these rest on a starting guess
	// Bound is the most that any list within the limits saves, as far as is known; Proved
	// says that none saves more than this one. Both are of a list that was planned.
	Bound    Hours
	Proved   bool
	Lines    []Line // spares, consumables and tools, each by ID
	Sheet    Sheet  // the same list by bin, with its totals
	Shopping []Need
	LeftOut  []LeftOut // what would help and is not on the list, most useful first
	Friends  []Line    // what rides in friends' rigs, with what it is good for
	Notes    []string  // what to know before relying on it
}

// Line is one line of a proposal with what it is good for.
type Line struct {
	Row
	Covers  []Cover  // of a spare: the places it can mend, most used first
	Repairs []string // of a tool or consumable: titles of the repairs it is for
	Uses    float64  // pieces of a spare expected to be used on the trip
	Saves   Hours    // what leaving this line at home would cost, the rest of the list as it is
	Share   float64  // of what the list and the friends' things save, 0 to 1 (see shares)
	Guessed bool     // some of that rests on a starting guess
	Who     string   // whose rig it rides in, of what rides with friends
	// Evidence says what the likelihood of its most used place rests on.
	Evidence string
}

// Cover is one place that a spare can mend.
type Cover struct {
	Position   string // ID
	Title      string // with side: "wheel bearing, outer, left"
	Rig        string // name
	Fitted     string // ID of the part fitted there
	Grade      fieldkit.Grade
	Changes    []string          // what must be changed to fit this spare there
	Proven     fieldkit.Evidence // the weakest on the way from the part fitted; none for the part itself
	Worth      float64           // share of the hours that it saves: less than all where it fits with changes, or was only said or seen to fit
	Likelihood Likelihood
	Uses       float64          // pieces expected to be used there
	Without    fieldkit.Minutes // lost by a failure with no spare on board
	With       fieldkit.Minutes // lost by a failure mended with one that fits without changes
	Guessed    bool             // these two rest on a starting guess
	Town       string           // where it would be bought; none if no town helps
}

// Plan says what to carry on a trip: spares, with the tools and consumables their
// repairs need, so that the expected time lost to failures is as small as it can be
// within the trip's limits (see exact: proven, or with the bound). Only what is not owned costs money: pieces
// beyond the stock, tools not owned, consumables short. Under a limit on money
// nothing is bought whose price is not known in that currency; a money limit that is
// given as nothing means nothing is bought.
//
// keep is the list planned before, or nil: its lines that are pinned or ticked stay as
// they are, even over a limit, what it bans stays at home, and bins chosen before are
// kept while they have room. A spare counts
// where it fits directly or by interchange; what fits with changes counts for half,
// so does what is only said or seen to fit, and a chain that the kit's own records
// contradict counts not at all.
//
// The order of the kit's records never matters: ties go by ID.
func Plan(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, keep *fieldkit.Pack) Proposal {
	return PlanWhile(kit, cat, guides, trip, keep, Watch{})
}

// Watch follows a search that takes longer than a moment, and can end it.
type Watch struct {
	// KeepGoing is asked all the time, thousands of times a second; the search ends soon
	// after it says no, with the best list so far. nil never ends it.
	KeepGoing func() bool
	// Found is told what the best list so far saves, and the most that any can, both less
	// the minute that packing a piece is taken to cost. guessed says that some of it rests
	// on a starting guess.
	Found func(value, bound Hours, guessed bool)
}

// PlanWhile plans like Plan, watched. What it says of the list is what Explain says.
func PlanWhile(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, keep *fieldkit.Pack, w Watch) Proposal {
	m := newModel(kit, cat, guides, trip, keep, w.KeepGoing)
	var found func(value, bound float64)
	friends := m.worthOfFriends()
	if w.Found != nil {
		guessed := m.guessed()
		found = func(value, bound float64) { w.Found(Hours(value-friends), Hours(bound-friends), guessed) }
	}
	s, lines := m.planned(keep, w.KeepGoing, found)
	var pack fieldkit.Pack
	if keep != nil {
		pack = *keep
		pack.ByHand = false
	}
	pack.Trip = trip.ID
	pack.Lines = lines
	stow(binsOf(kit, trip), pack.Lines, m.article)
	m.aboard(pack.Lines)
	m.offer(&pack, byHand)
	p := m.explain(pack, s.counts)
	p.Bound, p.Proved = Hours(s.bound-friends), s.proved
	return p
}

// worthOfFriends is what the things in friends' rigs save by themselves.
func (m *model) worthOfFriends() float64 {
	if len(m.trip.Friends) == 0 {
		return 0
	}
	return newSearch(&m.problem, m.friends()).total()
}

// friends is the choice of nothing but what rides in friends' rigs.
func (m *model) friends() []int {
	counts := make([]int, len(m.items))
	for i, it := range m.items {
		counts[i] = it.friend
	}
	return counts
}

// Explain says what a list as it stands is good for, without changing it: after
// editing by hand, or for a list kept earlier.
func Explain(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, pack fieldkit.Pack) Proposal {
	return ExplainWhile(kit, cat, guides, trip, pack, nil)
}

// ExplainWhile explains like Explain. keepGoing only gets its turn; nil is left alone.
func ExplainWhile(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, pack fieldkit.Pack, keepGoing func() bool) Proposal {
	m, counts := modelOf(kit, cat, guides, trip, pack, keepGoing)
	return m.explain(pack, counts)
}

// modelOf describes a trip with a packing list and that list as a choice. What was set by
// hand is not to be changed; a tick, which comes and goes while one packs, says nothing.
func modelOf(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, pack fieldkit.Pack, keepGoing func() bool) (m *model, counts []int) {
	m = newModel(kit, cat, guides, trip, &pack, keepGoing)
	m.offer(&pack, byHand)
	return m, m.countsOf(pack)
}

// byHand tells the lines that a person set.
func byHand(l fieldkit.PackLine) bool { return l.Pinned }

// lines turns a choice into packing lines, keeping from the list before what still
// holds.
func (m *model) lines(counts []int, keep *fieldkit.Pack) (lines []fieldkit.PackLine) {
	for i, n := range counts {
		if n -= m.items[i].friend; n <= 0 {
			continue
		}
		ref := m.articles[i].ref
		line := fieldkit.PackLine{Type: ref.Type, Item: ref.Item}
		if keep != nil {
			if k := indexOf(*keep, ref); k >= 0 {
				line = keep.Lines[k]
			}
		}
		line.Count = n
		lines = append(lines, line)
	}
	return lines
}

func (m *model) article(ref Ref) article {
	if i, ok := m.index[ref]; ok {
		return m.articles[i]
	}
	return article{ref: ref}
}
