package findings

import (
	"cmp"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Carried is what became of one spare on the trips that are done.
type Carried struct {
	Part   string // ID
	Name   string
	Trips  int           // trips whose packing list had it
	Most   int           // pieces on one of them
	Used   int           // pieces used on trips, carried or bought on the way
	UsedOn int           // trips it was used on
	Mass   fieldkit.Mass // of the most that was carried, nothing where it is not known
}

// Spares says of each spare part how often it was carried and how often it was used, on
// trips of a rig that are done, of all rigs if it is none. lists is how many of these
// trips kept a packing list: of the others it is not known what rode along. What was
// used comes first, then what was carried most often for nothing, the heavier in front.
func Spares(kit fieldkit.Kit, cat fieldkit.Catalog, rig string) (all []Carried, lists, trips int) {
	at := map[string]int{}
	find := func(part string) *Carried {
		i, known := at[part]
		if !known {
			i = len(all)
			at[part] = i
			p, ok := kit.Part(part)
			if !ok {
				p.Name = part
			}
			all = append(all, Carried{Part: part, Name: p.Name})
		}
		return &all[i]
	}
	for _, t := range kit.Trips {
		if !t.Done || !goes(t, rig) {
			continue
		}
		trips++
		carried, used := onTrip(kit, t)
		if carried != nil {
			lists++
		}
		for part, n := range carried {
			c := find(part)
			c.Trips++
			c.Most = max(c.Most, n)
		}
		for part, n := range used {
			c := find(part)
			c.UsedOn++
			c.Used += n
		}
	}
	for i := range all {
		all[i].Mass = massOf(kit, cat, all[i].Part) * fieldkit.Mass(all[i].Most)
	}
	order.By(all, func(a, b Carried) int {
		return cmp.Or(cmp.Compare(b.Used, a.Used), cmp.Compare(b.Trips, a.Trips), cmp.Compare(b.Mass, a.Mass), cmp.Compare(a.Name, b.Name), cmp.Compare(a.Part, b.Part))
	})
	return all, lists, trips
}

// onTrip counts the spare pieces on a trip's packing list, nil if it has none, and
// those used on it.
func onTrip(kit fieldkit.Kit, t fieldkit.Trip) (carried, used map[string]int) {
	for _, p := range kit.Packs {
		if p.Trip != t.ID || len(p.Lines) == 0 {
			continue
		}
		if carried == nil {
			carried = map[string]int{}
		}
		for _, l := range p.Lines {
			if l.Type == fieldkit.SpareItem && l.Count > 0 {
				carried[l.Item] += l.Count
			}
		}
	}
	used = map[string]int{}
	for _, f := range kit.Failures.All() {
		if !t.Holds(f) {
			continue
		}
		for _, u := range f.Used {
			if u.Type == fieldkit.SpareItem && u.Count > 0 {
				used[u.Item] += u.Count
			}
		}
	}
	return carried, used
}

func massOf(kit fieldkit.Kit, cat fieldkit.Catalog, id string) fieldkit.Mass {
	part, _ := kit.Part(id)
	if part.Mass > 0 {
		return part.Mass
	}
	kind, _ := cat.PartKind(part.Kind)
	return kind.Mass
}
