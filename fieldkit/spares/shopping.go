package spares

import (
	"slices"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Need is something to buy before leaving or after coming home.
type Need struct {
	Ref    Ref
	Name   string
	For    string          // donor to name at the counter, of a part
	Count  int             // pieces to buy
	Stock  int             // pieces owned
	Used   int             // on the trip; of a restock list
	Cost   *fieldkit.Money // of all pieces to buy; nil where the price is not known
	Stores []string        // names of the kinds of store, the likeliest first
}

// Shopping lists what is on a packing list and not in stock, by type and ID.
func Shopping(kit fieldkit.Kit, cat fieldkit.Catalog, pack fieldkit.Pack) []Need {
	trip, _ := kit.Trip(pack.Trip)
	stock := ownedOf(kit, "")
	var needs []Need
	for _, line := range pack.Lines {
		a := articleAmong(kit, cat, RefOf(line), stock)
		if n := a.short(line.Count); n > 0 {
			needs = append(needs, needOf(kit, cat, a, n, currencyOf(kit, trip)))
		}
	}
	order.By(needs, func(a, b Need) int { return a.Ref.compare(b.Ref) })
	return needs
}

// Restock lists what was used since a trip began, with what is left of it: the
// failures logged for the trip, and those of its rigs that name no trip, from its
// first day to the day after its last, when the rig is unpacked. To buy is what the trip's packing list wants over the stock, or what
// was used if the list does not name it. Tools are not used up.
func Restock(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip) []Need {
	used := map[Ref]int{}
	for _, f := range kit.Failures.All() {
		byDate := f.Trip == "" && slices.Contains(trip.Rigs, f.Rig) &&
			!trip.Start.IsZero() && !f.On.IsZero() && !f.On.Before(trip.Start) &&
			!trip.Start.AddDays(max(trip.Days, 1)).Before(f.On)
		if f.Trip != trip.ID && !byDate {
			continue
		}
		for _, u := range f.Used {
			if u.Type != fieldkit.ToolItem && u.Count > 0 {
				ref := Ref{u.Type, u.Item}
				used[ref] = min(used[ref]+min(u.Count, MaxCount), MaxCount)
			}
		}
	}
	wanted := map[Ref]int{}
	for _, p := range kit.Packs {
		if p.Trip == trip.ID {
			for _, l := range p.Lines {
				wanted[RefOf(l)] = l.Count
			}
		}
	}
	needs := []Need{}
	for ref, n := range used {
		a := articleOf(kit, cat, ref)
		buy := n
		if w, ok := wanted[ref]; ok {
			buy = a.short(w)
		}
		need := needOf(kit, cat, a, buy, currencyOf(kit, trip))
		need.Used = n
		needs = append(needs, need)
	}
	order.By(needs, func(a, b Need) int { return a.Ref.compare(b.Ref) })
	return needs
}

func needOf(kit fieldkit.Kit, cat fieldkit.Catalog, a article, count int, currency string) Need {
	n := Need{Ref: a.ref, Name: a.name, Count: count, Stock: a.stock}
	if donor, ok := kit.Donor(a.donor); ok {
		n.For = donor.Title()
	}
	if m, ok := a.cost(count, currency); ok {
		n.Cost = &m
	}
	for _, id := range a.stores {
		if s, ok := cat.Store(id); ok {
			n.Stores = append(n.Stores, s.Name)
		}
	}
	return n
}
