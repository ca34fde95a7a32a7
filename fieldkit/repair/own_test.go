package repair_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func ownKit(t *testing.T) fieldkit.Kit {
	kit := farm(t)
	kit.OwnRepairs = []fieldkit.OwnRepair{
		{ID: "ours", Title: "latch filed to fit", PartKinds: []string{"latch"}, Tools: []string{"file"}, Consumables: []string{"oil"}, StopSigns: []string{"the latch cracks"},
			Steps: []fieldkit.OwnStep{{Text: "file it", Caution: "filings in the eyes"}, {Text: "oil it"}}, Afterwards: []string{"shut it twice"}},
		{ID: "hinge", Title: "not the program's hinge", Steps: []fieldkit.OwnStep{{Text: "x"}}},
		{ID: "empty", Title: "nothing written yet"},
	}
	kit.OwnRepairs[1].ID = gate(t).ID
	return kit
}

// An own repair is found, led through and logged as those of the program are; one that
// takes the name of the program's, or has no step, is left out.
func TestOwnRepair(t *testing.T) {
	kit, program := ownKit(t), []repair.Guide{gate(t)}
	all := repair.WithOwn(program, kit)
	require.Len(t, all, 2)
	assert.Len(t, program, 1, "the program's list stays as it is")
	stands, _ := repair.Named(all, gate(t).ID)
	assert.Equal(t, gate(t).Title, stands.Title)

	g, ok := repair.Named(all, "ours")
	require.True(t, ok)
	assert.True(t, g.Own)
	assert.Equal(t, repair.OwnSystem, g.System)
	assert.Empty(t, g.CanDrive(kit.Rigs[0]).Verdict, "whether it may be driven nobody has said")
	assert.Equal(t, []repair.Guide{g}, repair.ForPosition(all, kit, "latch"))
	assert.Equal(t, "ours", repair.BySymptom(all, "latch filed")[0].Guide.ID)

	run := repair.Start(g, kit.Rigs[0], "latch", "run", moment(9, 0))
	now := repair.Current(g, run, kit.Rigs[0])
	assert.Equal(t, "filings in the eyes", now.Step.Cautions[0].Hazard)
	for range g.Steps {
		var err error
		run, err = repair.Done(g, run, kit.Rigs[0], repair.Current(g, run, kit.Rigs[0]).Step.ID)
		require.NoError(t, err)
	}
	assert.True(t, repair.Current(g, run, kit.Rigs[0]).Ended)
	f := repair.FailureFrom(g, run, kit, moment(9, 35), "f1")
	assert.Equal(t, "latch filed to fit: latch", f.What)
	assert.Equal(t, "latch", f.Position)
}

// A note stays where its step is, and is not lost when the step is gone.
func TestStepNotes(t *testing.T) {
	kit, guides := ownKit(t), []repair.Guide{gate(t)}
	id := gate(t).ID
	kit.StepNotes = []fieldkit.StepNote{
		{ID: fieldkit.NoteID(id, "prop"), Guide: id, Step: "prop", Text: "use the long pole"},
		{ID: fieldkit.NoteID(id, "old"), Guide: id, Step: "old", Text: "left-hand thread"},
		{ID: fieldkit.NoteID("other", "old"), Guide: "other", Step: "old", Text: "elsewhere"},
	}
	assert.Equal(t, "use the long pole", repair.NoteAt(kit, id, "prop"))
	assert.Empty(t, repair.NoteAt(kit, id, "paint"))
	assert.Equal(t, []string{"left-hand thread (at old)"}, repair.StrayNotes(kit, guides, id))
}

// A step put in front of others takes neither their notes nor the place of a repair
// under way; a note whose step was rewritten is shown at the repair.
func TestOwnStepsKeepTheirNotes(t *testing.T) {
	kit := ownKit(t)
	g, _ := repair.Named(repair.WithOwn(nil, kit), "ours")
	oil := g.Steps[1].ID
	kit.StepNotes = []fieldkit.StepNote{{ID: fieldkit.NoteID("ours", oil), Guide: "ours", Step: oil, Text: "thin oil"}}
	run, err := repair.Done(g, repair.Start(g, kit.Rigs[0], "", "run", moment(9, 0)), kit.Rigs[0], g.Steps[0].ID)
	require.NoError(t, err)
	require.Equal(t, "oil it", repair.Current(g, run, kit.Rigs[0]).Step.Text)

	own := &kit.OwnRepairs[0]
	own.Steps = append([]fieldkit.OwnStep{{Text: "prop it up"}}, own.Steps...)
	g, _ = repair.Named(repair.WithOwn(nil, kit), "ours")
	assert.Equal(t, "oil it", repair.Current(g, run, kit.Rigs[0]).Step.Text)
	assert.Equal(t, "thin oil", repair.NoteAt(kit, "ours", g.Steps[2].ID))
	assert.Empty(t, repair.NoteAt(kit, "ours", g.Steps[1].ID))
	assert.Empty(t, repair.StrayNotes(kit, []repair.Guide{g}, "ours"))

	own.Steps = []fieldkit.OwnStep{{Text: "grease it"}, {Text: "grease it"}}
	g, _ = repair.Named(repair.WithOwn(nil, kit), "ours")
	assert.NotEqual(t, g.Steps[0].ID, g.Steps[1].ID, "steps that say the same are told apart")
	assert.Equal(t, []string{"thin oil"}, repair.StrayNotes(kit, []repair.Guide{g}, "ours"))
}
