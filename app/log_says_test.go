package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

func TestViewSays(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	all := viewSays(k, cat, fieldkit.Inch, "")
	assert.Equal(t, k.Failures.Len(), all.failures)
	hobnail, wicket := viewSays(k, cat, fieldkit.Inch, "hobnail"), viewSays(k, cat, fieldkit.Inch, "wicket")
	assert.Equal(t, all.failures, hobnail.failures+wicket.failures)
	assert.Equal(t, all.lost, hobnail.lost+wicket.lost)
	assert.Len(t, all.wear, len(hobnail.wear)+len(wicket.wear))
	require.NotEmpty(t, all.lives)
	for _, l := range all.lives {
		n := 0
		for _, p := range l.places {
			n += p.Failures
		}
		assert.Equal(t, l.Failures, n, l.Name)
	}
	assert.Contains(t, systemBars(all), "<title")
	assert.Contains(t, tripBars(all), "Sevenfold to the Anvil")
	assert.Len(t, tallyRows(all.trips), 15, "the table has every trip")

	empty := viewSays(fieldkit.Kit{}, cat, fieldkit.Metric, "")
	assert.Zero(t, empty.failures)
	assert.Empty(t, systemBars(empty))
}

func TestLifeWords(t *testing.T) {
	l := findings.Life{Failures: 2, Places: 2, Way: 20_500 * fieldkit.Kilometre}
	l.Mean, l.Low, l.High = findings.Between(2, l.Way)
	assert.Equal(t, "about 10000 km, nine times in ten 3300 km to 58000 km; 2 failures in 21000 km at 2 places", lifeWords(l, fieldkit.Metric))
	l.Failures = 0
	l.Mean, l.Low, l.High = findings.Between(0, l.Way)
	assert.Equal(t, "further than 6800 km, nineteen times in twenty; no failure in 21000 km", lifeWords(l, fieldkit.Metric))
}

func TestViewWear(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	v := viewWear(k, cat, fieldkit.Inch, "hobnail-front-brake-pads")
	require.True(t, v.read)
	assert.Len(t, v.rows, len(v.line.Readings)+1, "every reading, and where the limit is met")
	assert.Contains(t, v.picture, "chart-band")
	assert.Contains(t, v.picture, "chart-limit")
	for _, p := range k.Positions.All() {
		if v := viewWear(k, cat, fieldkit.Metric, p.ID); v.read {
			assert.NotContains(t, v.picture, "NaN", p.ID)
			assert.NotEmpty(t, wearWords(v.line, fieldkit.Metric))
		}
	}
	assert.False(t, viewWear(k, cat, fieldkit.Inch, "hobnail-starter").read)
	assert.False(t, viewWear(k, cat, fieldkit.Inch, "nowhere").found)
}

// What turns with the engine is drawn over engine hours, in both systems of units.
func TestViewWearByHours(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	p, _ := k.Position("hobnail-alternator")
	kind, _ := cat.PartKind(p.Kind)
	require.NotNil(t, kind.Wear)
	for i, h := range []int{3800, 4000, 4200} {
		k.Inspections = k.Inspections.With(fieldkit.Inspection{ID: string(rune('a' + i)), Position: p.ID, On: fieldkit.Date{Year: 2026, Month: 9, Day: 1 + i},
			Name: kind.Wear.Name, EngineHours: h, Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64((14 - 2*i) * int(fieldkit.Millimetre))}})
	}
	for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
		v := viewWear(k, cat, first, p.ID)
		require.True(t, v.read)
		assert.Contains(t, v.picture, "Wear over engine hours")
		assert.Contains(t, v.picture, ">engine hours<")
		assert.NotContains(t, v.picture, "odometer")
		assert.Equal(t, "3800 h, 1 Sep 2026", v.rows[0][0])
		// 14, 12, 10 mm at 3800, 4000, 4200 h: 5 mm at 4700 h, 500 h after the last reading.
		assert.Equal(t, "4700 h", v.rows[3][0])
		assert.Equal(t, "about 500 engine hours left, nine times in ten 500 to 500 engine hours", limitWords(v.line, first))
	}
}

func TestViewDue(t *testing.T) {
	k := data.DemoKit()
	v := viewDue(k, data.Catalog(), fieldkit.Inch, fieldkit.Date{Year: 2026, Month: 11, Day: 26})
	require.NotEmpty(t, v.groups)
	seen := map[findings.DueState]bool{}
	n := 0
	for _, g := range v.groups {
		assert.False(t, seen[g.state], "one group for each state")
		seen[g.state] = true
		n += len(g.rows)
	}
	services := 0
	for _, r := range k.Rigs {
		services += len(r.Services)
	}
	assert.Greater(t, n, services, "services, and parts that wear")
	assert.Positive(t, v.dated)
	assert.Empty(t, viewDue(fieldkit.Kit{}, fieldkit.Catalog{}, fieldkit.Metric, testDay).groups)
}

// Every service of the demo reads back from its form as it is kept.
func TestServiceFormReadsBack(t *testing.T) {
	k := data.DemoKit()
	for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
		for _, r := range k.Rigs {
			for _, s := range r.Services {
				got, ok := readService(newForm("x", serviceFields(r, s, true, first)), s, first)
				require.True(t, ok)
				assert.Equal(t, s, got)
			}
		}
	}
	for name, typed := range map[string]map[string]string{
		"name": {"every": "10 km"}, "every": {"name": "x"}, "hours": {"name": "x", "hours": "many"}, "months": {"name": "x", "months": "-1"},
	} {
		f := onForm(map[string]string{}, typed)
		_, ok := readService(f, fieldkit.Service{}, fieldkit.Metric)
		assert.False(t, ok, name)
		assert.NotEmpty(t, f.wrong[name], name)
	}
}

// What was done is kept at the end of its list, and a meter that shows more than the
// rig's is taken over; the kit it came from is left as it was.
func TestWithDone(t *testing.T) {
	r := data.DemoKit().Rigs[0]
	before := len(r.Services[0].Done)
	f := onForm(doneFields(r, fieldkit.Inch, testDay), map[string]string{"odometer": "56000 mi", "hours": "12"})
	d, ok := readDone(f, fieldkit.Inch, testDay)
	require.True(t, ok, f.wrong)
	after := withDone(r, r.Services[0].ID, d)
	last, _ := after.Services[0].Last()
	assert.Len(t, after.Services[0].Done, before+1)
	assert.Len(t, r.Services[0].Done, before)
	assert.Equal(t, 56_000*fieldkit.Mile, after.Odometer)
	assert.Equal(t, testDay, after.OdometerOn)
	assert.Equal(t, 12, after.EngineHours)
	assert.NotZero(t, last.On)
	earlier := withDone(after, r.Services[0].ID, fieldkit.ServiceDone{On: testDay, Odometer: 10 * fieldkit.Mile})
	assert.Equal(t, 56_000*fieldkit.Mile, earlier.Odometer)
}
