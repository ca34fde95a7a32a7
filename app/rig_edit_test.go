package app

import (
	"context"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

func TestRigFormWithNothingTypedGivesTheSameRig(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	for _, r := range k.Rigs {
		f := onForm(rigFields(r, true, cat, fieldkit.Inch), nil)
		got, ok := readRig(f, r, cat, fieldkit.Inch, testDay)
		require.True(t, ok, "%v", f.wrong)
		assert.Equal(t, r, got)
	}
}

func TestRigForm(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	r := k.Rigs[0]
	f := onForm(rigFields(r, true, cat, fieldkit.Inch), map[string]string{"odometer": "56000", "oversize": "", "trait/fuel": "diesel", "trait/belt": ""})
	got, ok := readRig(f, r, cat, fieldkit.Inch, testDay)
	require.True(t, ok)
	assert.Equal(t, 56000*fieldkit.Mile, got.Odometer)
	assert.Equal(t, testDay, got.OdometerOn, "a new reading was taken now")
	assert.Zero(t, got.Oversize)
	assert.Equal(t, "diesel", got.Traits["fuel"])
	assert.NotContains(t, got.Traits, "belt", "not known is no answer")
	assert.Equal(t, "petrol", r.Traits["fuel"], "the rig as it was is not changed in place")

	for _, c := range []struct{ name, value string }{
		{"name", " "}, {"odometer", "far"}, {"odometer", "-5 mi"}, {"odometerOn", "3/4/2026"}, {"odometerOn", "2026-05-15"},
		{"oversize", "1.5"}, {"oversize", "-51"}, {"oversize", "201"},
	} {
		f := onForm(rigFields(r, true, cat, fieldkit.Inch), map[string]string{c.name: c.value})
		_, ok := readRig(f, r, cat, fieldkit.Inch, testDay)
		assert.False(t, ok, c)
		assert.Len(t, f.wrong, 1, c)
		assert.NotEmpty(t, f.wrong[c.name], c)
	}
}

func TestRigBeginsWithTheUsualPositions(t *testing.T) {
	blank := data.BlankKit("x")
	k := data.DemoKit()
	added := fieldkit.Rig{ID: "third", Name: "Third"}
	begin := blankFor(data.BlankKit("x"), added.ID)
	after, err := edited(t, k, func(e *journal.Edit) error {
		putBeginning(e, begin)
		e.Put(added)
		return nil
	})
	require.NoError(t, err)
	assert.Len(t, after.PositionsOf("third"), len(blank.PositionsOf(blank.Rigs[0].ID)))
	assert.Len(t, systemsOf(after, "third"), len(blank.Systems))
	assert.Len(t, after.PositionsOf("hobnail"), len(k.PositionsOf("hobnail")))
	for i, sys := range systemsOf(after, "third") {
		was := systemsOf(blank, blank.Rigs[0].ID)[i]
		var names, wasNames []string
		for _, p := range treeOrder(after, sys.ID) {
			names = append(names, p.Title())
		}
		for _, p := range treeOrder(blank, was.ID) {
			wasNames = append(wasNames, p.Title())
		}
		assert.Equal(t, wasNames, names, was.Name)
	}
	twice, err := edited(t, after, func(e *journal.Edit) error {
		putBeginning(e, blankFor(data.BlankKit("x"), "fourth"))
		e.Put(fieldkit.Rig{ID: "fourth", Name: "Fourth"})
		return nil
	})
	require.NoError(t, err)
	assert.Len(t, twice.PositionsOf("third"), begin.Positions.Len())
	assert.Empty(t, blankFor(fieldkit.Kit{}, "r"))
}

func TestDeletingARigTakesAllOnItAndOneUndoBringsItBack(t *testing.T) {
	k := data.DemoKit()
	for _, r := range k.Rigs {
		t.Run(r.ID, func(t *testing.T) {
			session, ids := openTest(t, k), testIDs()
			ctx := context.Background()
			before := kitfile.Save(session.Kit())
			entry, err := session.Do(ctx, "delete rig", testMoment, ids, func(e *journal.Edit) error {
				deleteRig(e, r.ID)
				return nil
			})
			require.NoError(t, err)
			after := session.Kit()
			require.Empty(t, kitfile.Check(after))
			on := findOnRig(k, r.ID)
			assert.Len(t, after.Positions.Slice(), k.Positions.Len()-len(on.positions))
			assert.Len(t, after.Failures.Slice(), k.Failures.Len()-len(on.failures))
			assert.Len(t, after.Inspections.Slice(), k.Inspections.Len()-len(on.readings))
			assert.Len(t, after.Bins, len(k.Bins)-len(on.bins))
			assert.Len(t, after.Parts.Slice(), k.Parts.Len(), "parts are the crew's")
			assert.Len(t, after.Donors, len(k.Donors))
			assert.Len(t, after.Spares.Slice(), k.Spares.Len())
			assert.Zero(t, findOnRig(after, r.ID))

			_, err = session.Undo(ctx, entry.ID, testMoment, ids)
			require.NoError(t, err)
			assert.Equal(t, string(before), string(kitfile.Save(session.Kit())))
		})
	}
}

func TestOnRigWords(t *testing.T) {
	k := data.DemoKit()
	assert.Regexp(t, `^\d+ systems, \d+ positions, .* and \d+ trips?$`, findOnRig(k, "hobnail").words())
	assert.Regexp(t, `^its \d+ positions$`, findOnRig(k, "hobnail").brief())
	assert.True(t, findOnRig(k, "").empty())
	assert.True(t, findOnRig(k, "nowhere").empty())
	assert.Equal(t, "1 system", onRig{systems: k.Systems[:1]}.words())
	assert.Equal(t, "all that is on it", onRig{systems: k.Systems[:1]}.brief())
}
