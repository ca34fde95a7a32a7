package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func TestViewStock(t *testing.T) {
	k := data.DemoKit()
	for what, n := range map[string]int{
		stockSpares: k.Spares.Len(), stockConsumables: len(k.Consumables), stockTools: len(k.Tools), stockBins: len(k.Bins), "else": 0,
	} {
		rows := viewStock(k, what, fieldkit.Inch)
		assert.Len(t, rows, n, what)
		for i, r := range rows {
			assert.NotEmpty(t, r.name, what)
			assert.Equal(t, what == stockSpares || what == stockConsumables, r.counted, what)
			if i > 0 {
				assert.LessOrEqual(t, strings.ToLower(rows[i-1].name), strings.ToLower(r.name), what)
			}
		}
		assert.Empty(t, viewStock(fieldkit.Kit{}, what, fieldkit.Inch))
	}
	find := func(what, id string) stockRow {
		for _, r := range viewStock(k, what, fieldkit.Inch) {
			if r.id == id {
				return r
			}
		}
		return stockRow{}
	}
	// 0.5 L are 16.9 US fl oz (29.5735 mL each).
	assert.Equal(t, "16.9 fl oz (500 mL)", strings.Split(find(stockConsumables, "brake-fluid").sub, " · ")[0])
	assert.Equal(t, stockRow{"spare-o-ring-014", "O-ring, steering pressure port", "Cab box", 4, true}, find(stockSpares, "spare-o-ring-014"))
	assert.Equal(t, "Hobnail · behind the seat", find(stockBins, "h-cab-box").sub)
	blank := viewStock(data.BlankKit("x"), stockBins, fieldkit.Metric)
	assert.Len(t, blank, len(data.BlankKit("x").Bins))
}

// Whatever is owned reads back from its form as it is kept, in either system.
func TestStockFormReadsBack(t *testing.T) {
	k := data.DemoKit()
	for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
		kept.prefs.Units = first
		for _, what := range []string{stockSpares, stockConsumables, stockTools, stockBins} {
			for _, row := range viewStock(k, what, first) {
				s := stockEditScreen{form: newForm("x", stockFields(k, what, row.id, first)), kit: k, what: what, id: row.id}
				r, ok := s.read()
				require.True(t, ok, "%s: %v", row.name, s.form.wrong)
				assert.Equal(t, stockRecord(k, what, row.id), r, row.name)
			}
		}
	}
	kept.prefs.Units = ""
}

func TestStockFormRefuses(t *testing.T) {
	for _, c := range []struct {
		name, what, field, typed string
	}{
		{"spare of nothing", stockSpares, "part", ""},
		{"half a spare", stockSpares, "count", "1.5"},
		{"less than none", stockSpares, "count", "-1"},
		{"tool without a name", stockTools, "name", " "},
		{"heavy", stockTools, "mass", "heavy"},
		{"negative space", stockConsumables, "volume", "-1 L"},
		{"pack of words", stockConsumables, "size", "large"},
		{"empty pack", stockConsumables, "size", "0 mL"},
		{"pack not said", stockConsumables, "size", ""},
		{"other currency", stockConsumables, "price", "3 EUR"},
		{"bin on no rig", stockBins, "rig", ""},
		{"bin that carries nothing", stockBins, "mass", "0"},
		{"bin that holds nothing", stockBins, "volume", "0 L"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := data.DemoKit()
			id := viewStock(k, c.what, fieldkit.Metric)[0].id
			f := onForm(stockFields(k, c.what, id, fieldkit.Metric), map[string]string{c.field: c.typed})
			s := stockEditScreen{form: f, kit: k, what: c.what, id: id}
			_, ok := s.read()
			assert.False(t, ok)
			assert.NotEmpty(t, f.wrong[c.field])
			assert.Len(t, f.wrong, 1, "only that field is marked")
			if c.field == "size" {
				assert.Contains(t, f.wrong[c.field], "write 500 mL, 400 g or a number of pieces", "not how to write what was measured")
			}
		})
	}
}

func TestNewStockBeginsSensibly(t *testing.T) {
	k := data.BlankKit("x")
	fields := stockFields(k, stockSpares, "", fieldkit.Inch)
	assert.Equal(t, "1", fields["count"])
	assert.Equal(t, k.Rigs[0].ID, stockFields(k, stockBins, "", fieldkit.Inch)["rig"])
	assert.NotContains(t, fields, baseField)
	assert.Empty(t, stockFields(fieldkit.Kit{}, stockBins, "", fieldkit.Inch)["rig"])
}

func TestUsesOfStock(t *testing.T) {
	k := packed(t)
	fluid, _ := fieldkit.Find(k.Consumables, "steering-fluid")
	n := 0
	for _, f := range k.Failures.All() {
		for _, u := range f.Used {
			if u.Item == "steering-fluid" {
				n++
			}
		}
	}
	for _, l := range toCome(k).Lines {
		if l.Item == "steering-fluid" {
			n++
		}
	}
	require.Greater(t, n, 1)
	assert.Equal(t, n, usesOfStock(k, fluid))
	assert.Zero(t, usesOfStock(k, k.Spares.At(0)), "lists and log name the part, not the spare")
}

func TestBinDeletedWithThingsInIt(t *testing.T) {
	k := packed(t)
	bin := k.Bins[0]
	after, err := edited(t, k, func(e *journal.Edit) error {
		emptyBins(e, deleted{stockBins: {bin.ID: true}})
		e.Delete(bin.Collection(), bin.ID)
		return nil
	})
	require.NoError(t, err)
	assert.Len(t, after.Bins, len(k.Bins)-1)
	assert.Len(t, after.Spares.Slice(), k.Spares.Len(), "what rode in it stays")
	for _, s := range after.Spares.All() {
		assert.NotEqual(t, bin.ID, s.Bin)
	}
}
