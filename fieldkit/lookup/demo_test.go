package lookup_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
)

// Whatever is written in a kit must be found by it: the demo kit is one.
func TestDemoKitIsFoundByWhatItSays(t *testing.T) {
	kit, cat := data.DemoKit(), data.Catalog()
	ix := lookup.New(kit, cat, nil)
	t.Run("numbers", func(t *testing.T) {
		for _, p := range kit.Parts.All() {
			for _, n := range p.Numbers {
				for _, q := range []string{n.Value, strings.ToLower(n.Value), strings.NewReplacer("-", " ", "/", " ", ".", "").Replace(n.Value)} {
					hits := ix.Find(q, 10)
					checkHits(t, hits, 10)
					require.True(t, foundAmong(hits, p.ID, 5), "%q for %s: %+v", q, p.ID, hits)
				}
			}
		}
	})
	t.Run("names", func(t *testing.T) {
		for _, p := range kit.Parts.All() {
			require.True(t, foundAmong(ix.Find(p.Name, 10), p.ID, 5), "%q", p.Name)
		}
	})
	t.Run("trade names", func(t *testing.T) {
		kinds := map[string]string{}
		for _, p := range kit.Parts.All() {
			kinds[p.ID] = p.Kind
		}
		for _, k := range cat.PartKinds {
			for _, s := range append([]string{k.Name}, k.Synonyms...) {
				found := false
				for _, h := range ix.Find(s, 40) {
					found = found || h.Kind == lookup.KindHit && h.ID == k.ID || kinds[h.Part] == k.ID
				}
				require.True(t, found, "%q for %s", s, k.ID)
			}
		}
	})
	t.Run("positions", func(t *testing.T) {
		for _, p := range kit.Positions.All() {
			rig, _ := kit.RigOf(p)
			found := false
			for _, h := range ix.Find(rig.Name+" "+p.Title(), 10) {
				found = found || h.Position == p.ID
				for _, at := range h.Positions {
					found = found || at == p.ID
				}
			}
			require.True(t, found, "%s %s", rig.Name, p.Title())
		}
	})
	t.Run("measurements", func(t *testing.T) {
		for _, p := range kit.Parts.All() {
			kind, _ := cat.PartKind(p.Kind)
			for _, m := range p.Measurements {
				if m.Value.Dim != fieldkit.DimLength {
					continue
				}
				for _, s := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
					q := m.Value.Show(s) + " " + kind.Name
					require.True(t, foundAmong(ix.Find(q, 200), p.ID, 200), "%q for %s", q, p.ID)
				}
			}
		}
	})
	t.Run("donors", func(t *testing.T) {
		for _, d := range kit.Donors {
			hits := ix.Find(d.Make+" "+d.Model, 5)
			require.NotEmpty(t, hits)
			require.Equal(t, d.ID, hits[0].ID)
		}
	})
}
