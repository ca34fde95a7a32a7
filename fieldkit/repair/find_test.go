package repair_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func shelf() []repair.Guide {
	return []repair.Guide{
		{ID: "hinge", Title: "Hinge", System: "gates", Summary: "It sags.", Symptoms: []string{"squealing when opened", "gate drags on the ground"}, PartKinds: []string{"hinge"}},
		{ID: "latch", Title: "Latch", System: "gates", Summary: "It will not close.", Symptoms: []string{"clicks but does not hold", "noise in the wind"}, PartKinds: []string{"latch", "hinge"}},
		{ID: "pump", Title: "Pump", System: "water", Summary: "No water comes.", Symptoms: []string{"leak at the handle", "squealing handle"}, PartKinds: []string{"pump"}},
		{ID: "bow", Title: "Bow hinge", System: "gates", PartKinds: []string{"hinge"}, Suits: repair.Condition{"post": {"steel"}}},
	}
}

func ids(guides []repair.Guide) (list []string) {
	for _, g := range guides {
		list = append(list, g.ID)
	}
	return list
}

func TestBySystem(t *testing.T) {
	groups := repair.BySystem(shelf())
	assert.Len(t, groups, 2)
	assert.Equal(t, "gates", groups[0].System)
	assert.Equal(t, []string{"bow", "hinge", "latch"}, ids(groups[0].Guides))
	assert.Equal(t, []string{"pump"}, ids(groups[1].Guides))
}

func TestForPosition(t *testing.T) {
	kit := farm(t)
	assert.Equal(t, []string{"bow", "hinge", "latch"}, ids(repair.ForPosition(shelf(), kit, "upper")), "steel: all suit, the main kind first")
	kit.Rigs[0].Traits = map[string]string{"post": "wood"}
	assert.Equal(t, []string{"hinge", "latch", "bow"}, ids(repair.ForPosition(shelf(), kit, "upper")), "what is written for other rigs is last")
	kit.Rigs[0].Traits = nil
	assert.Equal(t, []string{"hinge", "latch", "bow"}, ids(repair.ForPosition(shelf(), kit, "upper")))
	assert.Empty(t, repair.ForPosition(shelf(), kit, "leaf"))
	assert.Empty(t, repair.ForPosition(shelf(), fieldkit.Kit{}, "upper"))
}

func TestBySymptom(t *testing.T) {
	for name, c := range map[string]struct {
		query string
		want  []string
	}{
		"nothing asked":               {"", nil},
		"fillers only":                {"it is on the", nil},
		"no word shared":              {"explodes", nil},
		"another form of the word":    {"it clicked", []string{"latch"}},
		"a word of the same meaning":  {"something screeches when I open the gate", []string{"hinge", "pump"}},
		"the rarer word counts more":  {"squeal leaking", []string{"pump", "hinge"}},
		"dripping is leaking":         {"drips", []string{"pump"}},
		"the title is found as well":  {"latch", []string{"latch"}},
		"capitals and marks are none": {"LATCH!!!", []string{"latch"}},
	} {
		t.Run(name, func(t *testing.T) {
			var found []string
			for _, m := range repair.BySymptom(shelf(), c.query) {
				found = append(found, m.Guide.ID)
			}
			assert.Equal(t, c.want, found)
		})
	}
	m := repair.BySymptom(shelf(), "leak squealing")[0]
	assert.Equal(t, []string{"leak at the handle", "squealing handle"}, m.Why)
}

func TestNamed(t *testing.T) {
	g, ok := repair.Named(shelf(), "pump")
	assert.True(t, ok)
	assert.Equal(t, "Pump", g.Title)
	_, ok = repair.Named(shelf(), "well")
	assert.False(t, ok)
}
