package repair_test

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func stockKit() fieldkit.Kit {
	return fieldkit.Kit{
		Spares: fieldkit.ListOf([]fieldkit.Spare{
			{ID: "s1", Part: "hinge-a", Count: 1, Bin: "door"},
			{ID: "s2", Part: "hinge-b", Count: 4},
			{ID: "s3", Part: "hinge-a", Count: 2},
		}),
		Consumables: []fieldkit.Consumable{{ID: "oil-can", Kind: "oil", Count: 2}},
		Tools:       []fieldkit.Tool{{ID: "driver-1", Kind: "driver", Owned: true}},
	}
}

func spare(id string, n int) fieldkit.Item {
	return fieldkit.Item{Type: fieldkit.SpareItem, Item: id, Count: n}
}

func consumable(id string, n int) fieldkit.Item {
	return fieldkit.Item{Type: fieldkit.ConsumableItem, Item: id, Count: n}
}

// counts gives the stock after the changes, by record.
func counts(kit fieldkit.Kit, changed []fieldkit.Record) map[string]int {
	for _, r := range changed {
		c, _ := fieldkit.CollectionNamed(r.Collection())
		c.Put(&kit, r)
	}
	all := map[string]int{}
	for _, s := range kit.Spares.All() {
		all[s.ID] = s.Count
	}
	for _, c := range kit.Consumables {
		all[c.ID] = c.Count
	}
	return all
}

func TestUse(t *testing.T) {
	for name, c := range map[string]struct {
		items []fieldkit.Item
		want  map[string]int // stock afterwards
		short []repair.Short
	}{
		"nothing":                  {nil, map[string]int{"s1": 1, "s2": 4, "s3": 2, "oil-can": 2}, nil},
		"one spare":                {[]fieldkit.Item{spare("hinge-b", 1)}, map[string]int{"s1": 1, "s2": 3, "s3": 2, "oil-can": 2}, nil},
		"from two records":         {[]fieldkit.Item{spare("hinge-a", 2)}, map[string]int{"s1": 0, "s2": 4, "s3": 1, "oil-can": 2}, nil},
		"more than there is":       {[]fieldkit.Item{spare("hinge-a", 5)}, map[string]int{"s1": 0, "s2": 4, "s3": 0, "oil-can": 2}, []repair.Short{{Item: spare("hinge-a", 5), Missing: 2}}},
		"named twice":              {[]fieldkit.Item{consumable("oil-can", 1), consumable("oil-can", 2)}, map[string]int{"s1": 1, "s2": 4, "s3": 2, "oil-can": 0}, []repair.Short{{Item: consumable("oil-can", 3), Missing: 1}}},
		"not in the kit":           {[]fieldkit.Item{consumable("glue", 1)}, map[string]int{"s1": 1, "s2": 4, "s3": 2, "oil-can": 2}, []repair.Short{{Item: consumable("glue", 1), Missing: 1}}},
		"a tool is not used up":    {[]fieldkit.Item{{Type: fieldkit.ToolItem, Item: "driver-1", Count: 1}}, map[string]int{"s1": 1, "s2": 4, "s3": 2, "oil-can": 2}, nil},
		"a count below zero is no": {[]fieldkit.Item{spare("hinge-b", -3)}, map[string]int{"s1": 1, "s2": 4, "s3": 2, "oil-can": 2}, nil},
	} {
		t.Run(name, func(t *testing.T) {
			kit := stockKit()
			changed, short := repair.Use(kit, c.items)
			assert.Equal(t, stockKit(), kit, "the kit itself is not changed")
			assert.Equal(t, c.want, counts(kit, changed))
			assert.Equal(t, c.short, short)
			for _, r := range changed {
				if s, ok := r.(fieldkit.Spare); ok && s.ID == "s1" {
					assert.Equal(t, "door", s.Bin, "the rest of the record stays")
				}
			}
		})
	}
}

func TestAdjust(t *testing.T) {
	before := []fieldkit.Item{spare("hinge-a", 1), consumable("oil-can", 1)}
	changed, short := repair.Adjust(stockKit(), before, []fieldkit.Item{spare("hinge-a", 1), spare("hinge-b", 1)})
	assert.Empty(t, short)
	assert.Equal(t, map[string]int{"s1": 1, "s2": 3, "s3": 2, "oil-can": 3}, counts(stockKit(), changed))
	changed, short = repair.Adjust(stockKit(), before, before)
	assert.Empty(t, changed)
	assert.Empty(t, short)
}

// What was used and is put back leaves the stock as it was, and stock never falls
// below zero: what was taken and what is short make up what was asked for.
func TestStockLaws(t *testing.T) {
	r := rand.New(rand.NewSource(3))
	ids := []fieldkit.Item{spare("hinge-a", 0), spare("hinge-b", 0), consumable("oil-can", 0)}
	total := func(kit fieldkit.Kit, changed []fieldkit.Record) (n int) {
		for _, c := range counts(kit, changed) {
			require.GreaterOrEqual(t, c, 0)
			n += c
		}
		return n
	}
	for range 300 {
		kit := stockKit()
		var items []fieldkit.Item
		asked := 0
		for range r.Intn(5) {
			it := ids[r.Intn(len(ids))]
			it.Count = r.Intn(4)
			asked += it.Count
			items = append(items, it)
		}
		changed, short := repair.Use(kit, items)
		missing := 0
		for _, s := range short {
			missing += s.Missing
		}
		require.Equal(t, asked-missing, total(kit, nil)-total(kit, changed))
		if missing > 0 {
			continue
		}
		used := kit
		for _, rec := range changed {
			c, _ := fieldkit.CollectionNamed(rec.Collection())
			c.Put(&used, rec)
		}
		back, _ := repair.Adjust(used, items, nil)
		require.Equal(t, total(kit, nil), total(used, back))
	}
}
