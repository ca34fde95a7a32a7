package findings_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

// dueOn is what is due of one service of a rig that is driven 1000 km in 100 days.
func dueOn(s fieldkit.Service, today string, trips ...fieldkit.Trip) findings.Due {
	s.ID, s.Name = "s", "service"
	kit := fieldkit.Kit{
		Rigs: []fieldkit.Rig{{ID: "r", Name: "Rig", Odometer: 11_000 * km, OdometerOn: day("2026-04-11"), EngineHours: 500, EngineHoursOn: day("2026-04-11"),
			Services: []fieldkit.Service{s, {ID: "first", Name: "first", Done: []fieldkit.ServiceDone{{On: day("2026-01-01"), Odometer: 10_000 * km, Hours: 400}}}}}},
		Trips: trips,
	}
	for _, d := range findings.DueOn(kit, fieldkit.Catalog{}, day(today)) {
		if d.Service == "s" {
			return d
		}
	}
	panic("not listed")
}

func done(on string, at fieldkit.Distance, hours int) []fieldkit.ServiceDone {
	return []fieldkit.ServiceDone{{On: day(on), Odometer: at, Hours: hours}}
}

func TestServiceDue(t *testing.T) {
	last := done("2026-02-01", 10_300*km, 430)
	crossed := fieldkit.Trip{ID: "t", Rigs: []string{"r"}, Done: true, Start: day("2026-01-31"), Days: 3, Crossings: 2}
	for name, c := range map[string]struct {
		s     fieldkit.Service
		today string
		state findings.DueState
		by    string
		words string
		trips []fieldkit.Trip
	}{
		// 10 km a day: 300 km are 30 days from the reading of 11 April.
		"by distance":      {fieldkit.Service{Every: 1000 * km, Done: last}, "2026-04-11", findings.Soon, "2026-05-11", "300 km (186 mi) left; about 11 May 2026", nil},
		"distance, later":  {fieldkit.Service{Every: 2000 * km, Done: last}, "2026-04-11", findings.Later, "2026-08-19", "1300 km (808 mi) left; about 19 Aug 2026", nil},
		"distance, past":   {fieldkit.Service{Every: 500 * km, Done: last}, "2026-04-20", findings.Overdue, "2026-04-20", "200 km (124 mi) past", nil},
		"by hours":         {fieldkit.Service{Hours: 200, Done: last}, "2026-04-11", findings.Later, "2026-08-19", "130 engine hours left; about 19 Aug 2026", nil},
		"one hour":         {fieldkit.Service{Hours: 71, Done: last}, "2026-04-11", findings.Soon, "2026-04-12", "1 engine hour left; about 12 Apr 2026", nil},
		"hours, past":      {fieldkit.Service{Hours: 50, Done: last}, "2026-04-11", findings.Overdue, "2026-04-11", "20 engine hours past", nil},
		"by months":        {fieldkit.Service{Months: 6, Done: last}, "2026-04-11", findings.Later, "2026-08-01", "by 1 Aug 2026", nil},
		"months, soon":     {fieldkit.Service{Months: 3, Done: last}, "2026-04-11", findings.Soon, "2026-05-01", "by 1 May 2026", nil},
		"months, past":     {fieldkit.Service{Months: 1, Done: last}, "2026-04-11", findings.Overdue, "2026-04-11", "last done 1 Feb 2026", nil},
		"first of several": {fieldkit.Service{Months: 6, Every: 1000 * km, Done: last}, "2026-04-11", findings.Soon, "2026-05-11", "300 km (186 mi) left; about 11 May 2026", nil},
		"water":            {fieldkit.Service{Crossings: 1, Done: last}, "2026-04-11", findings.Overdue, "2026-04-11", "2 deep crossings since, due after 1", []fieldkit.Trip{crossed}},
		"water, not yet":   {fieldkit.Service{Crossings: 3, Done: last}, "2026-04-11", findings.Later, "", "2 deep crossings since, due after 3", []fieldkit.Trip{crossed}},
		"dry since":        {fieldkit.Service{Crossings: 1, Done: done("2026-02-02", 0, 0)}, "2026-04-11", findings.Later, "", "0 deep crossings since, due after 1", []fieldkit.Trip{crossed}},
		"never":            {fieldkit.Service{Months: 6}, "2026-04-11", findings.Unknown, "2026-04-11", "nobody has written down when it was done last", nil},
		"no interval":      {fieldkit.Service{Done: last}, "2026-04-11", findings.Later, "", "last done 1 Feb 2026", nil},
	} {
		t.Run(name, func(t *testing.T) {
			d := dueOn(c.s, c.today, c.trips...)
			assert.Equal(t, c.state, d.State)
			assert.Equal(t, c.by, d.By.String())
			assert.Equal(t, c.words, d.Words(fieldkit.Metric))
		})
	}
}

// A day that is reckoned from driving never makes a thing due: only its meter does.
func TestReckonedIsNotDue(t *testing.T) {
	d := dueOn(fieldkit.Service{Every: 1000 * km, Done: done("2026-02-01", 10_300*km, 0)}, "2027-04-11")
	assert.Equal(t, findings.Soon, d.State)
	assert.Equal(t, "2027-04-11", d.By.String())
	assert.True(t, d.Reckoned)
}

func TestRule(t *testing.T) {
	assert.Equal(t, "every 5000 mi (8047 km); every 250 engine hours; every 12 months; after every deep crossing",
		findings.Rule(fieldkit.Service{Every: 5000 * fieldkit.Mile, Hours: 250, Months: 12, Crossings: 1}, fieldkit.Inch))
	assert.Equal(t, "every 1 month; after 2 deep crossings", findings.Rule(fieldkit.Service{Months: 1, Crossings: 2}, fieldkit.Inch))
	assert.Empty(t, findings.Rule(fieldkit.Service{}, fieldkit.Metric))
}

// Wear lines of the demo are due where they meet their limit; the pads of the front
// axle are nearly there.
func TestWearDueOfTheDemo(t *testing.T) {
	list := findings.DueOn(data.DemoKit(), data.Catalog(), day("2026-11-26"))
	require.NotEmpty(t, list)
	wear := map[string]findings.Due{}
	for i, d := range list {
		if i > 0 && list[i-1].State == d.State && !d.By.IsZero() {
			assert.False(t, d.By.Before(list[i-1].By), "by day: %s", d.Name)
		}
		if d.Position != "" {
			wear[d.Position] = d
		}
	}
	pads, ok := wear["hobnail-front-brake-pads"]
	require.True(t, ok)
	assert.True(t, pads.Sure)
	assert.LessOrEqual(t, pads.Soonest.Distance(), pads.Left)
	assert.GreaterOrEqual(t, pads.Furthest.Distance(), pads.Left)
	assert.Contains(t, pads.Words(fieldkit.Inch), "nine times in ten")
}

// Wear by the hour meter comes due in hours, and on the day by which the engine has run
// them: 100 hours in 100 days.
func TestWearDueByHours(t *testing.T) {
	mm := func(n int64) fieldkit.Value {
		return fieldkit.Value{Dim: fieldkit.DimLength, Base: n * int64(fieldkit.Millimetre)}
	}
	cat := fieldkit.Catalog{PartKinds: []fieldkit.PartKind{{ID: "brushes", Wear: &fieldkit.Wear{Name: "brush length", Limit: mm(5), Falling: true, ByHours: true}}}}
	kit := fieldkit.Kit{
		Rigs: []fieldkit.Rig{{ID: "r", Name: "Rig", EngineHours: 500, EngineHoursOn: day("2026-04-11"),
			Services: []fieldkit.Service{{ID: "s", Done: []fieldkit.ServiceDone{{On: day("2026-01-01"), Hours: 400}}}}}},
		Systems:   []fieldkit.Assembly{{ID: "engine", Rig: "r"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{{ID: "p", System: "engine", Name: "alternator", Kind: "brushes"}}),
	}
	for i, left := range []int64{14, 12, 10} {
		kit.Inspections = kit.Inspections.With(fieldkit.Inspection{ID: string(rune('a' + i)), Position: "p", Name: "brush length", EngineHours: 400 + 50*i, Value: mm(left)})
	}
	for _, d := range findings.DueOn(kit, cat, day("2026-04-11")) {
		if d.Position == "p" {
			// 4 mm in 100 hours: the limit is met at 625.
			assert.Equal(t, "125 engine hours left; nine times in ten from 125 hours to 125 hours; about 14 Aug 2026", d.Words(fieldkit.Metric))
			assert.True(t, d.HasHours)
			assert.False(t, d.HasLeft)
			return
		}
	}
	t.Fatal("not listed")
}
