package app

import (
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func TestViewRepair(t *testing.T) {
	k, guides := data.DemoKit(), data.Guides()
	v := viewRepair(k, guides, "", "")
	require.Len(t, v.underWay, 1)
	assert.Equal(t, "run-wicket-u-joint", v.underWay[0].id)
	assert.Equal(t, "Wicket: axle U-joint, left", v.underWay[0].sub)
	assert.Regexp(t, `^step 1 of about \d+$`, v.underWay[0].progress)
	assert.Empty(t, v.matches, "nothing is asked for")
	assert.Len(t, v.positions, k.Positions.Len())
	listed := map[string]bool{}
	for _, g := range v.bySystem {
		assert.NotEmpty(t, g.Guides, g.System)
		for _, guide := range g.Guides {
			listed[guide.ID] = true
		}
	}
	assert.Len(t, listed, len(guides), "every repair is found by its system")
	assert.GreaterOrEqual(t, len(guides), 8)

	v = viewRepair(k, guides, "hobnail-front-brake-pads", "pedal sinks")
	assert.Equal(t, "Hobnail: front brake pads", v.under)
	assert.Contains(t, guideIDs(v.fitting), "brake-pads")
	require.NotEmpty(t, v.matches)
	assert.Contains(t, []string{"brake-hose", "brake-line"}, v.matches[0].Guide.ID)

	assert.Empty(t, viewRepair(k, guides, "no such position", "").under)
	for name, empty := range map[string]fieldkit.Kit{"blank": data.BlankKit("x"), "empty": {}} {
		v := viewRepair(empty, guides, "", "qqq")
		assert.Empty(t, v.underWay, name)
		assert.Empty(t, v.matches, name)
		assert.NotEmpty(t, v.bySystem, name)
	}
}

func guideIDs(list []repair.Guide) (ids []string) {
	for _, g := range list {
		ids = append(ids, g.ID)
	}
	return ids
}

func TestARunOfAnUnknownGuideIsStillNamed(t *testing.T) {
	row := rowOfRun(fieldkit.Kit{}, nil, fieldkit.Run{ID: "r", Guide: "winch"})
	assert.Equal(t, runRow{id: "r", title: "winch"}, row)
}

func TestViewGuide(t *testing.T) {
	k, cat, guides := data.DemoKit(), data.Catalog(), data.Guides()
	see := func(id, rig, position string) guideView { return viewGuide(k, cat, guides, id, rig, position) }
	assert.False(t, see("no such repair", "", "").found)
	assert.Equal(t, "hobnail", see("brake-pads", "", "").rig.ID, "the first rig, where none is said")
	assert.Equal(t, "wicket", see("brake-pads", "wicket", "").rig.ID)
	v := see("brake-pads", "hobnail", "wicket-front-brake-pads")
	assert.Equal(t, "wicket", v.rig.ID, "the position decides")
	for _, o := range v.where {
		p, _ := k.Position(o.value)
		assert.Contains(t, v.guide.PartKinds, p.Kind)
		rig, _ := k.RigOf(p)
		assert.Equal(t, "wicket", rig.ID)
	}
	assert.Empty(t, v.underWay)
	assert.Equal(t, "run-wicket-u-joint", see("u-joint-axle", "", "wicket-axle-u-joint-left").underWay)
	assert.Empty(t, see("u-joint-axle", "", "wicket-axle-u-joint-right").underWay, "the other side is another repair")

	// The rear shaft of a full-float axle may come out and the rig still rolls; on a
	// semi-float axle the shaft carries the wheel.
	assert.NotEqual(t, repair.MayNot, see("axle-shaft-rear", "hobnail", "").roll.Verdict)
	assert.Equal(t, repair.MayNot, see("axle-shaft-rear", "wicket", "").roll.Verdict)

	empty := viewGuide(fieldkit.Kit{}, cat, guides, "brake-pads", "", "")
	assert.True(t, empty.found)
	assert.Empty(t, empty.rig.ID)
	assert.Empty(t, empty.where)
	blank := viewGuide(data.BlankKit("x"), cat, guides, "brake-pads", "", "")
	assert.NotEmpty(t, blank.where)
	for _, tool := range blank.needs.Tools {
		assert.Empty(t, tool.Have, "a blank kit owns no tool")
	}
}

func TestLimitsOfDoNotRepeatTheVerdict(t *testing.T) {
	may := repair.Movement{Ruling: repair.Ruling{Verdict: repair.May, Why: "the wheels turn"}}
	assert.Equal(t, "The wheels turn", limitsOf(may, fieldkit.Metric))
	within := repair.Movement{Ruling: repair.Ruling{Verdict: repair.MayWithin, Why: "it drags", PerHour: 20 * fieldkit.Kilometre, Within: 10 * fieldkit.Kilometre}}
	assert.Equal(t, "At most 20 km/h (12 mph), no further than 10 km (6.2 mi): it drags", limitsOf(within, fieldkit.Metric))
	for _, g := range data.Guides() {
		for _, rig := range data.DemoKit().Rigs {
			for _, m := range []repair.Movement{g.CanRoll(rig), g.CanDrive(rig), g.CanDriveAfterFieldFix(rig)} {
				assert.NotEmpty(t, limitsOf(m, fieldkit.Inch), g.ID)
			}
		}
	}
}

func TestTraitsAskedOnce(t *testing.T) {
	cat := data.Catalog()
	require.NotEmpty(t, cat.Traits)
	trait := cat.Traits[0]
	m := repair.Movement{Ask: []string{trait.ID}}
	assert.Equal(t, []string{trait.Name + ": " + trait.Ask}, traitsAsked(cat, m, m, repair.Movement{Ask: []string{"not in the catalog"}}))
	assert.Empty(t, traitsAsked(cat, repair.Movement{}))
}

func TestNeedDetails(t *testing.T) {
	tool := repair.ToolCheck{ToolNeed: repair.ToolNeed{Why: "turns a piston in", Optional: true}, Others: []string{"C-clamp"}}
	assert.Equal(t, "turns a piston in · can be done without · also does it: C-clamp", toolDetail(tool))
	tool.Instead = []fieldkit.Tool{{Name: "big clamp"}}
	assert.Equal(t, "turns a piston in · can be done without · use instead: big clamp", toolDetail(tool))
	part := repair.PartCheck{PartNeed: repair.PartNeed{Count: 2}}
	assert.Equal(t, []string{"2 needed", "None in stock"}, partLines(part))
	part.Optional = true
	part.Have = []repair.Stocked{
		{Part: fieldkit.Part{Name: "joint"}, Count: 1, Grade: fieldkit.DropIn},
		{Part: fieldkit.Part{Name: "other"}, Count: 2, Grade: fieldkit.WithChanges, Changes: []string{"grind the ear"}},
		{Part: fieldkit.Part{Name: "third"}, Count: 3},
	}
	assert.Equal(t, []string{
		"2 needed · can be done without", "In stock: 1 × joint", "In stock: 2 × other, fits with changes: grind the ear", "In stock: 3 × third, check that it fits",
	}, partLines(part))
}

// answered goes through a repair, taking the first answer of every question.
func answered(t *testing.T, g repair.Guide, run fieldkit.Run, rig fieldkit.Rig) fieldkit.Run {
	t.Helper()
	for range 200 {
		now := repair.Current(g, run, rig)
		if now.Ended {
			return run
		}
		var err error
		if now.Step.Asks() {
			run, err = repair.Answer(g, run, rig, now.Step.ID, now.Step.Options[0].Answer)
		} else {
			run, err = repair.Done(g, run, rig, now.Step.ID)
		}
		require.NoError(t, err)
	}
	t.Fatal("the repair does not end")
	return run
}

func TestViewRun(t *testing.T) {
	k, guides := data.DemoKit(), data.Guides()
	at := fieldkit.Moment{Time: time.Date(2026, 12, 6, 17, 30, 0, 0, time.UTC)}
	see := func(runs ...fieldkit.Run) runView {
		k := k
		k.Runs = append(slices.Clone(k.Runs), runs...)
		return viewRun(k, guides, "r", at)
	}
	assert.False(t, see().found)
	assert.False(t, see(fieldkit.Run{ID: "r", Guide: "of a newer version"}).found)

	g, _ := repair.Named(guides, "u-joint-axle")
	rig, _ := k.Rig("hobnail")
	began := fieldkit.Moment{Time: at.Add(-150 * time.Minute)}
	run := repair.Start(g, rig, "hobnail-axle-u-joint-right", "r", began)
	v := see(run)
	require.True(t, v.found)
	assert.Equal(t, "Hobnail", v.rig.Name)
	assert.Equal(t, "axle U-joint, right", v.position.Title())
	assert.Equal(t, 1, v.now.Number)
	assert.False(t, v.now.Ended)
	assert.NotEmpty(t, v.now.Step.Text)

	v = see(answered(t, g, run, rig))
	assert.True(t, v.now.Ended)
	assert.Equal(t, demoTrip, v.draft.Trip, "the second day of the trip")
	assert.Equal(t, fieldkit.Minutes(150), v.draft.Lost)
	assert.Equal(t, fieldkit.Date{Year: 2026, Month: time.December, Day: 6}, v.draft.On)
	require.NotEmpty(t, v.used)
	assert.Contains(t, v.used, "1 × axle U-joint 1350, sealed")

	left := run
	left = repair.Leave(left, at)
	assert.False(t, repair.Open(see(left).run))
}

// A caution stands before the step that needs it, and no step of a repair that is
// shown is without words.
func TestEveryStepCanBeShown(t *testing.T) {
	k, guides := data.DemoKit(), data.Guides()
	for _, g := range guides {
		for _, rig := range k.Rigs {
			run := answered(t, g, repair.Start(g, rig, "", "r", testMoment), rig)
			for _, id := range run.Path {
				step, ok := g.Step(id)
				require.True(t, ok)
				assert.NotEmpty(t, step.Text, "%s, step %s", g.ID, id)
				for _, c := range step.Cautions {
					assert.True(t, c.Hazard != "" && c.Harm != "" && c.Avoid != "", "%s, step %s", g.ID, id)
				}
			}
		}
	}
}
