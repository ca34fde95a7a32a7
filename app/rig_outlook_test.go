package app

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/driveline"
	"trailfieldkit/fieldkit/spares"
)

func TestViewOutlook(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	p, _ := k.Position("hobnail-front-brake-pads")
	v := viewOutlook(k, cat, p)
	assert.True(t, v.ahead)
	assert.Equal(t, "2026-12-widows-rib", v.trip.ID)
	assert.Contains(t, v.likelihood.Evidence, "wear readings")
	assert.Equal(t, "good", evidenceMark(v.likelihood))
	starter, _ := k.Position("hobnail-starter")
	assert.Equal(t, "none", evidenceMark(viewOutlook(k, cat, starter).likelihood))
	k.Trips = slices.Clone(k.Trips)
	for i := range k.Trips {
		k.Trips[i].Done = true
	}
	assert.False(t, viewOutlook(k, cat, p).ahead)

	k.Trips = []fieldkit.Trip{{ID: "some-day", Rigs: []string{"hobnail"}}, {ID: "later", Rigs: []string{"hobnail"}, Start: testDay.AddDays(9)}, {ID: "soon", Rigs: []string{"hobnail"}, Start: testDay}, {ID: "other", Rigs: []string{"wicket"}}}
	next, ok := tripAhead(k, "hobnail")
	assert.True(t, ok)
	assert.Equal(t, "soon", next.ID)
}

func TestReadDriveline(t *testing.T) {
	k := data.DemoKit()
	fields := drivelineFields(k.Rigs[0], fieldkit.Metric)
	same, ok := readDriveline(onForm(fields, nil), k.Rigs[0], fieldkit.Metric)
	require.True(t, ok)
	assert.Equal(t, k.Rigs[0], same, "what is not touched stays as it is")

	f := onForm(fields, map[string]string{"engine": "300 lb-ft", "stall": "", "frontLoad": "3000 lb", "frontLocked": lockable})
	r, ok := readDriveline(f, k.Rigs[0], fieldkit.Inch)
	require.True(t, ok)
	assert.Equal(t, "300 lb-ft", r.Driveline.Engine.Show(fieldkit.Inch))
	assert.True(t, r.Driveline.Front.Locked)
	assert.NotEqual(t, k.Rigs[0].Driveline.Front, r.Driveline.Front)
	assert.False(t, k.Rigs[0].Driveline.Front.Locked, "the kit's own is not written to")

	for field, bad := range map[string]string{"engine": "strong", "friction": "0", "first": "-4", "rearLoad": "-3 kg", "yield": "900 mm"} {
		_, ok := readDriveline(onForm(fields, map[string]string{field: bad}), k.Rigs[0], fieldkit.Metric)
		assert.False(t, ok, "%s: %s", field, bad)
	}
}

func TestMarginWords(t *testing.T) {
	k := data.DemoKit()
	r := driveline.Check(k, k.Rigs[0])
	require.NotNil(t, r.Weakest)
	assert.Equal(t, "rear-axle-shaft", r.Weakest.Kind, "the shaft that broke in the log is the weakest")
	assert.NotEqual(t, r.Weakest.Kind, r.Next.Kind)
	assert.Contains(t, marginWords(driveline.Link{Margin: 0.8, Limit: driveline.ByGrip}), "before the tyres slip")
	assert.Contains(t, marginWords(driveline.Link{Margin: 1.8}), "takes more than reaches it")
}

func TestPriors(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	kind, _ := cat.PartKind("tyre")
	p, own, _ := k.PriorOf(kind)
	assert.False(t, own)
	fields := priorFields(p, own, fieldkit.Metric)
	same, ok := readPrior(onForm(fields, nil), p, kind, fieldkit.Metric)
	require.True(t, ok)
	assert.Equal(t, p, same)

	mine, ok := readPrior(onForm(fields, map[string]string{"rate": "90", "wear": "6 mm", "note": "two sets"}), p, kind, fieldkit.Metric)
	require.True(t, ok)
	k.Priors = []fieldkit.Prior{mine}
	rows := viewPriors(k, cat)
	assert.Len(t, rows, len(cat.PartKinds))
	found := false
	for _, r := range rows {
		if r.kind == "tyre" {
			found = true
			assert.True(t, r.own)
			assert.Equal(t, "90 in a million km, life 11000 km, wears 6 mm in 10 000 km", r.says)
		}
	}
	assert.True(t, found)
	before, _ := data.DemoKit().Position("hobnail-tyre-rear-right")
	trip, _ := tripAhead(k, "hobnail")
	assert.Greater(t, spares.LikelihoodOf(k, cat, trip, before).Expected, spares.LikelihoodOf(data.DemoKit(), cat, trip, before).Expected)

	longer, ok := readPrior(onForm(fields, map[string]string{"life": "66000 km"}), p, kind, fieldkit.Metric)
	require.True(t, ok)
	assert.Equal(t, 15, longer.Rate, "twice the life is half the rate")
	for field, bad := range map[string]string{"rate": "", "shape": "-1", "sudden": "120", "life": "far", "wear": "-1 mm"} {
		_, ok := readPrior(onForm(fields, map[string]string{field: bad}), p, kind, fieldkit.Metric)
		assert.False(t, ok, "%s: %s", field, bad)
	}
}
