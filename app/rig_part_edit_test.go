package app

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

func reading(k fieldkit.Kit, first fieldkit.System) partReading {
	return partReading{k, data.Catalog(), first, testDay}
}

func TestPartFormWithNothingTypedGivesTheSamePart(t *testing.T) {
	k := data.DemoKit()
	for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
		for _, p := range k.Parts.All() {
			f := onForm(partFields(p, true, fieldkit.Position{}, first), nil)
			got, ok := reading(k, first).read(f, p)
			require.True(t, ok, "%s: %v", p.ID, f.wrong)
			assert.ElementsMatch(t, p.Measurements, got.Measurements, p.ID)
			got.Measurements = p.Measurements // the form puts those that decide first
			assert.Equal(t, p, got, p.ID)
		}
	}
}

func TestPartFormOfANewPart(t *testing.T) {
	k := data.DemoKit()
	at, _ := k.Position("hobnail-steering-pump")
	f := onForm(partFields(fieldkit.Part{}, false, at, fieldkit.Inch), map[string]string{
		"donor": "garrund-stonecrop", "mass": "8 lb", "volume": "4 L", "price": "94", "buyWith": "return hose\n\n two clamps ",
		"number": "n1 n2", "number/n1/value": " 7G-2118-N ", "number/n1/issuer": "maker", "number/n1/from": "Garrund", "number/n1/how": "number read",
		"measure/d:belt ribs/value": "6", "measure/d:belt ribs/how": "counted",
		"measure/d:bolt spacing/value": "3-1/4", "measure/d:bolt spacing/worn": "yes",
		"measure": "n1", "measure/n1/name": "length over all", "measure/n1/value": "182 mm",
		"alike": "n1", "alike/n1/name": "pump of the six", "alike/n1/tell": "keyed shaft",
	})
	got, ok := reading(k, fieldkit.Inch).read(f, fieldkit.Part{ID: "new"})
	require.True(t, ok, "%v", f.wrong)
	assert.Equal(t, "steering pump", got.Name, "preset from the position")
	assert.Equal(t, "steering-pump", got.Kind)
	assert.Equal(t, []string{"return hose", "two clamps"}, got.BuyWith)
	assert.Equal(t, 8*fieldkit.Pound, got.Mass)
	assert.Equal(t, "94.00 USD", got.Price.String())
	require.Len(t, got.Numbers, 1, "a row with nothing written is none")
	assert.Equal(t, fieldkit.Number{Value: "7G-2118-N", Issuer: fieldkit.MakerNumber, From: "Garrund",
		Proof: &fieldkit.Proof{How: fieldkit.NumberRead, On: today()}}, got.Numbers[0])
	require.Len(t, got.Measurements, 3)
	assert.Equal(t, fieldkit.Measurement{Name: "belt ribs", Value: fieldkit.Value{Dim: fieldkit.DimCount, Base: 6_000_000}, How: "counted", On: testDay}, got.Measurements[0])
	spacing := got.Measurements[1]
	assert.True(t, spacing.Worn)
	assert.Equal(t, "3-1/4 in", spacing.Value.Show(fieldkit.Inch))
	assert.Equal(t, "length over all", got.Measurements[2].Name)
	assert.Equal(t, []fieldkit.LookAlike{{Name: "pump of the six", Tell: "keyed shaft"}}, got.LookAlikes)
}

func TestPartFormMarksWhatIsWrong(t *testing.T) {
	k := data.DemoKit()
	cases := []struct {
		name, field, value, wrong string
	}{
		{"no name", "name", "  ", "name"},
		{"a note longer than a kit keeps", "note", strings.Repeat("x", fieldkit.MaxString+1), "note"},
		{"no kind", "kind", "", "kind"},
		{"donor not written down", "donor", newDonor, "donor"},
		{"weight without sense", "mass", "heavy", "mass"},
		{"negative volume", "volume", "-1 L", "volume"},
		{"weight below nothing", "mass", "-1 kg", "mass"},
		{"price below nothing", "price", "-3", "price"},
		{"donor deleted meanwhile", "donor", "gone", "donor"},
		{"price in another currency", "price", "12 EUR", "price"},
		{"number taken away from its row", "number/0/value", "", "number/0/value"},
		{"whose number is not said", "number/0/issuer", "", "number/0/issuer"},
		{"not a size", "measure/1/value", "1 3/8/2", "measure/1/value"},
		{"a size of nothing", "measure/1/value", "0 mm", "measure/1/value"},
		{"look-alike without a tell", "alike/0/tell", "", "alike/0/tell"},
	}
	p, _ := k.Part("pump-garrund")
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			f := onForm(partFields(p, true, fieldkit.Position{}, fieldkit.Inch), map[string]string{c.field: c.value})
			_, ok := reading(k, fieldkit.Inch).read(f, p)
			assert.False(t, ok)
			assert.NotEmpty(t, f.wrong[c.wrong])
			assert.Len(t, f.wrong, 1)
		})
	}
}

func TestMeasurementChangedIsDatedAndTheRestIsNot(t *testing.T) {
	k := data.DemoKit()
	p, _ := k.Part("pump-garrund")
	f := onForm(partFields(p, true, fieldkit.Position{}, fieldkit.Inch), map[string]string{"measure/3/value": "17.2 mm", "measure/4/worn": "yes"})
	got, ok := reading(k, fieldkit.Inch).read(f, p)
	require.True(t, ok)
	changed := map[string]bool{"shaft diameter": true, "mounting bolts": true}
	for _, m := range got.Measurements {
		assert.Equal(t, changed[m.Name], m.On == testDay, m.Name)
	}
}

func TestMeasurementsStayWhenTheKindIsChanged(t *testing.T) {
	k := data.DemoKit()
	p, _ := k.Part("pump-garrund")
	f := onForm(partFields(p, true, fieldkit.Position{}, fieldkit.Inch), map[string]string{
		"kind": "drive-shaft-u-joint", "measure/d:cap diameter of another kind/value": "1-1/16 in"})
	got, ok := reading(k, fieldkit.Inch).read(f, p)
	require.True(t, ok, "%v", f.wrong)
	names := map[string]bool{}
	for _, m := range got.Measurements {
		names[m.Name] = true
	}
	for _, m := range p.Measurements {
		assert.True(t, names[m.Name], m.Name)
	}
	assert.True(t, names["cap diameter of another kind"])
}

func TestEveryDecidingMeasureHasALine(t *testing.T) {
	for _, kind := range data.Catalog().PartKinds {
		f := onForm(partFields(fieldkit.Part{}, false, fieldkit.Position{}, fieldkit.Inch), map[string]string{"kind": kind.ID})
		deciding, other := partMeasureRows(f, kind)
		require.Len(t, deciding, len(kind.Deciding), kind.ID)
		assert.Empty(t, other, kind.ID)
		for i, row := range deciding {
			assert.Equal(t, kind.Deciding[i].Name, row.name)
			assert.NotEmpty(t, measureHint(row), "%s, %s", kind.ID, row.name)
		}
	}
}

func TestPartEditViewSaysWhereItIsFitted(t *testing.T) {
	k := data.DemoKit()
	both := fieldkit.Position{}
	for _, p := range k.Positions.All() {
		if m, ok := k.Mirror(p); ok && p.Part != "" && m.Part == p.Part && len(k.FittedAt(p.Part)) == 2 {
			both = p
			break
		}
	}
	require.NotEmpty(t, both.ID, "the demo kit has a part on both sides")
	v := viewPartEdit(k, both.Part, both.ID)
	assert.Len(t, v.fitted, 2)
	assert.True(t, v.canSplit)
	assert.Equal(t, "Changes here hold for both sides.", changesHold(k, v.fitted))
	assert.NotEmpty(t, v.uses)
	assert.False(t, viewPartEdit(k, both.Part, "").canSplit, "not opened for a position")
	assert.True(t, viewPartEdit(k, "no-such-part", "").missing)
	assert.False(t, viewPartEdit(fieldkit.Kit{}, "", "").missing)
}

func TestOwnCopyLeavesTheOtherSideAlone(t *testing.T) {
	k := data.DemoKit()
	var at, other fieldkit.Position
	for _, p := range k.Positions.All() {
		if m, ok := k.Mirror(p); ok && p.Part != "" && m.Part == p.Part {
			at, other = p, m
			break
		}
	}
	was, _ := k.Part(at.Part)
	part := ownCopy(was, was, at, "copy")
	assert.Equal(t, was.Name+", "+string(at.Side), part.Name)
	after, err := edited(t, k, func(e *journal.Edit) error { return fitCopy(e, part, was.ID, at.ID) })
	require.NoError(t, err)
	here, _ := after.Position(at.ID)
	there, _ := after.Position(other.ID)
	assert.Equal(t, "copy", here.Part)
	assert.Equal(t, was.ID, there.Part)
	same, _ := after.Part(was.ID)
	assert.Equal(t, was, same)

	_, err = edited(t, after, func(e *journal.Edit) error { return fitCopy(e, part, was.ID, at.ID) })
	assert.ErrorContains(t, err, "something else is fitted")
}

func TestFitIfEmptyNeverTakesAPartOut(t *testing.T) {
	k := data.DemoKit()
	var empty, full fieldkit.Position
	for _, p := range k.Positions.All() {
		if p.Part == "" {
			empty = p
		} else {
			full = p
		}
	}
	after, err := edited(t, k, func(e *journal.Edit) error {
		fitIfEmpty(e, "pump-garrund", empty.ID)
		fitIfEmpty(e, "pump-garrund", full.ID)
		fitIfEmpty(e, "pump-garrund", "nowhere")
		return nil
	})
	require.NoError(t, err)
	filled, _ := after.Position(empty.ID)
	assert.Equal(t, "pump-garrund", filled.Part)
	kept, _ := after.Position(full.ID)
	assert.Equal(t, full.Part, kept.Part)
}

func TestPartUsesAreExactlyWhatDeletingWouldBreak(t *testing.T) {
	k := data.DemoKit()
	session, ids, free := openTest(t, k), testIDs(), 0
	for _, p := range k.Parts.All() {
		entry, err := session.Do(context.Background(), "delete", testMoment, ids, func(e *journal.Edit) error {
			e.Delete(p.Collection(), p.ID)
			return nil
		})
		if len(partUses(k, p.ID)) > 0 {
			assert.Error(t, err, p.ID)
			continue
		}
		assert.NoError(t, err, p.ID)
		_, err = session.Undo(context.Background(), entry.ID, testMoment, ids)
		require.NoError(t, err)
		free++
	}
	assert.Less(t, free, k.Parts.Len(), "the demo kit has parts in use")
}
