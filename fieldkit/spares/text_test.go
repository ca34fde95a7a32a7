package spares

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

var update = flag.Bool("update", false, "rewrite the golden files")

func TestPackText(t *testing.T) {
	kit := testKit(t)
	kit.Spares = fieldkit.ListOf([]fieldkit.Spare{{ID: "s", Part: "joint-a", Count: 1}})
	kit.Trips[0].Limits = fieldkit.Limits{Mass: 10 * fieldkit.Kilogram}
	planned := Plan(kit, testCatalog(), testGuides(t), kit.Trips[0], nil).Pack
	planned = Tick(Ban(planned, spare("pump-a")), tool("spanners"), true)
	heavy := SetCount(SetCount(planned, spare("pump-a"), 2), spare("gone"), 1)
	heavy = Move(heavy, spare("pump-a"), "drawer", "")
	cases := []struct {
		file  string
		pack  fieldkit.Pack
		first fieldkit.System
	}{
		{"planned.txt", planned, fieldkit.Metric},
		{"over.txt", heavy, fieldkit.Inch},
		{"empty.txt", fieldkit.Pack{Trip: "nowhere"}, fieldkit.Metric},
	}
	for _, c := range cases {
		t.Run(c.file, func(t *testing.T) {
			got := PackText(kit, testCatalog(), c.pack, c.first)
			path := filepath.Join("testdata", c.file)
			if *update {
				require.NoError(t, os.MkdirAll("testdata", 0o755))
				require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
			}
			want, err := os.ReadFile(path)
			require.NoError(t, err)
			assert.Equal(t, string(want), got)
		})
	}
}
