package counter_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

// At every kind of store something can be bought for the demo's rig; what is offered
// is likely there, belongs to the rig, and says what to ask.
func TestAtEveryStore(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	for _, store := range cat.Stores {
		offers, err := counter.AtStore(kit, cat, "hobnail", store.ID)
		require.NoError(t, err)
		assert.NotEmpty(t, offers, store.ID)
		for i, o := range offers {
			assert.NotEmpty(t, o.Ask, o.Name)
			assert.NotEmpty(t, o.Positions, o.Name)
			assert.True(t, slices.Contains(o.Kind.Stores, store.ID) || o.Chance.Asked > 0, "%s at %s", o.Name, store.ID)
			if i > 0 {
				assert.GreaterOrEqual(t, offers[i-1].Chance.Likely, o.Chance.Likely)
			}
			for _, id := range o.Positions {
				at, ok := kit.Position(id)
				require.True(t, ok)
				rig, _ := kit.RigOf(at)
				assert.Equal(t, "hobnail", rig.ID)
			}
		}
	}
	_, err := counter.AtStore(kit, cat, "hobnail", "chandler")
	assert.ErrorContains(t, err, "no kind of store")
}

// A store is asked by what it looks a part up by: a bearing supply by the number on
// the ring and by size, never by the vehicle.
func TestWhatToAskFor(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	ask := func(store, part string) string {
		offers, err := counter.AtStore(kit, cat, "hobnail", store)
		require.NoError(t, err)
		i := slices.IndexFunc(offers, func(o counter.Offer) bool { return o.Part == part })
		require.GreaterOrEqual(t, i, 0, "%s at %s", part, store)
		return strings.Join(offers[i].Ask, "; ")
	}
	assert.Contains(t, ask("bearing-belt", "front-bearing-outer"), "by number: ABMA 19.2 LM501349")
	assert.Contains(t, ask("bearing-belt", "front-bearing-outer"), "bore 41.28 mm (1-5/8 in)")
	assert.NotContains(t, ask("bearing-belt", "front-bearing-outer"), "for the")
	assert.Contains(t, ask("parts-chain", "pads-front"), "for the 2001-2006 Skarrowell Packsaddle")

	// A visit without luck: hardly worth asking for, and it says why.
	kit.Visits = append(kit.Visits, fieldkit.Visit{Store: "farm-ranch", Kind: "locking-hub"}, fieldkit.Visit{Store: "farm-ranch", Kind: "locking-hub"})
	offers, err := counter.AtStore(kit, cat, "hobnail", "farm-ranch")
	require.NoError(t, err)
	for _, o := range offers {
		if o.Kind.ID == "locking-hub" {
			assert.Equal(t, "from your 2 visits, 0 of them with luck", o.Chance.From())
			assert.Equal(t, "perhaps", o.Chance.Word())
		}
	}
}

// A farm store has grease and fluids, a bearing supply no brake fluid; what is used up
// comes first.
func TestSuppliesAt(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	kinds := func(store string) (list []string) {
		supplies, err := counter.SuppliesAt(kit, cat, store)
		require.NoError(t, err)
		for i, s := range supplies {
			list = append(list, s.Kind.ID)
			if i > 0 {
				assert.False(t, s.Consumable.Count == 0 && supplies[i-1].Consumable.Count > 0, "%s is used up and comes behind %s", s.Consumable.Name, supplies[i-1].Consumable.Name)
			}
		}
		return list
	}
	assert.Contains(t, kinds("farm-ranch"), "brake-fluid")
	assert.Contains(t, kinds("bearing-belt"), "wheel-bearing-grease")
	assert.NotContains(t, kinds("bearing-belt"), "brake-fluid")

	kit.Consumables[len(kit.Consumables)-1].Count = 0
	last := kit.Consumables[len(kit.Consumables)-1]
	k, _ := cat.Consumable(last.Kind)
	require.NotEmpty(t, k.Stores)
	supplies, err := counter.SuppliesAt(kit, cat, k.Stores[0])
	require.NoError(t, err)
	assert.Zero(t, supplies[0].Consumable.Count)

	_, err = counter.SuppliesAt(kit, cat, "chandler")
	assert.ErrorContains(t, err, "no kind of store")
}

// What is asked for a fluid is its grade, a published one, and the size of a pack.
func TestAskForSupply(t *testing.T) {
	supplies, err := counter.SuppliesAt(data.DemoKit(), data.Catalog(), "parts-chain")
	require.NoError(t, err)
	i := slices.IndexFunc(supplies, func(s counter.Supply) bool { return s.Kind.ID == "brake-fluid" })
	require.GreaterOrEqual(t, i, 0)
	assert.Contains(t, supplies[i].Ask(), "DOT 3 or DOT 4 (FMVSS 116)")
}
