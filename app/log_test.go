package app

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

func TestViewLog(t *testing.T) {
	k := data.DemoKit()
	all := viewLog(k, fieldkit.Inch, "", rowsAtOnce)
	assert.Len(t, all.rows, k.Failures.Len()+k.Inspections.Len())
	for i := 1; i < len(all.rows); i++ {
		assert.False(t, all.rows[i-1].on.Before(all.rows[i].on), "newest first: %s", all.rows[i].title)
	}
	assert.Equal(t, fieldkit.Date{Year: 2026, Month: time.November, Day: 14}, all.rows[0].on)
	failures, readings := viewLog(k, fieldkit.Inch, "failures", rowsAtOnce), viewLog(k, fieldkit.Inch, "readings", rowsAtOnce)
	assert.Len(t, failures.rows, k.Failures.Len())
	assert.Len(t, readings.rows, k.Inspections.Len())
	for _, r := range failures.rows {
		assert.Contains(t, r.address, "/log/failure?id=")
	}

	for name, empty := range map[string]fieldkit.Kit{"blank": data.BlankKit("x"), "empty": {}} {
		v := viewLog(empty, fieldkit.Metric, "", rowsAtOnce)
		assert.Empty(t, v.rows, name)
		assert.Contains(t, emptyLog(v), "Nothing is written down yet")
	}
	assert.Contains(t, emptyLog(logView{show: "readings", failures: 1}), "No reading")
	assert.Contains(t, emptyLog(logView{show: "failures", readings: 1}), "No failure")
}

func TestOfOneDayTheLastWrittenComesFirst(t *testing.T) {
	day := fieldkit.Date{Year: 2026, Month: 5, Day: 14}
	k := fieldkit.Kit{Failures: fieldkit.ListOf([]fieldkit.Failure{{ID: "morning", On: day}, {ID: "evening", On: day}, {ID: "before", On: day.AddDays(-1)}})}
	var ids []string
	for _, r := range viewLog(k, fieldkit.Metric, "", rowsAtOnce).rows {
		ids = append(ids, r.id)
	}
	assert.Equal(t, []string{"evening", "morning", "before"}, ids)
}

func TestLogRows(t *testing.T) {
	k := data.DemoKit()
	f := fieldkit.Failure{ID: "f", On: testDay, Rig: "hobnail", What: "joint seized", Odometer: 100 * fieldkit.Mile, Fix: "spare fitted", Place: testFix}
	assert.Equal(t, "14 May 2026 · Hobnail · 100 mi · second ford · spare fitted", failureRow(k, f, fieldkit.Inch).sub)
	f.Place.Text = ""
	assert.Equal(t, "14 May 2026 · Hobnail · 161 km · 41.51230° N 118.70240° W · spare fitted", failureRow(k, f, fieldkit.Metric).sub, "100 mi are 160.93 km")
	// 3 mm are 0.118 in.
	r := fieldkit.Inspection{ID: "r", On: testDay, Position: "hobnail-front-brake-pads", Name: "lining thickness", Value: fieldkit.Value{Dim: fieldkit.DimLength, Base: int64(3 * fieldkit.Millimetre)}}
	row := readingRow(k, r, fieldkit.Metric)
	assert.Equal(t, "Lining thickness 3 mm (0.118 in)", row.title)
	assert.Equal(t, "14 May 2026 · reading · Hobnail: front brake pads", row.sub)
}

func TestFailureFields(t *testing.T) {
	k := data.DemoKit()
	hobnail, _ := k.Rig("hobnail")
	fields := failureFields(k, fieldkit.Failure{}, false, "wicket-front-brake-pads", fieldkit.Inch, testDay)
	assert.Equal(t, "wicket", fields["rig"], "the rig of the position")
	assert.Equal(t, "wicket-front-brake-pads", fields["position"])
	assert.Equal(t, "2026-05-14", fields["on"])
	assert.Empty(t, fields["trip"], "no trip that day")

	fields = failureFields(k, fieldkit.Failure{}, false, "", fieldkit.Inch, fieldkit.Date{Year: 2026, Month: 12, Day: 9})
	assert.Equal(t, demoTrip, fields["trip"], "the fifth day of five")
	assert.Equal(t, amountText(hobnail.Odometer, fieldkit.Inch, fieldkit.ParseDistance), fields["odometer"])
	assert.Empty(t, failureFields(fieldkit.Kit{}, fieldkit.Failure{}, false, "", fieldkit.Inch, testDay)["rig"])
}

// Every entry of the demo log reads back from its form as it is kept.
func TestFailureFormReadsBack(t *testing.T) {
	k := data.DemoKit()
	for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
		kept.prefs.Units = first
		for _, f := range k.Failures.All() {
			s := failureScreen{form: newForm("x", failureFields(k, f, true, "", first, testDay)), photos: &photoRoll{}, kit: k, id: f.ID}
			got, ok := s.read()
			require.True(t, ok, "%s: %v", f.What, s.form.wrong)
			assert.Equal(t, f, got, "%s, %s first", f.What, first)
		}
	}
	kept.prefs.Units = ""
}

func TestFailureFormRefuses(t *testing.T) {
	k := data.DemoKit()
	for field, bad := range map[string][]string{
		"what": {"", "  "}, "on": {"", "03/04/2026", "soon"}, "odometer": {"-1 km", "many"}, "lost": {"ages"},
	} {
		for _, typed := range bad {
			start := failureFields(k, k.Failures.At(0), true, "", fieldkit.Inch, testDay)
			s := failureScreen{form: onForm(start, map[string]string{field: typed}), photos: &photoRoll{}, kit: k, id: k.Failures.At(0).ID}
			_, ok := s.read()
			assert.False(t, ok, "%s: %q", field, typed)
			assert.NotEmpty(t, s.form.wrong[field])
			assert.Len(t, s.form.wrong, 1)
		}
	}
}

func TestUsed(t *testing.T) {
	f := newForm("used", nil)
	joint := "spare:ujoint-1350"
	addUsed(f, joint)
	addUsed(f, "consumable:brake-fluid")
	addUsed(f, joint)
	keys := f.rows("used")
	require.Len(t, keys, 2, "the same thing again counts up")
	assert.Equal(t, fieldkit.Item{Type: fieldkit.SpareItem, Item: "ujoint-1350", Count: 2}, readUsed(f, keys[0]))
	assert.Equal(t, fieldkit.Item{Type: fieldkit.ConsumableItem, Item: "brake-fluid", Count: 1}, readUsed(f, keys[1]))
	back := newForm("back", nil)
	fillRows(back.values, "used", []fieldkit.Item{readUsed(f, keys[0])}, usedCells)
	assert.Equal(t, readUsed(f, keys[0]), readUsed(back, "0"))
	f.set(cell("used", keys[0], "count"), "x")
	assert.Zero(t, readUsed(f, keys[0]).Count)
	assert.Equal(t, fieldkit.Item{}, readUsed(f, "none"))
}

func TestStockOptions(t *testing.T) {
	k := data.DemoKit()
	list := stockOptions(k)
	parts := map[string]bool{}
	for _, s := range k.Spares.All() {
		parts[s.Part] = true
	}
	assert.Len(t, list, len(parts)+len(k.Consumables), "a part that rides in two bins is one choice")
	label := map[string]string{}
	for _, o := range list {
		label[o.value] = o.label
	}
	assert.Equal(t, "O-ring, steering pressure port (4)", label["spare:o-ring-014"])
	assert.Equal(t, "epoxy putty (none in stock)", label["consumable:putty"])
	assert.Empty(t, stockOptions(fieldkit.Kit{}))
}

// Every reading of the demo log reads back from its form as it is kept.
func TestReadingFormReadsBack(t *testing.T) {
	k := data.DemoKit()
	for _, r := range k.Inspections.All() {
		s := readingScreen{form: newForm("x", readingFields(k, data.Catalog(), r, true, "", fieldkit.Inch, testDay)), kit: k, id: r.ID}
		got, ok := s.read()
		require.True(t, ok, "%s: %v", r.ID, s.form.wrong)
		assert.Equal(t, r, got)
	}
}

// 3/16 in = 4.7625 mm exactly; a bare number is in the system read first.
func TestReadingTakesFractionDecimalAndMetric(t *testing.T) {
	k := data.DemoKit()
	kept.prefs.Units = fieldkit.Metric
	t.Cleanup(func() { kept.prefs.Units = "" })
	fields := readingFields(k, data.Catalog(), fieldkit.Inspection{}, false, "hobnail-front-brake-pads", fieldkit.Metric, testDay)
	assert.Equal(t, "lining thickness", fields["name"])
	for typed, mm := range map[string]float64{"3/16 in": 4.7625, "0.1875 in": 4.7625, "4.7625 mm": 4.7625, "5": 5, "5,5 mm": 5.5} {
		s := readingScreen{form: onForm(fields, map[string]string{"value": typed}), kit: k}
		r, ok := s.read()
		require.True(t, ok, "%s: %v", typed, s.form.wrong)
		assert.Equal(t, int64(mm*float64(fieldkit.Millimetre)+0.5), r.Value.Base, typed)
		assert.Equal(t, fieldkit.DimLength, r.Value.Dim)
	}
	for _, typed := range []string{"", "3/0 in", "thin", "5 kg"} {
		s := readingScreen{form: onForm(fields, map[string]string{"value": typed}), kit: k}
		_, ok := s.read()
		assert.False(t, ok, typed)
		assert.NotEmpty(t, s.form.wrong["value"], typed)
	}
}

func TestChooseRig(t *testing.T) {
	k := data.DemoKit()
	f := newForm("rig", map[string]string{"rig": "hobnail", "position": "hobnail-front-brake-pads"})
	chooseRig(k, f, "hobnail")
	assert.Equal(t, "hobnail-front-brake-pads", f.get("position"))
	chooseRig(k, f, "wicket")
	assert.Equal(t, "wicket", f.get("rig"))
	assert.Empty(t, f.get("position"), "that place is on the other rig")
}

// The part of an entry is what sat there when it broke: correcting its words does not
// change it, moving it does.
func TestPartOfAnEntry(t *testing.T) {
	k := data.DemoKit()
	read := func(f fieldkit.Failure, known bool, typed map[string]string) fieldkit.Failure {
		start := failureFields(k, f, known, "", fieldkit.Inch, testDay)
		typed["what"] = "broken"
		s := failureScreen{form: onForm(start, typed), photos: &photoRoll{}, kit: k, id: f.ID}
		got, ok := s.read()
		require.True(t, ok, "%v", s.form.wrong)
		return got
	}
	old := k.Failures.At(0)
	old.Part = "what-was-there"
	k.Failures = fieldkit.ListOf(append([]fieldkit.Failure{old}, k.Failures.Slice()[1:]...))
	assert.Equal(t, "what-was-there", read(old, true, map[string]string{}).Part)
	moved := read(old, true, map[string]string{"position": "wicket-front-brake-pads"})
	assert.Equal(t, "pads-wicket", moved.Part)
	assert.Equal(t, "wicket", moved.Rig, "the rig of the position")
	assert.Empty(t, read(old, true, map[string]string{"position": ""}).Part)
	assert.Equal(t, "pads-front", read(fieldkit.Failure{}, false, map[string]string{"position": "hobnail-front-brake-pads"}).Part)
}

// A long log is put in words page by page, the latest entries first.
func TestLongLog(t *testing.T) {
	k := data.DemoKit()
	for i := range 250 {
		k.Failures = k.Failures.With(fieldkit.Failure{ID: "f" + itoa(i), On: fieldkit.Date{Year: 2030, Month: 1, Day: 1}.AddDays(i), What: "broke " + itoa(i)})
	}
	v := viewLog(k, fieldkit.Metric, "failures", rowsAtOnce)
	require.Len(t, v.rows, rowsAtOnce)
	assert.Equal(t, k.Failures.Len(), v.all)
	assert.Equal(t, "broke 249", v.rows[0].title)
	var l longList
	assert.Contains(t, drawn(t, l.rest(v.all, "entries", nil)), "100 of")
	l.pages = 2
	assert.NotContains(t, drawn(t, l.rest(v.all, "entries", nil)), "shown")
}

// What can be taken from stock follows the kit.
func TestTakeable(t *testing.T) {
	var kept takeable
	assert.Empty(t, kept.of(fieldkit.Kit{}))
	k := fieldkit.Kit{Parts: fieldkit.ListOf([]fieldkit.Part{{ID: "pads", Name: "brake pads"}})}
	assert.Empty(t, kept.of(k))
	k.Spares = k.Spares.With(fieldkit.Spare{ID: "s", Part: "pads", Count: 2})
	assert.Equal(t, []option{{"spare:pads", "brake pads (2)"}}, kept.of(k))
	k.Failures = k.Failures.With(fieldkit.Failure{ID: "f"})
	assert.Equal(t, stockOptions(k), kept.of(k))
	k.Consumables = []fieldkit.Consumable{{ID: "oil", Name: "engine oil", Count: 1}}
	assert.Equal(t, stockOptions(k), kept.of(k))
	k.Parts = fieldkit.ListOf([]fieldkit.Part{{ID: "pads", Name: "front pads"}})
	assert.Equal(t, stockOptions(k), kept.of(k))
	assert.Empty(t, kept.of(fieldkit.Kit{}))
}
