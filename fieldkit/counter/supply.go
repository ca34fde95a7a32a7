package counter

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Supply is a fluid or consumable of the kit that a store may have.
type Supply struct {
	Consumable fieldkit.Consumable
	Kind       fieldkit.ConsumableKind
	Chance     Chance
}

// Ask is what to say for it: its grade, and the size of a pack.
func (s Supply) Ask() string {
	ask := s.Kind.Grade
	if !s.Consumable.Size.IsZero() {
		ask = strings.TrimPrefix(ask+", "+s.Consumable.Size.Both(fieldkit.Metric), ", ")
	}
	return ask
}

// SuppliesAt answers which of the kit's fluids and consumables could be bought at a
// store of a kind: those that are used up first, then the likeliest. The error, of
// kind NotFound, names a kind of store that the catalog does not have.
func SuppliesAt(kit fieldkit.Kit, cat fieldkit.Catalog, store string) ([]Supply, error) {
	if _, ok := cat.Store(store); !ok {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, What: fmt.Sprintf("there is no kind of store %q", store), Do: "choose one from the list"}
	}
	var list []Supply
	for _, c := range kit.Consumables {
		kind, ok := cat.Consumable(c.Kind)
		if !ok || !slices.Contains(kind.Stores, store) {
			continue
		}
		chance := ChanceOf(fieldkit.PartKind{ID: kind.ID, Stores: kind.Stores}, store, nil)
		list = append(list, Supply{c, kind, chance})
	}
	order.By(list, func(a, b Supply) int {
		if gone := cmp.Compare(min(a.Consumable.Count, 1), min(b.Consumable.Count, 1)); gone != 0 {
			return gone
		}
		return cmp.Compare(b.Chance.Likely, a.Chance.Likely)
	})
	return list, nil
}
