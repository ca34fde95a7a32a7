package spares

import (
	"cmp"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/likelihood"
	"trailfieldkit/fieldkit/order"
	"trailfieldkit/fieldkit/repair"
)

const (
	// MaxCopies bounds the pieces of one spare the planner takes; more can be pinned
	// by hand. Beyond it a likelihood is too wrong to plan with.
	MaxCopies = 8
	// maxPacks bounds the packs of one consumable the planner takes.
	maxPacks = 8
	// changedWorth is the share of the hours that a spare which fits with changes
	// still saves. Starting guess: the changes cost time, and now and then do not
	// work out on the trail.
	changedWorth = 0.5
	// doubtedWorth is the same for a spare of which it was only said or seen that it
	// fits, and not tried, measured or read. Starting guess.
	doubtedWorth = 0.5
)

// model ties a problem to the kit it was made from.
type model struct {
	kit    fieldkit.Kit
	cat    fieldkit.Catalog
	trip   fieldkit.Trip
	guides []repair.Guide

	problem
	articles []article // by item
	index    map[Ref]int
	places   []place        // by demand
	hours    Hours          // expected to be lost with nothing on board, over all positions
	unknown  int            // positions that may fail and have no part recorded
	risks    []risk         // every position that may fail, in the order of the demands
	fixed    map[string]int // remedy by guide
}

// place is the position behind a demand.
type place struct {
	position   fieldkit.Position
	rig        fieldkit.Rig
	kind       fieldkit.PartKind
	likelihood Likelihood
	cost       Cost
	via        []interchange.StandIn // by reach; the zero StandIn is the part itself
}

// newModel describes a trip as a problem. keep may be nil; its lines that stay are
// taken as given and what it bans is not offered. keepGoing is asked position by position,
// and thing by thing when a list is explained; both are done whole whatever it says.
func newModel(kit fieldkit.Kit, cat fieldkit.Catalog, guides []repair.Guide, trip fieldkit.Trip, keep *fieldkit.Pack, keepGoing func() bool) *model {
	m := &model{kit: kit, cat: cat, trip: trip, guides: slices.Clone(guides), index: map[Ref]int{}, fixed: map[string]int{}}
	order.By(m.guides, func(a, b repair.Guide) int { return strings.Compare(a.ID, b.ID) })
	m.turn = orNothing(keepGoing)
	m.limits = boundsOf(trip)
	m.addItems(keep)
	m.offer(keep, Stays)
	m.turn()
	graph := interchange.Of(kit.Parts, kit.Links)
	for _, id := range rigsOf(trip) {
		rig, ok := kit.Rig(id)
		if !ok {
			continue
		}
		f := likelihood.Look(kit, cat, trip, rig)
		positions := kit.PositionsOf(id)
		order.By(positions, func(a, b fieldkit.Position) int { return strings.Compare(a.ID, b.ID) })
		for _, p := range positions {
			m.turn()
			m.addPlace(graph, f, p)
		}
	}
	m.orderReach()
	m.connect()
	return m
}

// orNothing gives whoever is to be asked its turn, where there is somebody.
func orNothing(keepGoing func() bool) func() {
	return func() {
		if keepGoing != nil {
			keepGoing()
		}
	}
}

// rigsOf returns the rigs that go, each once, sorted.
func rigsOf(trip fieldkit.Trip) []string {
	return slices.Compact(slices.Sorted(slices.Values(trip.Rigs)))
}

// addItems takes in everything the kit holds, and the lines that lead nowhere, in the
// order of their references. Like the positions and the guides they are sorted, so that
// the order of the kit never matters.
func (m *model) addItems(keep *fieldkit.Pack) {
	var refs []Ref
	for _, p := range m.kit.Parts.All() {
		refs = append(refs, Ref{fieldkit.SpareItem, p.ID})
	}
	for _, c := range m.kit.Consumables {
		refs = append(refs, Ref{fieldkit.ConsumableItem, c.ID})
	}
	for _, t := range m.kit.Tools {
		refs = append(refs, Ref{fieldkit.ToolItem, t.ID})
	}
	if keep != nil {
		for _, l := range keep.Lines {
			refs = append(refs, RefOf(l))
		}
	}
	order.By(refs, Ref.compare)
	stock := ownedOf(m.kit, "")
	for _, ref := range slices.Compact(refs) {
		a := articleAmong(m.kit, m.cat, ref, stock)
		m.index[ref] = len(m.articles)
		m.articles = append(m.articles, a)
		price, _ := a.cost(1, currencyOf(m.kit, m.trip))
		m.items = append(m.items, item{mass: a.mass, volume: a.volume, stock: a.stock, cents: price.Cents, friend: m.trip.WithFriends(ref.Type, ref.Item)})
	}
}

// offer says how many pieces of each item a list may have: of the lines of keep that stay
// neither fewer nor more than they say, nothing of what it bans. keep may be nil.
func (m *model) offer(keep *fieldkit.Pack, stays func(fieldkit.PackLine) bool) {
	set := map[Ref]int{}
	if keep != nil {
		for _, l := range keep.Lines {
			if ref := RefOf(l); stays(l) && !banned(keep, ref) {
				set[ref] = max(set[ref], piecesOf(l))
			}
		}
	}
	for i, a := range m.articles {
		it := &m.items[i]
		it.least, it.most = it.friend+set[a.ref], mostOf(a.ref)
		if _, priced := a.cost(1, currencyOf(m.kit, m.trip)); !priced && m.limits.Money != nil {
			it.most = min(it.most, a.stock+it.friend) // what it would cost is not known
		}
		if set[a.ref] > 0 || banned(keep, a.ref) || !carried(m.trip, a) {
			it.most = 0
		}
		it.most = max(it.most, it.least)
	}
}

// piecesOf is how many pieces a line stands for.
func piecesOf(l fieldkit.PackLine) int { return min(max(l.Count, 1), MaxCount) }

func mostOf(ref Ref) int {
	switch ref.Type {
	case fieldkit.SpareItem:
		return MaxCopies
	case fieldkit.ConsumableItem:
		return maxPacks
	}
	return 1
}

// addPlace adds a position that may fail, with the parts that fit it.
func (m *model) addPlace(graph *interchange.Graph, f *likelihood.Outlook, p fieldkit.Position) {
	l := f.Of(p)
	if l.Expected <= 0 {
		return
	}
	kind, _ := m.cat.PartKind(p.Kind)
	pl := place{position: p, rig: f.Rig, kind: kind, likelihood: l}
	pl.cost = CostOf(m.cat, m.guides, m.trip, f.Rig, p)
	without, with := pl.cost.Counts(m.trip)
	m.hours += Hours(l.Expected) * without
	m.risks = append(m.risks, risk{position: p, likelihood: l, expected: l.Expected, cost: pl.cost, without: without, with: with, demand: -1})
	d := demand{rate: l.Expected, hours: without - with}
	if d.hours <= 0 {
		return
	}
	fitted, ok := m.kit.Part(p.Part)
	if !ok {
		m.unknown++
		return
	}
	direct := interchange.StandIn{Part: fitted.ID, Grade: fieldkit.DropIn}
	for _, s := range append([]interchange.StandIn{direct}, graph.StandIns(fitted.ID)...) {
		i, ok := m.index[Ref{fieldkit.SpareItem, s.Part}]
		if !ok || len(s.Contested) > 0 {
			continue // not a part of the kit, or the records contradict each other
		}
		d.reach = append(d.reach, reach{i, worthOfStandIn(s)})
		pl.via = append(pl.via, s)
	}
	d.remedies = m.remediesFor(kind, f.Rig)
	m.risks[len(m.risks)-1].demand = len(m.demands)
	m.demands = append(m.demands, d)
	m.places = append(m.places, pl)
}

// worthOfStandIn is the share of the hours a stand-in saves; the part itself has no
// chain and counts in full.
func worthOfStandIn(s interchange.StandIn) float64 {
	worth := 1.0
	if s.Grade == fieldkit.WithChanges || len(s.Changes) > 0 {
		worth *= changedWorth
	}
	if len(s.Chain) > 0 && s.Weakest.Strength() <= fieldkit.Seen.Strength() {
		worth *= doubtedWorth
	}
	return worth
}

// orderReach puts each demand's spares in the order in which a crew would use them:
// what fits without changes first, then what fits the fewest other places, so that
// the piece that fits everywhere is kept longest.
func (m *model) orderReach() {
	fits := make([]int, len(m.items))
	for _, d := range m.demands {
		for _, r := range d.reach {
			fits[r.item]++
		}
	}
	for i := range m.demands {
		d, via := &m.demands[i], m.places[i].via
		order := make([]int, len(d.reach))
		for r := range order {
			order[r] = r
		}
		slices.SortFunc(order, func(a, b int) int {
			ra, rb := d.reach[a], d.reach[b]
			return cmp.Or(cmp.Compare(rb.worth, ra.worth), fits[ra.item]-fits[rb.item], ra.item-rb.item)
		})
		sortedReach, sortedVia := make([]reach, len(order)), make([]interchange.StandIn, len(order))
		for to, from := range order {
			sortedReach[to], sortedVia[to] = d.reach[from], via[from]
		}
		d.reach, m.places[i].via = sortedReach, sortedVia
	}
}

// remediesFor returns the repairs that put a new part of the kind on a rig. A repair
// that only gets the rig home without the part counts where there is no other; a kind
// that no repair deals with needs nothing but the spare.
func (m *model) remediesFor(kind fieldkit.PartKind, rig fieldkit.Rig) []int {
	var fits, mends []int
	for _, g := range m.guides {
		if !slices.Contains(kind.Repairs, g.ID) && !slices.Contains(g.PartKinds, kind.ID) || g.Suits.On(rig) == repair.Fails {
			continue
		}
		r := m.remedyOf(g)
		mends = append(mends, r)
		if slices.ContainsFunc(g.Parts, func(n repair.PartNeed) bool { return n.Kind == kind.ID }) {
			fits = append(fits, r)
		}
	}
	switch {
	case len(fits) > 0:
		return fits
	case len(mends) > 0:
		return mends
	}
	return []int{m.remedyOf(repair.Guide{})}
}

// remedyOf returns the remedy of a guide: what it wants on board of tools and
// consumables. A kit that lists none at all of one or the other is not asked for
// them.
func (m *model) remedyOf(g repair.Guide) int {
	if r, ok := m.fixed[g.ID]; ok {
		return r
	}
	re := remedy{title: g.Title}
	for _, n := range g.Tools {
		if !n.Optional && len(m.kit.Tools) > 0 {
			re.wants = append(re.wants, m.toolWant(n))
		}
	}
	for _, n := range g.Consumables {
		if !n.Optional && len(m.kit.Consumables) > 0 {
			re.wants = append(re.wants, m.consumableWant(n))
		}
	}
	m.fixed[g.ID] = len(m.remedies)
	m.remedies = append(m.remedies, re)
	return m.fixed[g.ID]
}

// toolWant is met by any tool of the kind, or of a kind that does its job.
func (m *model) toolWant(n repair.ToolNeed) want {
	kind, _ := m.cat.Tool(n.Kind)
	w := want{kind: n.Kind, name: nameOr(kind.Name, n.Kind)}
	for _, t := range m.kit.Tools {
		if t.Kind == n.Kind || slices.Contains(kind.Alternatives, t.Kind) {
			w.anyOf = append(w.anyOf, option{m.index[Ref{fieldkit.ToolItem, t.ID}], 1})
		}
	}
	m.prefer(w.anyOf, n.Kind)
	return w
}

// consumableWant is met by any consumable of the kind, in as many packs as the
// repair uses up.
func (m *model) consumableWant(n repair.ConsumableNeed) want {
	kind, _ := m.cat.Consumable(n.Kind)
	w := want{kind: n.Kind, name: nameOr(kind.Name, n.Kind)}
	for _, c := range m.kit.Consumables {
		if packs := packsFor(n.Amount, c.Size); c.Kind == n.Kind && packs <= maxPacks {
			w.anyOf = append(w.anyOf, option{m.index[Ref{fieldkit.ConsumableItem, c.ID}], packs})
		}
	}
	m.prefer(w.anyOf, n.Kind)
	return w
}

// packsFor says how many packs hold an amount; one if the two cannot be compared.
func packsFor(amount, size fieldkit.Value) int {
	if amount.Dim != size.Dim || size.Base <= 0 || amount.Base <= size.Base {
		return 1
	}
	return int(min((amount.Base-1)/size.Base+1, MaxCount))
}

// prefer sorts what may meet a want: what is owned or rides with friends first, then of the very kind, then the
// lightest.
func (m *model) prefer(options []option, kind string) {
	order.By(options, func(a, b option) int {
		ia, ib := m.items[a.item], m.items[b.item]
		return cmp.Or(
			first(ia.stock+ia.friend >= a.count, ib.stock+ib.friend >= b.count),
			first(m.articles[a.item].kind == kind, m.articles[b.item].kind == kind),
			cmp.Compare(times(ia.mass, a.count), times(ib.mass, b.count)),
			a.item-b.item,
		)
	})
}

// first puts what has a property before what has not.
func first(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

func nameOr(name, id string) string {
	if name == "" {
		return strings.ReplaceAll(id, "-", " ")
	}
	return name
}
