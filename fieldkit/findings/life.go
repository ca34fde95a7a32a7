package findings

import (
	"cmp"
	"math"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
	"trailfieldkit/fieldkit/order"
)

// Life is how far a rig drives, on average, until a part fails at one place.
type Life struct {
	Kind     string            // part kind
	Name     string            // of the kind, or of the position
	Position string            // ID; none where it is of all places of the kind
	Places   int               // positions that were watched
	Failures int               // of them in the log
	Way      fieldkit.Distance // driven while the log watched, all places one after the other
	// Mean is Way over Failures, nothing without a failure. Low and High are its
	// interval, nine times in ten; without a failure only Low is known, and nineteen
	// times in twenty it is further.
	Mean, Low, High fieldkit.Distance
}

// The ends of the interval: nine times in ten between them.
const (
	lowEnd  = 0.05
	highEnd = 0.95
)

// Between gives the mean distance between failures and its interval from a number of
// failures in a distance, for parts that fail as often old as young. Parts that still
// live count by the distance they have come. Mean and high are nothing without a
// failure, all are without a distance.
//
// Source: NIST/SEMATECH e-Handbook of Statistical Methods 8.4.5.1, HPP model, watching
// that ends by distance: 2·T/χ²(0.95; 2r+2) to 2·T/χ²(0.05; 2r). Half a χ² quantile of 2k
// degrees of freedom is the gamma quantile of shape k.
func Between(failures int, way fieldkit.Distance) (mean, low, high fieldkit.Distance) {
	if way <= 0 || failures < 0 {
		return 0, 0, 0
	}
	over := func(x float64) fieldkit.Distance { return fieldkit.Distance(math.Round(float64(way) / x)) }
	r := float64(failures)
	low = over(likelihood.Rate{Shape: r + 1, Exposure: 1}.Quantile(highEnd))
	if failures > 0 {
		mean = over(r)
		// The bound may lie beyond what a distance holds: then there is none.
		if x := float64(way) / (likelihood.Rate{Shape: r, Exposure: 1}.Quantile(lowEnd)); x < math.MaxInt64/2 {
			high = fieldkit.Distance(math.Round(x))
		}
	}
	return mean, low, high
}

// ByKind lists the lives of the part kinds that were watched on a rig, all rigs if it
// is none: first those that failed, the shortest life in front, then the others, the
// longest watched in front.
func ByKind(kit fieldkit.Kit, cat fieldkit.Catalog, rig string) []Life {
	at := map[string]int{}
	var lives []Life
	for _, one := range watched(kit, rig) {
		i, known := at[one.Kind]
		if !known {
			i = len(lives)
			at[one.Kind] = i
			kind, ok := cat.PartKind(one.Kind)
			if !ok {
				kind.Name = one.Kind
			}
			lives = append(lives, Life{Kind: one.Kind, Name: kind.Name})
		}
		lives[i].Places++
		lives[i].Failures += one.Failures
		lives[i].Way += one.Way
	}
	return settled(lives)
}

// ByPosition lists the lives at the positions of a part kind on a rig, in the same
// order; all rigs and all kinds where they are none.
func ByPosition(kit fieldkit.Kit, rig, kind string) []Life {
	var lives []Life
	for _, one := range watched(kit, rig) {
		if kind == "" || one.Kind == kind {
			lives = append(lives, one)
		}
	}
	return settled(lives)
}

// LifeAt is the life at one position; ok is false if it was not watched.
func LifeAt(kit fieldkit.Kit, p fieldkit.Position) (life Life, ok bool) {
	rig, _ := kit.RigOf(p)
	for _, one := range watched(kit, rig.ID) {
		if one.Position == p.ID {
			return settled([]Life{one})[0], true
		}
	}
	return Life{}, false
}

func settled(lives []Life) []Life {
	for i, l := range lives {
		lives[i].Mean, lives[i].Low, lives[i].High = Between(l.Failures, l.Way)
	}
	order.By(lives, func(a, b Life) int {
		switch {
		case (a.Failures > 0) != (b.Failures > 0):
			return cmp.Compare(min(b.Failures, 1), min(a.Failures, 1))
		case a.Failures > 0:
			return cmp.Compare(a.Mean, b.Mean)
		}
		return cmp.Compare(b.Way, a.Way)
	})
	return lives
}

// watched lists the positions with what the log saw of them: from the first entry of
// the rig's log, or from when the part that still lives there was fitted if that is
// earlier, to the rig's latest odometer. An entry that stands at the very beginning is
// not counted: the watching began because of it.
func watched(kit fieldkit.Kit, rig string) []Life {
	var all []Life
	failed := map[string][]fieldkit.Failure{}
	for _, f := range kit.Failures.All() {
		failed[f.Position] = append(failed[f.Position], f)
	}
	for _, r := range kit.Rigs {
		if rig != "" && r.ID != rig {
			continue
		}
		positions := kit.PositionsOf(r.ID)
		began, now := logSpan(kit, r, positions)
		for _, p := range positions {
			from := began
			if p.FittedAt > 0 && (from == 0 || p.FittedAt < from) {
				from = p.FittedAt
			}
			if from == 0 || now <= from {
				continue
			}
			one := Life{Kind: p.Kind, Name: r.Name + ": " + p.Title(), Position: p.ID, Places: 1, Way: now - from}
			for _, f := range failed[p.ID] {
				if f.Odometer == 0 || f.Odometer > from {
					one.Failures++
				}
			}
			all = append(all, one)
		}
	}
	return all
}

// logSpan gives the odometer of the first entry of a rig's log, nothing if there is
// none, and the latest odometer known of the rig.
func logSpan(kit fieldkit.Kit, rig fieldkit.Rig, positions []fieldkit.Position) (began, now fieldkit.Distance) {
	now = rig.Odometer
	on := map[string]bool{}
	for _, p := range positions {
		on[p.ID] = true
		now = max(now, p.FittedAt)
	}
	see := func(d fieldkit.Distance) {
		if d > 0 && (began == 0 || d < began) {
			began = d
		}
		now = max(now, d)
	}
	for _, f := range kit.Failures.All() {
		if f.Rig == rig.ID {
			see(f.Odometer)
		}
	}
	for _, i := range kit.Inspections.All() {
		if on[i.Position] {
			see(i.Odometer)
		}
	}
	return began, now
}
