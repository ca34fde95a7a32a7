package fit

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// One case a rule, named by what it shows.
func TestCompare(t *testing.T) {
	for name, c := range map[string]struct {
		attribute, got string
		outcome        Outcome
		verdict        Verdict
	}{
		"the same":                        {"bolts", "4", Agrees, Fits},
		"another count":                   {"bolts", "3", Differs, DoesNotFit},
		"within tolerance":                {"spacing", "80.4 mm", Agrees, Fits},
		"beyond what both tools may miss": {"spacing", "80.7 mm", Differs, DoesNotFit},
		"between the two":                 {"spacing", "80.55 mm", NotSure, MeasureFirst},
		"a tool too coarse":               {"spacing", "80 ± 2 mm", NotSure, MeasureFirst},
		"a coarse tool far off":           {"spacing", "90 ± 2 mm", Differs, DoesNotFit},
		"inches":                          {"spacing", "3.150 in", Agrees, Fits},
		"inches of too few places":        {"spacing", "3.1 in", NotSure, MeasureFirst},
		"a fraction is inches":            {"spacing", "3-5/32", Agrees, Fits},
		"thread written otherwise":        {"port", "m16×1.5, o-ring", Agrees, Fits},
		"another thread, adapter":         {"port", "5/8-18 inverted flare", Changed, WithChanges},
		"half of what ours says":          {"port", "M16x1.5", NotSure, MeasureFirst},
		"a synonym":                       {"tank", "on a hose", Agrees, Fits},
		"the other word":                  {"tank", "integral, 1 litre", Differs, DoesNotFit},
		"a reducer makes up for it":       {"barb", "13 mm", Changed, WithChanges},
		"too far for a reducer":           {"barb", "10 mm", Differs, DoesNotFit},
		"more is as good":                 {"output", "130 A", Agrees, Fits},
		"less is not":                     {"output", "70 A", Differs, DoesNotFit},
		"a higher letter is as good":      {"grade", "FF", Agrees, Fits},
		"one letter lower is not":         {"grade", "FE", Differs, DoesNotFit},
		"no grade at all":                 {"grade", "blue", NotSure, MeasureFirst},
		"a little higher is as good":      {"height", "154 mm", Agrees, Fits},
		"much lower is as good":           {"height", "90 mm", Agrees, Fits},
		"too high":                        {"height", "160 mm", Differs, DoesNotFit},
		"one of those listed":             {"rubber", "FKM", Agrees, Fits},
		"none of those listed":            {"rubber", "EPDM", Differs, DoesNotFit},
		"another name says nothing":       {"size", "K 81", OtherName, Fits},
	} {
		t.Run(name, func(t *testing.T) {
			s := pump(t, false)
			// Without its size: that would settle the spacing.
			r := Compare(s, Part{Readings: read(t, s, ours, "")}, Hand{Readings: read(t, s, with(ours, "size", "", c.attribute, c.got), "")})
			for _, l := range r.Lines {
				if l.Name() == "size" && c.attribute != "size" {
					continue
				}
				if l.Name() == c.attribute {
					assert.Equal(t, c.outcome, l.Outcome, l.Why)
				} else {
					assert.Equal(t, Agrees, l.Outcome, "%s: %s", l.Name(), l.Why)
				}
			}
			assert.Equal(t, c.verdict, r.Verdict)
			if c.verdict == DoesNotFit {
				assert.Equal(t, []string{c.attribute}, r.Differing())
			}
			assert.Equal(t, c.verdict == MeasureFirst, len(r.Measure) == 1)
		})
	}
}

// A number without a unit is taken in inches where millimetres make no sense beside
// what is wanted.
func TestBareNumber(t *testing.T) {
	s := pump(t, false)
	a, _ := s.Named("spacing")
	wanted := read(t, s, ours, "")["spacing"]
	r, err := a.Read("3.15", "", &wanted, fieldkit.Metric)
	require.NoError(t, err)
	assert.True(t, r.Turned)
	assert.InDelta(t, 80.01, float64(r.Value.Base)/float64(fieldkit.Millimetre), 0.001)
	r, err = a.Read("81", "", &wanted, fieldkit.Metric)
	require.NoError(t, err)
	assert.False(t, r.Turned)
	_, err = a.Read("1,234", "", &wanted, fieldkit.Metric)
	assert.ErrorContains(t, err, "spacing")
	_, err = a.Read("-3 mm", "", &wanted, fieldkit.Metric)
	assert.ErrorContains(t, err, "is not a measurement")
}

// The shortest list: a designation that settles two is asked for before the two.
func TestShortestList(t *testing.T) {
	s := pump(t, false)
	wanted := Part{Readings: read(t, s, ours, "")}
	r := Compare(s, wanted, Hand{Readings: read(t, s, with(ours, "bolts", "", "spacing", "", "size", "", "tank", ""), "")})
	require.Equal(t, MeasureFirst, r.Verdict)
	require.Len(t, r.Measure, 2)
	assert.Equal(t, "tank", r.Measure[0].Name)
	assert.Equal(t, "size", r.Measure[1].Name)
	assert.ElementsMatch(t, []string{"spacing", "bolts"}, r.Measure[1].Instead)
	assert.True(t, r.Measure[1].InHand)

	// Read, it settles them, but not against a measurement.
	hand := read(t, s, with(ours, "bolts", "", "spacing", ""), "")
	r = Compare(s, wanted, Hand{Readings: hand})
	assert.Equal(t, Fits, r.Verdict)
	assert.Equal(t, "size K 80", r.Lines[0].By)
	r = Compare(s, wanted, Hand{Readings: read(t, s, with(ours, "bolts", "3"), "")})
	assert.Equal(t, DoesNotFit, r.Verdict)

	// What the kit does not know of the old part must be measured on that.
	r = Compare(s, Part{Readings: read(t, s, with(ours, "tank", ""), "")}, Hand{Readings: read(t, s, ours, "")})
	require.Len(t, r.Measure, 1)
	assert.True(t, r.Measure[0].Wanted)
	assert.False(t, r.Measure[0].InHand)
}

// A number that is proven for the part wanted settles what is open; one that is only
// said does not.
func TestNumberSettles(t *testing.T) {
	s := pump(t, true)
	part := fieldkit.Part{Numbers: []fieldkit.Number{
		{Value: "K-4410 B", Issuer: fieldkit.ReplacementNumber, Proof: &fieldkit.Proof{How: fieldkit.NumberRead}},
		{Value: "77-1", Issuer: fieldkit.MakerNumber, Proof: &fieldkit.Proof{How: fieldkit.Hearsay}},
	}}
	assert.Equal(t, Fits, Compare(s, Known(part), Hand{Number: "k4410b"}).Verdict)
	assert.Equal(t, MeasureFirst, Compare(s, Known(part), Hand{Number: "77-1"}).Verdict)
	assert.Equal(t, MeasureFirst, Compare(s, Known(part), Hand{}).Verdict)
}

// A standard designation settles what its standard defines and no more; where a wrong
// part is dangerous, only if it was read off the part wanted.
func TestDesignationSettlesWhatItsStandardDefines(t *testing.T) {
	for name, c := range map[string]struct {
		careful bool
		proof   *fieldkit.Proof
		spacing Outcome
	}{
		"read off":                {false, &fieldkit.Proof{How: fieldkit.NumberRead}, Agrees},
		"read off, dangerous":     {true, &fieldkit.Proof{How: fieldkit.NumberRead}, Agrees},
		"nothing said":            {false, nil, Agrees},
		"nothing said, dangerous": {true, nil, NotMeasured},
		"hearsay, dangerous":      {true, &fieldkit.Proof{How: fieldkit.Hearsay}, NotMeasured},
	} {
		s := pump(t, c.careful)
		s.Designated = []string{"bolts", "spacing"}
		wanted := Known(fieldkit.Part{Numbers: []fieldkit.Number{{Value: "K 80", Issuer: fieldkit.StandardNumber, Proof: c.proof}}})
		wanted.Readings = read(t, s, ours, "")
		r := Compare(s, wanted, Hand{Number: "k80"})
		assert.Equal(t, MeasureFirst, r.Verdict, "%s: the port is still open", name)
		for _, l := range r.Lines {
			switch l.Name() {
			case "spacing":
				assert.Equal(t, c.spacing, l.Outcome, name)
				assert.Equal(t, c.spacing == Agrees, l.Why == "", name)
			case "port", "tank":
				assert.Equal(t, NotMeasured, l.Outcome, name)
			}
		}
	}
}

// Where a wrong part is dangerous, hearsay on either side makes no fit.
func TestCarefulKinds(t *testing.T) {
	for _, careful := range []bool{false, true} {
		s := pump(t, careful)
		wanted := Part{Readings: read(t, s, ours, "")}
		said := read(t, s, ours, "")
		r := said["bolts"]
		r.How = fieldkit.Hearsay
		said["bolts"] = r
		for side, got := range map[string]Result{
			"wanted": Compare(s, Part{Readings: said}, Hand{Readings: wanted.Readings}),
			"hand":   Compare(s, wanted, Hand{Readings: said}),
		} {
			assert.Equal(t, fieldkit.Hearsay, got.Weakest, side)
			if !careful {
				assert.Equal(t, Fits, got.Verdict, side)
				assert.Equal(t, "fits, as far as hearsay goes", got.Say())
				continue
			}
			assert.Equal(t, MeasureFirst, got.Verdict, side)
			require.Len(t, got.Measure, 1, side)
			assert.Equal(t, "bolts", got.Measure[0].Name)
			assert.Equal(t, side == "wanted", got.Measure[0].Wanted, side)
			assert.Equal(t, side == "hand", got.Measure[0].InHand, side)
		}
	}
}

// A worn part may differ by its wear and no more.
func TestWear(t *testing.T) {
	s := pump(t, false)
	for got, outcome := range map[string]Outcome{"80.4 mm": Agrees, "80.8 mm": NotSure, "81.2 mm": Differs, "79.3 mm": Differs} {
		wanted := read(t, s, ours, "")
		r := wanted["spacing"]
		r.Worn = true // new, ours measured up to 0.3 mm more
		wanted["spacing"] = r
		result := Compare(s, Part{Readings: wanted}, Hand{Readings: read(t, s, with(ours, "size", "", "spacing", got), "")})
		assert.Equal(t, outcome, result.Lines[1].Outcome, "%s: %s", got, result.Lines[1].Why)
	}
}

// How a measurement is known is read from what was written beside it.
func TestEvidenceOf(t *testing.T) {
	for how, want := range map[string]fieldkit.Evidence{
		"caliper": fieldkit.Measured, "counted": fieldkit.Measured, "dial gauge": fieldkit.Measured, "read": fieldkit.NumberRead,
		"by eye": fieldkit.Seen, "": fieldkit.Seen, "standard": fieldkit.PublishedStandard, "told at the yard": fieldkit.Hearsay,
		"store book": fieldkit.StoreBook, "their catalogue": fieldkit.StoreBook, "hearsay": fieldkit.Hearsay, "test-fitted": fieldkit.TestFitted,
	} {
		assert.Equal(t, want, EvidenceOf(how), how)
	}
}
