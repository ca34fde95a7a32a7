package counter

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Chance is how likely a store of a kind has a part of a kind.
type Chance struct {
	Likely   float64 // from 0 to 1
	Asked    int     // the crew's own visits it rests on besides the guess
	Had      int     // of those, how many times the store had one
	Latest   fieldkit.Date
	Supposed bool // the catalog lists the store for the kind
}

// From says on what a chance rests.
func (c Chance) From() string {
	switch c.Asked {
	case 0:
		return "starting guess"
	case 1:
		return fmt.Sprintf("from your visit on %s", c.Latest.Show())
	}
	return fmt.Sprintf("from your %d visits, %d of them with luck", c.Asked, c.Had)
}

// Word says how likely in a word.
func (c Chance) Word() string {
	switch {
	case c.Likely >= 0.75:
		return "most likely"
	case c.Likely >= 0.5:
		return "likely"
	case c.Likely >= 0.25:
		return "perhaps"
	}
	return "hardly"
}

// Starting guesses: how likely the stores have what the catalog lists them for, in the
// order of the list, and how likely any other store.
var (
	listedChance   = []float64{0.8, 0.65, 0.5, 0.4}
	unlistedChance = 0.05
)

// guessWeight is how many visits a starting guess is worth: after that many of one's
// own the two count alike.
const guessWeight = 3

// ChanceOf gives how likely a store of a kind has a part of a kind: the starting guess
// of the catalog, corrected by the crew's own visits as a Beta prior is by successes
// and failures (mean of the posterior: (a + had) / (a + b + asked)).
func ChanceOf(kind fieldkit.PartKind, store string, visits []fieldkit.Visit) Chance {
	guess := unlistedChance
	place := slices.Index(kind.Stores, store)
	if place >= 0 {
		guess = listedChance[min(place, len(listedChance)-1)]
	}
	c := Chance{Supposed: place >= 0}
	for _, v := range visits {
		if v.Store != store || v.Kind != kind.ID {
			continue
		}
		c.Asked++
		if v.Had {
			c.Had++
		}
		if c.Latest.Before(v.On) {
			c.Latest = v.On
		}
	}
	c.Likely = (guess*guessWeight + float64(c.Had)) / float64(guessWeight+c.Asked)
	return c
}

// StoreHint is a store to ask, with how likely it has the part.
type StoreHint struct {
	fieldkit.StoreKind
	Chance Chance
}

// storesFor lists the stores that may have a part of a kind, the likeliest first.
func (l *ledger) storesFor(kind fieldkit.PartKind) (list []StoreHint) {
	for _, id := range storesOf(kind, l.kit.Visits) {
		if s, ok := l.stores[id]; ok {
			list = append(list, StoreHint{s, ChanceOf(kind, id, l.kit.Visits)})
		}
	}
	order.By(list, func(a, b StoreHint) int { return cmp.Compare(b.Chance.Likely, a.Chance.Likely) })
	return list
}

// storesOf lists the stores the catalog names for a kind and those of the visits.
func storesOf(kind fieldkit.PartKind, visits []fieldkit.Visit) []string {
	list := slices.Clone(kind.Stores)
	for _, v := range visits {
		if v.Kind == kind.ID && v.Had && !slices.Contains(list, v.Store) {
			list = append(list, v.Store)
		}
	}
	return list
}

// Offer is something a store may have for a rig.
type Offer struct {
	Kind      fieldkit.PartKind
	Part      string   // ID; none where the part is not known
	Name      string   // of the part, or of its kind
	Positions []string // IDs of the places it is for
	Title     string   // of those places
	Chance    Chance
	Ask       []string // what to say there, the best first
	Stock     int      // pieces in stock
	Caution   string
}

// leastWorthAsking is the chance below which a store is not asked.
const leastWorthAsking = 0.2

// AtStore answers what on a rig could be bought at a store of a kind: the likeliest
// first, then what fails most often. The error, of kind NotFound, names a kind of
// store that the catalog does not have.
func AtStore(kit fieldkit.Kit, cat fieldkit.Catalog, rig, store string) ([]Offer, error) {
	l := openLedger(kit, cat)
	at, ok := l.stores[store]
	if !ok {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("there is no kind of store %q", store), Do: "choose one from the list"}
	}
	var list []Offer
	place := map[string]int{}
	for _, p := range kit.PositionsOf(rig) {
		part, known := l.kit.Part(p.Part)
		kind := l.kindOf(part, p)
		key := kind.ID + "\x00" + part.ID
		if i, there := place[key]; there && known {
			list[i].Positions = append(list[i].Positions, p.ID)
			list[i].Title = joinTitles(list[i].Title, p.Title())
			continue
		}
		chance := ChanceOf(kind, store, kit.Visits)
		if chance.Likely < leastWorthAsking {
			continue
		}
		place[key] = len(list)
		name := kind.Name
		if known {
			name = l.partName(part.ID)
		}
		list = append(list, Offer{
			Kind: kind, Part: part.ID, Name: orElse(name, p.Title()), Positions: []string{p.ID}, Title: p.Title(), Chance: chance,
			Ask: l.askAt(at, part, kind), Stock: l.kit.Stock(part.ID), Caution: kind.Caution,
		})
	}
	order.By(list, func(a, b Offer) int {
		if d := cmp.Compare(b.Chance.Likely, a.Chance.Likely); d != 0 {
			return d
		}
		return cmp.Compare(b.Kind.Per10000, a.Kind.Per10000)
	})
	return list, nil
}

// sizesSaid is how many measurements are said at a counter: more are shown on the card.
const sizesSaid = 4

// askAt says what to ask for at a store, by what the store looks a part up by.
func (l *ledger) askAt(at fieldkit.StoreKind, part fieldkit.Part, kind fieldkit.PartKind) (list []string) {
	for _, by := range at.By {
		text := ""
		switch by {
		case "donor":
			if d, ok := l.donors[part.Donor]; ok {
				text = "for the " + d.Title()
			}
		case "number":
			text = numbersSaid(part, func(n fieldkit.Number) bool {
				return n.Issuer == fieldkit.MakerNumber || n.Issuer == fieldkit.ReplacementNumber
			})
		case "designation":
			text = numbersSaid(part, func(n fieldkit.Number) bool { return n.Issuer == fieldkit.StandardNumber })
		case "size":
			text = sizes(part, kind)
		case "old part":
			text = "bring the old one"
		}
		if text != "" {
			list = append(list, text)
		}
	}
	if len(list) == 0 {
		list = []string{"nothing is known that they look it up by: bring the old one"}
	}
	return list
}

// numbersSaid gives the numbers that can be asked by alone.
func numbersSaid(part fieldkit.Part, asked func(fieldkit.Number) bool) string {
	var list []string
	for _, n := range part.Numbers {
		if asked(n) && proven(n) {
			list = append(list, strings.TrimSpace(n.From+" "+n.Value))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "by number: " + strings.Join(list, ", ")
}

// sizes gives what decides as measured, in both systems.
func sizes(part fieldkit.Part, kind fieldkit.PartKind) string {
	var list []string
	for _, d := range kind.Deciding {
		if m, ok := reading(part, d.Name); ok && d.Must && len(list) < sizesSaid {
			list = append(list, d.Name+" "+m.Value.Both(fieldkit.Metric))
		}
	}
	if len(list) == 0 {
		return ""
	}
	return "by size: " + strings.Join(list, ", ")
}
