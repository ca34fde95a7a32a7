package spares

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"trailfieldkit/fieldkit"
)

// Ref names something that can be packed: a part, a consumable or a tool by its ID.
type Ref struct {
	Type fieldkit.ItemType
	Item string
}

// RefOf returns what a packing line is about.
func RefOf(line fieldkit.PackLine) Ref { return Ref{line.Type, line.Item} }

// compare orders references: spares, then consumables, then tools, each by ID.
func (r Ref) compare(s Ref) int {
	return cmp.Or(r.rank()-s.rank(), strings.Compare(r.Item, s.Item), strings.Compare(string(r.Type), string(s.Type)))
}

func (r Ref) rank() int {
	switch r.Type {
	case fieldkit.SpareItem:
		return 0
	case fieldkit.ConsumableItem:
		return 1
	case fieldkit.ToolItem:
		return 2
	}
	return 3
}

// article is what is known of something that can be packed, one piece of it.
type article struct {
	ref    Ref
	known  bool // the kit holds it
	name   string
	kind   string
	donor  string // ID, of a part
	mass   fieldkit.Mass
	volume fieldkit.Volume
	guess  Typical
	price  *fieldkit.Money
	stock  int    // pieces owned
	bin    string // where it usually rides
	stores []string
}

// owned is how many spares of a part the crew has, and where they usually ride.
type owned struct {
	count int
	bin   string
}

// ownedOf gathers what the crew owns, by part: of all parts, or of one.
func ownedOf(kit fieldkit.Kit, only string) map[string]owned {
	all := map[string]owned{}
	spares := kit.Spares.Refs()
	if only != "" {
		spares = kit.SparesOf(only)
	}
	for _, s := range spares {
		o := all[s.Part]
		o.count += s.Count
		if o.bin == "" {
			o.bin = s.Bin
		}
		all[s.Part] = o
	}
	return all
}

// articleOf looks a reference up.
func articleOf(kit fieldkit.Kit, cat fieldkit.Catalog, ref Ref) article {
	return articleAmong(kit, cat, ref, ownedOf(kit, ref.Item))
}

// articleAmong is articleOf where what the crew owns was gathered before. Where a part,
// consumable or tool does not say what it weighs or how much room it takes, its kind's
// typical figure stands in.
func articleAmong(kit fieldkit.Kit, cat fieldkit.Catalog, ref Ref, stock map[string]owned) article {
	a := article{ref: ref}
	switch ref.Type {
	case fieldkit.SpareItem:
		if p, ok := kit.Part(ref.Item); ok {
			kind, _ := cat.PartKind(p.Kind)
			a = article{ref, true, p.Name, p.Kind, p.Donor, p.Mass, p.Volume, Typical{}, p.Price, stock[p.ID].count, stock[p.ID].bin, kind.Stores}
			a.typical(kind.Mass, kind.Volume)
		}
	case fieldkit.ConsumableItem:
		if c, ok := fieldkit.Find(kit.Consumables, ref.Item); ok {
			kind, _ := cat.Consumable(c.Kind)
			a = article{ref, true, c.Name, c.Kind, "", c.Mass, c.Volume, Typical{}, c.Price, c.Count, c.Bin, kind.Stores}
			a.typical(kind.Mass, kind.Volume)
		}
	case fieldkit.ToolItem:
		if t, ok := fieldkit.Find(kit.Tools, ref.Item); ok {
			kind, _ := cat.Tool(t.Kind)
			a = article{ref, true, t.Name, t.Kind, "", t.Mass, t.Volume, Typical{}, t.Price, 0, t.Bin, nil}
			a.typical(kind.Mass, kind.Volume)
			if t.Owned {
				a.stock = 1
			}
		}
	}
	if !a.known || a.name == "" {
		a.name = fmt.Sprintf("%q", ref.Item)
	}
	a.stock = max(a.stock, 0)
	return a
}

func (a *article) typical(mass fieldkit.Mass, volume fieldkit.Volume) {
	if a.mass <= 0 {
		a.mass, a.guess.Mass = max(mass, 0), mass > 0
	}
	if a.volume <= 0 {
		a.volume, a.guess.Volume = max(volume, 0), volume > 0
	}
}

// Typical says which amounts rest on what things of the kind usually weigh and take up:
// starting guesses, until they are weighed and measured.
type Typical struct{ Mass, Volume bool }

func (t *Typical) add(u Typical) { t.Mass, t.Volume = t.Mass || u.Mass, t.Volume || u.Volume }

// short counts the pieces that must be bought to carry n.
func (a article) short(n int) int { return max(n-a.stock, 0) }

// cost returns what buying n pieces takes; ok is false if the price is not known
// in that currency, except that nothing costs nothing.
func (a article) cost(n int, currency string) (m fieldkit.Money, ok bool) {
	m.Currency = currency
	if n <= 0 {
		return m, true
	}
	if a.price == nil || a.price.Currency != currency || a.price.Cents < 0 {
		return m, false
	}
	m.Cents = times(a.price.Cents, n)
	return m, true
}

// times and plus work on amounts that are not negative and stop at the largest
// one instead of running over.
func times[T ~int64](amount T, n int) T {
	if amount <= 0 || n <= 0 {
		return 0
	}
	if amount > math.MaxInt64/T(n) {
		return math.MaxInt64
	}
	return amount * T(n)
}

func plus[T ~int64](a, b T) T {
	if a > math.MaxInt64-b {
		return math.MaxInt64
	}
	return a + b
}
