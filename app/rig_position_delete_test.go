package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// spotless adds a position to the demonstration that nothing refers to.
func spotless() (fieldkit.Kit, fieldkit.Position) {
	k := data.DemoKit()
	p := fieldkit.Position{ID: "spotless", System: k.Systems[0].ID, Name: "idler arm", Kind: k.Positions.At(0).Kind, Quantity: 1}
	k.Positions = k.Positions.With(p)
	return k, p
}

func TestClosedRepairsGoWithTheirPosition(t *testing.T) {
	k, p := spotless()
	rig, _ := k.RigOf(p)
	run := func(id string) fieldkit.Run {
		return fieldkit.Run{ID: id, Guide: "some-guide", Rig: rig.ID, Position: p.ID, Started: testMoment}
	}
	finished, left, logged, named := run("finished"), run("left"), run("logged"), run("named")
	finished.Finished, left.Left, logged.Finished, named.Finished = testMoment, true, testMoment, testMoment
	elsewhere := fieldkit.Failure{ID: "f1", Rig: rig.ID, On: testDay, What: "snapped", Run: logged.ID}
	other := fieldkit.Failure{ID: "f2", Rig: rig.ID, On: testDay, What: "bent"}
	named.Failure = other.ID
	runs := len(k.Runs)
	k.Runs = append(k.Runs, finished, left, logged, named)
	k.Failures = k.Failures.With(elsewhere, other)

	assert.Empty(t, positionUses(k, p.ID))
	assert.Len(t, closedRuns(k, p.ID), 2)
	after, err := edited(t, k, func(e *journal.Edit) error { return deletePosition(e, p) })
	require.NoError(t, err)
	_, there := after.Position(p.ID)
	assert.False(t, there)
	assert.Len(t, after.Runs, runs+2)
	for _, id := range []string{"logged", "named"} {
		r, there := fieldkit.Find(after.Runs, id)
		require.True(t, there, id)
		assert.Empty(t, r.Position, id)
	}
	f, _ := after.Failures.Find("f1")
	assert.Equal(t, "logged", f.Run, "the failure keeps the repair that was followed")
}

func TestWhatKeepsAPosition(t *testing.T) {
	for _, c := range []struct {
		name string
		add  func(k *fieldkit.Kit, p fieldkit.Position, rig string)
		want string
	}{
		{"a repair under way", func(k *fieldkit.Kit, p fieldkit.Position, rig string) {
			k.Runs = append(k.Runs, fieldkit.Run{ID: "r", Guide: "g", Rig: rig, Position: p.ID, Started: testMoment})
		}, "repair under way begun 14 May 2026"},
		{"a log entry", func(k *fieldkit.Kit, p fieldkit.Position, rig string) {
			k.Failures = k.Failures.With(fieldkit.Failure{ID: "f", Rig: rig, Position: p.ID, On: testDay, What: "snapped"})
		}, "failure 14 May 2026: snapped"},
		{"a reading", func(k *fieldkit.Kit, p fieldkit.Position, _ string) {
			k.Inspections = k.Inspections.With(fieldkit.Inspection{ID: "i", Position: p.ID, On: testDay, Name: "play", Value: fieldkit.Value{Dim: fieldkit.DimText, Text: "none"}})
		}, "wear reading 14 May 2026: play"},
		{"a position under it", func(k *fieldkit.Kit, p fieldkit.Position, _ string) {
			below := p
			below.ID, below.Parent, below.Name = "below", p.ID, "idler bushing"
			k.Positions = k.Positions.With(below)
		}, "position under it idler bushing"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k, p := spotless()
			rig, _ := k.RigOf(p)
			c.add(&k, p, rig.ID)
			after, err := edited(t, k, func(e *journal.Edit) error { return deletePosition(e, p) })
			require.Error(t, err)
			assert.ErrorContains(t, err, c.want)
			_, there := after.Position(p.ID)
			assert.True(t, there)
			v := viewPosition(k, data.Catalog(), nil, p.ID)
			require.Len(t, v.uses, 1)
			assert.Contains(t, v.uses[0].href, "id=", "it leads to the record itself")
		})
	}
}
