package data

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func TestEveryKindHasAPrior(t *testing.T) {
	for _, k := range Catalog().PartKinds {
		assert.Equal(t, k.ID, k.Prior.ID, k.ID)
		assert.InDelta(t, float64(k.Prior.Rate)/100, k.Per10000, 1e-12, k.ID)
		assert.Contains(t, fieldkit.Moves, k.IfBroken, k.ID)
	}
}

func TestBrokenPriorsAreRefused(t *testing.T) {
	const row = "steering-pump,12,150,92000,,,100,300,0,20,10,limps,"
	for name, c := range map[string]struct{ old, new, where, what string }{
		"rate of nothing":           {row, "steering-pump,0,150,92000,,,100,300,0,20,10,limps,", "line 2, failures_per_million_km", "out of range"},
		"rate in words":             {row, "steering-pump,few,150,92000,,,100,300,0,20,10,limps,", "line 2, failures_per_million_km", "out of range"},
		"life and rate disagree":    {row, "steering-pump,12,150,9200,,,100,300,0,20,10,limps,", "line 2, life_km", "does not go with"},
		"wear without a reading":    {row, "steering-pump,12,150,92000,1 mm,,100,300,0,20,10,limps,", "line 2, wear_per_10000_km", "others have none"},
		"wear that is no size":      {row, "steering-pump,12,150,92000,much,,100,300,0,20,10,limps,", "line 2, wear_per_10000_km", "not a size"},
		"kind not known":            {row, "steering-pumps,12,150,92000,,,100,300,0,20,10,limps,", "line 2, kind", "no part kind"},
		"moves in an unknown way":   {row, "steering-pump,12,150,92000,,,100,300,0,20,10,flies,", "line 2, if_broken", "not whether it can move"},
		"claims to be measured":     {row + `"starting guess, not measured"`, row + "measured", "line 2, standing", "hides what the row is"},
		"a column short":            {row, "steering-pump,12", "line 2", "3 columns"},
		"other columns":             {"kind,failures", "part,failures", "line 1", "not the columns"},
		"a kind without a row":      {"\nsteering-box,", "\nsteering-ram,", "line", "stands twice"},
		"more sudden than it fails": {"tie-rod-end,12,200,94000,400 µm,30", "tie-rod-end,12,200,94000,400 µm,130", "sudden_pct", "out of range"},
	} {
		t.Run(name, func(t *testing.T) {
			files := catalogWith(t, "", "", "")
			raw := string(files[priorsName].Data)
			require.Contains(t, raw, c.old)
			files[priorsName] = &fstest.MapFile{Data: []byte(strings.Replace(raw, c.old, c.new, 1))}
			cat, err := LoadCatalog(files)
			assert.Zero(t, cat)
			var said *fieldkit.Error
			require.ErrorAs(t, err, &said)
			assert.Contains(t, said.Where, c.where)
			assert.Contains(t, said.What, c.what)
		})
	}
}
