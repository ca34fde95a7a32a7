package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/lookup"
)

func TestHitAddress(t *testing.T) {
	for _, c := range []struct {
		name string
		hit  lookup.Hit
		want string
	}{
		{"position with a part", lookup.Hit{Kind: "position", ID: "p", Part: "a"}, "/counter/card?part=a&position=p"},
		{"position of nothing known", lookup.Hit{Kind: "position", ID: "p"}, "/counter/card?position=p"},
		{"fitted part", lookup.Hit{Kind: "part", ID: "a", Position: "p"}, "/counter/card?part=a&position=p"},
		{"part on the shelf", lookup.Hit{Kind: "part", ID: "a"}, "/counter/card?part=a"},
		{"donor", lookup.Hit{Kind: "donor", ID: "d"}, "/rig/donor?id=d"},
		{"kind", lookup.Hit{Kind: "kind", ID: "k"}, "/counter/kind?id=k"},
		{"tool", lookup.Hit{Kind: "tool", ID: "t"}, "/pack/stock/edit?id=t&what=tools"},
		{"consumable", lookup.Hit{Kind: "consumable", ID: "c"}, "/pack/stock/edit?id=c&what=consumables"},
		{"something newer", lookup.Hit{Kind: "store", Title: "A & B"}, "/counter?q=A+%26+B"},
	} {
		t.Run(c.name, func(t *testing.T) { assert.Equal(t, c.want, hitAddress(c.hit)) })
	}
}

// Whatever a search of the demo kit finds opens a screen that exists, of a record
// that exists.
func TestEveryHitOpensSomething(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	index := lookup.New(k, cat, data.Shelf())
	for _, q := range []string{"u-joint", "brake", "pump", "grease", "jack", "4x4", "35 mm", "6207-2RS", "H4", "35x12.50R17", "62?7", "circlip 35 mm"} {
		for _, h := range index.Find(q, hitsShown) {
			path, _, _ := strings.Cut(hitAddress(h), "?")
			assert.Contains(t, routes, path, "%s: %s", q, h.Title)
			require.NotEmpty(t, whyShown(h), "%s: %s does not say why", q, h.Title)
		}
	}
}

func TestWhyShown(t *testing.T) {
	h := lookup.Hit{Sub: "Hobnail, Driveline: U-joint, front drive shaft · 2 in stock", Why: []string{"in the name", "fitted at Hobnail, Driveline: U-joint, front drive shaft"}}
	assert.Equal(t, []string{"in the name"}, whyShown(h), "the line above says where")
	h.Sub = "Hobnail, Rear axle: U-joint"
	assert.Len(t, whyShown(h), 2, "another place is news")
	h = lookup.Hit{Sub: "Hobnail: pump", Why: []string{"fitted at Hobnail: pump"}}
	assert.Equal(t, h.Why, whyShown(h), "some reason is always given")
}

func TestCheckWords(t *testing.T) {
	must := counter.Check{Name: "span", Measured: true, Must: true, How: "caliper over the caps", Why: "the rings do not go in", Taken: "caliper, 24 Feb 2024", Worn: true}
	assert.Equal(t, []string{"Decides · caliper over the caps", "If it differs: the rings do not go in", "Ours: caliper, 24 Feb 2024, on a worn part"}, checkWords(must))
	assert.Equal(t, []string{"Decides"}, checkWords(counter.Check{Name: "span", Must: true}))
	assert.Empty(t, checkWords(counter.Check{Name: "span"}))
}

func TestStandInLines(t *testing.T) {
	in := counter.StandInLine{
		Grade: fieldkit.WithChanges, Numbers: []string{"Tarrowick W/6604/A"}, Changes: []string{"press the pulley over", "check the hose"},
		Donor: "1991-1995 Tarrowick Wicket", Chain: "test-fitted", Stock: 1,
	}
	assert.Equal(t, []string{
		"fits with changes · Tarrowick W/6604/A · 1 in stock", "changes: press the pulley over; check the hose",
		"from 1991-1995 Tarrowick Wicket", "test-fitted",
	}, standInLines(in))
	assert.Equal(t, "drop-in", standInWords(counter.StandInLine{Grade: fieldkit.DropIn}))
}

// The cards of the demo kit give their stand-ins in order of grade.
func TestStandInsComeBestFirst(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	order := map[fieldkit.Grade]int{fieldkit.DropIn: 1, fieldkit.WithChanges: 2}
	graph, seen := interchange.New(k.Parts.Slice(), k.Links.Slice()), 0
	for _, p := range k.Parts.All() {
		card, err := counter.CardFor(k, cat, graph, p.ID, "")
		require.NoError(t, err)
		for i := 1; i < len(card.StandIns); i++ {
			assert.LessOrEqual(t, order[card.StandIns[i-1].Grade], order[card.StandIns[i].Grade], p.Name)
			seen++
		}
	}
	assert.NotZero(t, seen, "some part has two stand-ins")
}

func TestOtherThan(t *testing.T) {
	assert.Empty(t, otherThan("front brake pads", "Front brake pads"))
	assert.Equal(t, "front brake pads, wagon", otherThan("front brake pads", "front brake pads, wagon"))
}
