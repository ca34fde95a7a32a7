package repair

import (
	"math/big"
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// FailureFrom drafts the log entry of a repair: what broke, how it was fixed, what
// it used of the crew's stock and how long it took, for the person to correct.
// now is in the zone the person is in, so that the day is theirs.
//
// It claims no failure that the way did not find. Where nothing was found to have
// failed (see Sound), and where the repair was finished before any fix, What says
// so, and Position and Part are left open: an entry that names neither counts as a
// failure of neither.
func FailureFrom(g Guide, run fieldkit.Run, kit fieldkit.Kit, now fieldkit.Moment, id string) fieldkit.Failure {
	rig, _ := kit.Rig(run.Rig)
	position, _ := kit.Position(run.Position)
	f := fieldkit.Failure{
		ID: id, Rig: run.Rig, Run: run.ID,
		On: fieldkit.DateOf(now.Time), At: whole(now), Odometer: rig.Odometer,
		Position: run.Position, Part: position.Part,
		What: g.Failed, Fix: g.fixOf(run),
		Used: run.Used, Lost: lost(run, now),
	}
	switch {
	case g.Sound(run):
		f.What = "checked, no failure found: " + g.Title
	case !g.settled(run):
		f.What = "looked at: " + g.Title
	}
	if f.What != g.Failed {
		f.Position, f.Part = "", ""
	}
	if position.Name != "" {
		f.What += ": " + position.Title()
	}
	if trip, ok := kit.TripOn(run.Rig, f.On); ok {
		f.Trip = trip.ID
	}
	if len(f.Used) == 0 {
		f.Used = append(g.sparesUsed(run, kit, position), g.consumablesUsed(run, kit)...)
	}
	return f
}

// Sound reports that the way taken found what the repair is for not to have failed:
// it came to a step, or holds an answer, that the guide marks so. There is no
// failure to log then.
func (g Guide) Sound(run fieldkit.Run) bool {
	return slices.ContainsFunc(reached(run), func(id string) bool {
		s, _ := g.Step(id)
		o, _ := s.option(run.Answers[id])
		return s.Sound || o.Sound
	})
}

// StoppedAt returns the stop that a way ended in; ok is false for a way that ended
// otherwise or has not ended.
func (g Guide) StoppedAt(run fieldkit.Run) (stop Step, ok bool) {
	if n := len(run.Path); n > 0 && run.Step == End {
		stop, ok = g.Step(run.Path[n-1])
	}
	return stop, ok && stop.Stage == Stop
}

// settled reports whether the way went far enough to say what broke: to its end, to
// a fix or to a stop.
func (g Guide) settled(run fieldkit.Run) bool {
	return run.Step == End || slices.ContainsFunc(reached(run), func(id string) bool {
		s, _ := g.Step(id)
		return slices.Contains([]Stage{Field, Proper, PutBack, Stop}, s.Stage)
	})
}

// reached lists the steps of the way, the one it stands at last.
func reached(run fieldkit.Run) []string { return append(slices.Clone(run.Path), run.Step) }

// fixOf says which of the two fixes the way led through last: none before its end,
// and none where it ended in a stop.
func (g Guide) fixOf(run fieldkit.Run) string {
	if run.Step != End {
		return ""
	}
	for _, id := range slices.Backward(run.Path) {
		switch s, _ := g.Step(id); s.Stage {
		case Stop:
			return ""
		case Field:
			return "Field fix: " + g.FieldFix
		case Proper:
			return g.ProperFix
		}
	}
	return ""
}

// lost is the time from the start to now, never negative.
func lost(run fieldkit.Run, now fieldkit.Moment) fieldkit.Minutes {
	if run.Started.IsZero() {
		return 0
	}
	m := fieldkit.Minutes(now.Sub(run.Started.Time).Round(1e9 * 60).Minutes())
	return min(max(m, 0), fieldkit.MaxMinutes)
}

// sparesUsed lists, for the parts the way taken fits new, the spare of what is
// fitted at the position or beside it, or else the best stand-in in stock. Parts
// that are fitted only if the old one is bad count where the repair is, not beside
// it.
func (g Guide) sparesUsed(run fieldkit.Run, kit fieldkit.Kit, position fieldkit.Position) []fieldkit.Item {
	var used []fieldkit.Item
	fitted := g.onPath(run, func(s Step) []string { return s.Parts })
	for _, need := range g.Parts {
		if !slices.Contains(fitted, need.Kind) || need.Optional && position.Kind != need.Kind {
			continue
		}
		for _, at := range near(kit, position, need) {
			part, stock := inStock(kit, at.Part)
			i := slices.IndexFunc(used, func(it fieldkit.Item) bool { return it.Item == part })
			switch {
			case stock == 0:
			case i >= 0:
				used[i].Count = min(stock, used[i].Count+max(at.Quantity, 1))
			default:
				used = append(used, fieldkit.Item{Type: fieldkit.SpareItem, Item: part, Count: min(stock, max(at.Quantity, 1))})
			}
		}
	}
	return used
}

// near finds the positions of a kind that belong with a position, at most as many
// as are needed: itself, those under it, those beside it under the same parent.
func near(kit fieldkit.Kit, p fieldkit.Position, need PartNeed) []fieldkit.Position {
	if p.ID == "" {
		return nil
	}
	var found []fieldkit.Position
	for _, belongs := range []func(q fieldkit.Position) bool{
		func(q fieldkit.Position) bool { return q.ID == p.ID },
		func(q fieldkit.Position) bool { return q.Parent == p.ID },
		func(q fieldkit.Position) bool { return q.ID != p.ID && p.Parent != "" && q.Parent == p.Parent },
	} {
		for _, q := range kit.Positions.All() {
			if q.Kind == need.Kind && belongs(q) && len(found) < need.Count {
				found = append(found, q)
			}
		}
	}
	return found
}

// inStock returns the part itself, or its best stand-in that is owned as a spare,
// and how many there are.
func inStock(kit fieldkit.Kit, part string) (string, int) {
	if part == "" {
		return "", 0
	}
	if n := kit.Stock(part); n > 0 {
		return part, n
	}
	for _, s := range interchange.Of(kit.Parts, kit.Links).StandIns(part) {
		if n := kit.Stock(s.Part); n > 0 {
			return s.Part, n
		}
	}
	return "", 0
}

// maxPacks bounds what one repair is taken to use up; the stock bounds it too.
const maxPacks = 100

// consumablesUsed lists the packs that the way taken used up.
func (g Guide) consumablesUsed(run fieldkit.Run, kit fieldkit.Kit) []fieldkit.Item {
	var used []fieldkit.Item
	for _, kind := range g.onPath(run, func(s Step) []string { return s.Consumables }) {
		i := slices.IndexFunc(g.Consumables, func(n ConsumableNeed) bool { return n.Kind == kind })
		if i < 0 {
			continue
		}
		for _, c := range kit.Consumables {
			if c.Kind != kind || c.Count < 1 {
				continue
			}
			if n := min(packs(g.Consumables[i].Amount, c.Size), c.Count); n > 0 {
				used = append(used, fieldkit.Item{Type: fieldkit.ConsumableItem, Item: c.ID, Count: n})
			}
			break
		}
	}
	return used
}

// packs is how many packs an amount counts for: half a pack or more is one, less
// stays in stock, as does what cannot be compared with the pack.
func packs(amount, size fieldkit.Value) int {
	if amount.Dim != size.Dim || amount.Base <= 0 || size.Base <= 0 {
		return 0
	}
	twice := new(big.Int).Lsh(big.NewInt(amount.Base), 1)
	n := twice.Add(twice, big.NewInt(size.Base)).Quo(twice, new(big.Int).Lsh(big.NewInt(size.Base), 1))
	if !n.IsInt64() || n.Int64() > maxPacks {
		return maxPacks
	}
	return int(n.Int64())
}

// onPath lists what the steps done name, each once, in order.
func (g Guide) onPath(run fieldkit.Run, named func(Step) []string) []string {
	var all []string
	for _, id := range run.Path {
		s, _ := g.Step(id)
		for _, kind := range named(s) {
			if !slices.Contains(all, kind) {
				all = append(all, kind)
			}
		}
	}
	return all
}
