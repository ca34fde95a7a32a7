package fieldkit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

func TestRelabelled(t *testing.T) {
	price := func(cents int64) *fieldkit.Money { return &fieldkit.Money{Cents: cents, Currency: "USD"} }
	kit := fieldkit.Kit{
		Currency:    "USD",
		Parts:       fieldkit.ListOf([]fieldkit.Part{{ID: "priced", Price: price(1234)}, {ID: "unpriced"}}),
		Consumables: []fieldkit.Consumable{{ID: "fluid", Price: price(900)}},
		Tools:       []fieldkit.Tool{{ID: "jack"}},
		Trips:       []fieldkit.Trip{{ID: "loop", Limits: fieldkit.Limits{Money: price(65000)}}},
	}
	changed := fieldkit.Relabelled(kit, "EUR")
	assert.Equal(t, []fieldkit.Record{
		fieldkit.Part{ID: "priced", Price: &fieldkit.Money{Cents: 1234, Currency: "EUR"}},
		fieldkit.Consumable{ID: "fluid", Price: &fieldkit.Money{Cents: 900, Currency: "EUR"}},
		fieldkit.Trip{ID: "loop", Limits: fieldkit.Limits{Money: &fieldkit.Money{Cents: 65000, Currency: "EUR"}}},
	}, changed)
	assert.Equal(t, "USD", kit.Parts.At(0).Price.Currency, "the kit itself stays")
}
