package app

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

func TestLend(t *testing.T) {
	var trip fieldkit.Trip
	one := lend(trip, fieldkit.ToolItem, "jack", 1)
	assert.Equal(t, []fieldkit.Lent{{Type: fieldkit.ToolItem, Item: "jack", Count: 1}}, one.Friends)
	assert.Equal(t, 3, lend(lend(one, fieldkit.ToolItem, "jack", 1), fieldkit.ToolItem, "jack", 1).Friends[0].Count)
	assert.Empty(t, lend(one, fieldkit.ToolItem, "jack", -1).Friends)
	assert.Empty(t, lend(trip, fieldkit.ToolItem, "jack", -1).Friends, "there was none to take out")
	assert.Len(t, one.Friends, 1, "what was given is not changed")
}

// What the form says of rigs and friends goes into the trip and comes back; what it says of
// a rig that does not go stays.
func TestCrewForm(t *testing.T) {
	trip := fieldkit.Trip{
		ID: "t", Rigs: []string{"a", "b"},
		Carries: []fieldkit.Carries{{Rig: "a", Mass: 50 * fieldkit.Kilogram, Volume: 90 * fieldkit.Litre}, {Rig: "home", Mass: fieldkit.Kilogram}},
		Friends: []fieldkit.Lent{{Type: fieldkit.ToolItem, Item: "jack", Count: 1, Who: "Bo"}, {Type: fieldkit.ToolItem, Item: "winch", Count: 1}},
	}
	f := newForm("crew/t", crewFields(trip, fieldkit.Metric))
	same, ok := readCrew(f, trip, fieldkit.Metric)
	assert.True(t, ok)
	assert.ElementsMatch(t, trip.Carries, same.Carries)
	assert.Equal(t, trip.Friends, same.Friends)

	f.set(carriesField("a", "mass"), "")
	f.set(carriesField("a", "volume"), "")
	f.set(carriesField("b", "mass"), "40 kg")
	f.set(friendField(0, "count"), "0")
	f.set(friendField(1, "who"), "Ebba")
	now, ok := readCrew(f, trip, fieldkit.Metric)
	assert.True(t, ok)
	assert.Equal(t, []fieldkit.Carries{{Rig: "home", Mass: fieldkit.Kilogram}, {Rig: "b", Mass: 40 * fieldkit.Kilogram}}, now.Carries)
	assert.Equal(t, []fieldkit.Lent{{Type: fieldkit.ToolItem, Item: "winch", Count: 1, Who: "Ebba"}}, now.Friends)

	f.set(carriesField("b", "mass"), "plenty")
	_, ok = readCrew(f, trip, fieldkit.Metric)
	assert.False(t, ok)
	assert.NotEmpty(t, f.wrong[carriesField("b", "mass")])
}
