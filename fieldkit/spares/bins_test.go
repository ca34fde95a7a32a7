package spares

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

func TestStow(t *testing.T) {
	kg, litre := fieldkit.Kilogram, fieldkit.Litre
	bins := []fieldkit.Bin{
		{ID: "drawer", MassLimit: 10 * kg, VolumeLimit: 20 * litre},
		{ID: "box", MassLimit: 30 * kg},
	}
	type thing struct {
		id    string
		kg    fieldkit.Mass
		litre fieldkit.Volume
		count int
		usual string
		chose string
	}
	cases := []struct {
		name   string
		things []thing
		want   map[string]string
	}{
		{"the usual bin", []thing{{"a", 1, 1, 1, "box", ""}}, map[string]string{"a": "box"}},
		{"the bin chosen by hand before the usual one", []thing{{"a", 1, 1, 1, "box", "drawer"}}, map[string]string{"a": "drawer"}},
		{"a bin that stays at home", []thing{{"a", 1, 1, 1, "box", "trailer"}}, map[string]string{"a": "box"}},
		{"the emptiest bin", []thing{{"a", 1, 1, 1, "", ""}}, map[string]string{"a": "box"}},
		{"too heavy for the usual bin", []thing{{"a", 11, 1, 1, "drawer", ""}}, map[string]string{"a": "box"}},
		{"too large for the usual bin", []thing{{"a", 1, 7, 3, "drawer", ""}}, map[string]string{"a": "box"}},
		{"all pieces together", []thing{{"a", 6, 1, 2, "drawer", ""}}, map[string]string{"a": "box"}},
		{"no bin takes it", []thing{{"a", 31, 1, 1, "drawer", ""}}, map[string]string{"a": ""}},
		{"full to the limit", []thing{{"a", 10, 20, 1, "drawer", ""}}, map[string]string{"a": "drawer"}},
		{"what has a place goes before what has none", []thing{{"a", 9, 1, 1, "", ""}, {"b", 2, 1, 1, "drawer", ""}}, map[string]string{"a": "box", "b": "drawer"}},
		{"heavy before light", []thing{{"a", 2, 1, 1, "", ""}, {"b", 9, 1, 1, "", ""}, {"c", 30, 1, 1, "", ""}}, map[string]string{"a": "", "b": "drawer", "c": "box"}},
		{"counts too large for any sum", []thing{{"a", 1 << 20, 1, MaxCount, "", ""}, {"b", 1, 1, 1, "", ""}}, map[string]string{"a": "", "b": "box"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			articles := map[Ref]article{}
			var lines []fieldkit.PackLine
			for _, x := range c.things {
				articles[spare(x.id)] = article{mass: x.kg * kg, volume: x.litre * litre, bin: x.usual}
				lines = append(lines, fieldkit.PackLine{Type: fieldkit.SpareItem, Item: x.id, Count: x.count, Bin: x.chose})
			}
			stow(bins, lines, func(r Ref) article { return articles[r] })
			for _, l := range lines {
				assert.Equal(t, c.want[l.Item], l.Bin, l.Item)
			}
		})
	}
}

// The heavy lies low and forward, tools at hand, and like things are spread.
func TestStowByUse(t *testing.T) {
	kg := fieldkit.Kilogram
	bins := []fieldkit.Bin{{ID: "roof"}, {ID: "floor", Low: true, Forward: true}, {ID: "tail", Low: true}, {ID: "lid", Quick: true}}
	weights := map[string]fieldkit.Mass{"axle shaft": 12 * kg, "hub": 10 * kg, "sockets": 3 * kg, "seal a": kg, "seal b": kg, "seal c": kg}
	var lines []fieldkit.PackLine
	for _, id := range []string{"axle shaft", "hub", "seal a", "seal b", "seal c"} {
		lines = append(lines, fieldkit.PackLine{Type: fieldkit.SpareItem, Item: id, Count: 1})
	}
	lines = append(lines, fieldkit.PackLine{Type: fieldkit.ToolItem, Item: "sockets", Count: 1})
	stow(bins, lines, func(r Ref) article { return article{mass: weights[r.Item]} })
	in := map[string]string{}
	for _, l := range lines {
		in[l.Item] = l.Bin
	}
	assert.Equal(t, "floor", in["axle shaft"])
	assert.Equal(t, "floor", in["hub"])
	assert.Equal(t, "lid", in["sockets"])
	assert.ElementsMatch(t, []string{"roof", "tail", "roof"}, []string{in["seal a"], in["seal b"], in["seal c"]})
}

func TestBinsOf(t *testing.T) {
	kit := fieldkit.Kit{Bins: []fieldkit.Bin{
		{ID: "d", Rig: "mule", Order: 1}, {ID: "c", Rig: "badger", Order: 2}, {ID: "b", Rig: "badger", Order: 1}, {ID: "a", Rig: "badger", Order: 1}, {ID: "e", Rig: "other"},
	}}
	var ids []string
	for _, b := range binsOf(kit, fieldkit.Trip{Rigs: []string{"mule", "badger"}}) {
		ids = append(ids, b.ID)
	}
	assert.Equal(t, []string{"d", "a", "b", "c"}, ids)
}
