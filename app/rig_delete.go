package app

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// onRig is everything that goes when a rig goes.
type onRig struct {
	systems   []fieldkit.Assembly
	positions []fieldkit.Position
	failures  []fieldkit.Failure
	readings  []fieldkit.Inspection
	runs      []fieldkit.Run
	bins      []fieldkit.Bin
	trips     []fieldkit.Trip // trips no other rig goes on
	packs     []fieldkit.Pack // of those trips
}

func findOnRig(k fieldkit.Kit, rig string) onRig {
	var on onRig
	if rig == "" {
		return on
	}
	on.systems = systemsOf(k, rig)
	on.positions = k.PositionsOf(rig)
	mine := map[string]bool{}
	for _, p := range on.positions {
		mine[p.ID] = true
	}
	for _, f := range k.Failures.All() {
		if f.Rig == rig {
			on.failures = append(on.failures, f)
		}
	}
	for _, r := range k.Inspections.All() {
		if mine[r.Position] {
			on.readings = append(on.readings, r)
		}
	}
	for _, r := range k.Runs {
		if r.Rig == rig {
			on.runs = append(on.runs, r)
		}
	}
	for _, b := range k.Bins {
		if b.Rig == rig {
			on.bins = append(on.bins, b)
		}
	}
	alone := map[string]bool{}
	for _, t := range k.Trips {
		if len(t.Rigs) == 1 && t.Rigs[0] == rig {
			alone[t.ID] = true
			on.trips = append(on.trips, t)
		}
	}
	for _, p := range k.Packs {
		if alone[p.Trip] {
			on.packs = append(on.packs, p)
		}
	}
	return on
}

// empty reports a rig that takes nothing along.
func (on onRig) empty() bool { return on.words() == "" }

// words counts what goes, in the trade's words.
func (on onRig) words() string {
	var list []string
	count := func(n int, noun string) {
		if n > 0 {
			list = append(list, countOf(n, noun))
		}
	}
	count(len(on.systems), "system")
	count(len(on.positions), "position")
	count(len(on.failures), "failure")
	count(len(on.readings), "wear reading")
	count(len(on.runs), "repair")
	count(len(on.bins), "bin")
	count(len(on.trips), "trip")
	if len(list) < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:len(list)-1], ", ") + " and " + list[len(list)-1]
}

// brief is what the button says: positions matter most.
func (on onRig) brief() string {
	if len(on.positions) > 0 {
		return "its " + countOf(len(on.positions), "position")
	}
	return "all that is on it"
}

// deleteRig deletes a rig with all that is on it. What belongs to the crew stays:
// parts, donors, stock; what lay in the rig's bins lies in none.
func deleteRig(e *journal.Edit, rig string) {
	on := findOnRig(e.Kit(), rig)
	remove(e, on.packs)
	remove(e, on.failures)
	remove(e, on.readings)
	remove(e, on.runs)
	remove(e, on.positions)
	remove(e, on.systems)
	gone := deleted{}
	note(gone, on.bins)
	note(gone, on.trips)
	note(gone, on.failures)
	note(gone, on.runs)
	note(gone, on.positions)
	dropCosts(e, gone["positions"])
	k := e.Kit()
	for _, t := range k.Trips {
		carries := slices.DeleteFunc(slices.Clone(t.Carries), func(c fieldkit.Carries) bool { return c.Rig == rig })
		if (slices.Contains(t.Rigs, rig) || len(carries) < len(t.Carries)) && !gone["trips"][t.ID] {
			t.Rigs = slices.DeleteFunc(slices.Clone(t.Rigs), func(id string) bool { return id == rig })
			t.Carries = carries
			e.Put(t)
		}
	}
	for _, f := range k.Failures.All() {
		was := [3]string{f.Trip, f.Position, f.Run}
		f.Trip, f.Position, f.Run = gone.unless("trips", f.Trip), gone.unless("positions", f.Position), gone.unless("runs", f.Run)
		if was != [3]string{f.Trip, f.Position, f.Run} {
			e.Put(f)
		}
	}
	for _, r := range k.Runs {
		was := [2]string{r.Position, r.Failure}
		r.Position, r.Failure = gone.unless("positions", r.Position), gone.unless("failures", r.Failure)
		if was != [2]string{r.Position, r.Failure} {
			e.Put(r)
		}
	}
	for _, p := range k.Positions.All() {
		if gone["positions"][p.Parent] {
			p.Parent = ""
			e.Put(p)
		}
	}
	gone["rigs"] = map[string]bool{rig: true}
	emptyBins(e, gone)
	remove(e, on.trips)
	remove(e, on.bins)
	e.Delete(fieldkit.Rig{}.Collection(), rig)
}

// emptyBins takes everything out of bins and off rigs that go.
func emptyBins(e *journal.Edit, gone deleted) {
	k := e.Kit()
	for _, s := range k.Spares.All() {
		if gone["bins"][s.Bin] {
			s.Bin = ""
			e.Put(s)
		}
	}
	for _, c := range k.Consumables {
		if gone["bins"][c.Bin] {
			c.Bin = ""
			e.Put(c)
		}
	}
	for _, t := range k.Tools {
		if gone["bins"][t.Bin] {
			t.Bin = ""
			e.Put(t)
		}
	}
	for _, p := range k.Packs {
		if slices.ContainsFunc(p.Lines, func(l fieldkit.PackLine) bool { return gone["bins"][l.Bin] || gone["rigs"][l.Rig] }) {
			p.Lines = slices.Clone(p.Lines)
			for i := range p.Lines {
				p.Lines[i].Bin, p.Lines[i].Rig = gone.unless("bins", p.Lines[i].Bin), gone.unless("rigs", p.Lines[i].Rig)
			}
			e.Put(p)
		}
	}
}

// deleted holds the IDs that go, by collection.
type deleted map[string]map[string]bool

func note[T fieldkit.Record](d deleted, list []T) {
	for _, r := range list {
		if d[r.Collection()] == nil {
			d[r.Collection()] = map[string]bool{}
		}
		d[r.Collection()][r.Key()] = true
	}
}

// unless returns an ID that stays, and nothing for one that goes.
func (d deleted) unless(collection, id string) string {
	if d[collection][id] {
		return ""
	}
	return id
}

func remove[T fieldkit.Record](e *journal.Edit, list []T) {
	for _, r := range list {
		e.Delete(r.Collection(), r.Key())
	}
}
