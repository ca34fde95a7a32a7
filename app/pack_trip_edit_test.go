package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// tripScreen is the form of a trip with some of it typed over.
func tripScreen(k fieldkit.Kit, id string, typed map[string]string) *tripEditScreen {
	trip, known := k.Trip(id)
	return &tripEditScreen{form: onForm(tripFields(k, trip, known, kept.first()), typed), kit: k, id: id}
}

func TestTripFormReadsBack(t *testing.T) {
	k := data.DemoKit()
	for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
		kept.prefs.Units = first
		for _, trip := range k.Trips {
			s := tripScreen(k, trip.ID, nil)
			got, ok := s.read()
			require.True(t, ok, "%s: %v", trip.Name, s.form.wrong)
			assert.Equal(t, trip, got, "%s, %s first", trip.Name, first)
		}
	}
	kept.prefs.Units = ""
}

func TestNewTrip(t *testing.T) {
	k := data.DemoKit()
	s := tripScreen(k, "", map[string]string{"name": " Far Wash ", "distance": "250 mi", "rigs": "wicket"})
	trip, ok := s.read()
	require.True(t, ok, "%v", s.form.wrong)
	assert.Equal(t, "Far Wash", trip.Name)
	assert.Equal(t, 3, trip.Days)
	assert.Equal(t, fieldkit.RoughTrack, trip.Terrain)
	assert.Equal(t, []string{"wicket"}, trip.Rigs)
	assert.Nil(t, trip.Limits.Money)
	assert.NotEmpty(t, trip.ID)
	again, _ := s.read()
	assert.Equal(t, trip.ID, again.ID, "saving again writes the same trip")

	none, ok := tripScreen(fieldkit.Kit{}, "", map[string]string{"name": "x", "distance": "1 km"}).read()
	assert.False(t, ok, "nobody goes: %v", none.Rigs)
}

func TestTripFormRefuses(t *testing.T) {
	for field, bad := range map[string][]string{
		"name": {"", "  "}, "rigs": {""}, "start": {"tomorrow", "03/04/2026", "2026-02-30"}, "days": {"", "0", "367", "two", "1.5"},
		"distance": {"", "0", "-5", "far"}, "mass": {"heavy", "-1 kg"}, "volume": {"3 km"}, "money": {"12 EUR", "-5", "cheap"},
	} {
		for _, typed := range bad {
			s := tripScreen(data.DemoKit(), demoTrip, map[string]string{field: typed})
			_, ok := s.read()
			assert.False(t, ok, "%s: %q", field, typed)
			assert.NotEmpty(t, s.form.wrong[field], "%s: %q", field, typed)
			assert.Len(t, s.form.wrong, 1)
		}
	}
}

func TestReadTowns(t *testing.T) {
	k := data.DemoKit()
	trip, _ := k.Trip(demoTrip)
	s := tripScreen(k, demoTrip, nil)
	s.form.dropRow(townRows, "0")
	key := s.form.addRow(townRows)
	s.form.set(cell(townRows, key, "name"), "Ashbutt")
	s.form.set(cell(townRows, key, "away"), "1.5 h")
	s.form.set(cell(townRows, key, "stores"), "hardware truck-stop")
	s.form.set(cell(townRows, key, "note"), "Only in summer.")
	towns, ok := s.readTowns(trip.Towns)
	require.True(t, ok)
	require.Len(t, towns, 3)
	assert.Equal(t, trip.Towns[1:], towns[:2])
	assert.Equal(t, fieldkit.Town{Name: "Ashbutt", Away: 90, Stores: []string{"hardware", "truck-stop"}, Note: "Only in summer."}, towns[2])

	s.form.set(cell(townRows, key, "name"), "")
	s.form.set(cell(townRows, key, "away"), "soon")
	_, ok = s.readTowns(trip.Towns)
	assert.False(t, ok)
	assert.True(t, s.form.wrongRow(townRows, key))
	assert.False(t, s.form.wrongRow(townRows, "1"))
}

func TestToggled(t *testing.T) {
	assert.Equal(t, "a", toggled("", "a"))
	assert.Equal(t, "a b", toggled("a", "b"))
	assert.Equal(t, "a c", toggled("a b c", "b"))
	assert.Empty(t, toggled("a", "a"))
}
