package repair

import (
	"fmt"
	"maps"
	"slices"
	"time"

	"trailfieldkit/fieldkit"
)

// Start begins a repair on a rig, at a position if one is known, at the first
// step this rig is shown.
func Start(g Guide, rig fieldkit.Rig, position, id string, now fieldkit.Moment) fieldkit.Run {
	step, _ := g.onward(g.first(), rig)
	return fieldkit.Run{ID: id, Guide: g.ID, Rig: rig.ID, Position: position, Started: whole(now), Step: step}
}

// Done goes on from a step that is done. The step is named so that a second tap
// does not skip one: a step that is not the current one is refused as a
// Conflict, as is a repair that is finished; a question is BadInput.
func Done(g Guide, run fieldkit.Run, rig fieldkit.Rig, step string) (fieldkit.Run, error) {
	run, s, err := current(g, run, rig, step)
	if err != nil {
		return run, err
	}
	if s.Asks() {
		return run, &fieldkit.Error{Kind: fieldkit.BadInput, Where: s.ID, What: "this step asks a question", Do: "choose an answer"}
	}
	return g.move(run, rig, step, g.following(step)), nil
}

// Answer goes on from a question with the answer taken. Errors are those of Done;
// an answer the step does not offer is BadInput.
func Answer(g Guide, run fieldkit.Run, rig fieldkit.Rig, step, answer string) (fieldkit.Run, error) {
	run, s, err := current(g, run, rig, step)
	if err != nil {
		return run, err
	}
	o, ok := s.option(answer)
	if !ok {
		return run, &fieldkit.Error{Kind: fieldkit.BadInput, Where: s.ID, What: fmt.Sprintf("%q is not one of the answers", answer), Do: "choose one that is shown"}
	}
	run.Answers = maps.Clone(run.Answers)
	if run.Answers == nil {
		run.Answers = map[string]string{}
	}
	run.Answers[step] = answer
	return g.move(run, rig, step, g.afterOption(step, o)), nil
}

// Back returns to the step before, forgetting its answer; at the first step, and
// in a repair that is finished, nothing changes.
func Back(g Guide, run fieldkit.Run) fieldkit.Run {
	if !Open(run) {
		return run
	}
	for i := len(run.Path) - 1; i >= 0; i-- {
		if g.index(run.Path[i]) >= 0 {
			return rewind(run, i)
		}
	}
	return run
}

// Finish closes a repair that was followed to where the person needed it.
func Finish(run fieldkit.Run, now fieldkit.Moment) fieldkit.Run {
	if Open(run) {
		run.Finished = whole(now)
	}
	return run
}

// Leave closes a repair that was given up.
func Leave(run fieldkit.Run, now fieldkit.Moment) fieldkit.Run {
	if Open(run) {
		run.Finished, run.Left = whole(now), true
	}
	return run
}

// Open reports a repair still under way.
func Open(run fieldkit.Run) bool { return run.Finished.IsZero() && !run.Left }

// current settles the run and checks that step is where it stands.
func current(g Guide, run fieldkit.Run, rig fieldkit.Rig, step string) (fieldkit.Run, Step, error) {
	refuse := func(what, do string) error {
		return &fieldkit.Error{Kind: fieldkit.Conflict, Where: g.Title, What: what, Do: do}
	}
	switch {
	case run.Guide != g.ID:
		return run, Step{}, refuse(fmt.Sprintf("the repair under way follows %q", run.Guide), "open that repair")
	case !Open(run):
		return run, Step{}, refuse("this repair is finished", "start it again")
	}
	settled, _ := settle(g, run, rig)
	if settled.Step == End || settled.Step != step {
		return run, Step{}, refuse("the repair has moved on from this step", "look at the step shown now")
	}
	s, _ := g.Step(step)
	return settled, s, nil
}

// move puts step on the path and stands at the next one shown on this rig.
func (g Guide) move(run fieldkit.Run, rig fieldkit.Rig, step, next string) fieldkit.Run {
	run.Path = append(slices.Clone(run.Path), step)
	run.Step, _ = g.onward(next, rig)
	return run
}

// settle makes a run stand at a step this guide has and this rig is shown. Where
// the guide was rewritten since the run was kept, it goes back to the last step
// done that is still there, and says so.
func settle(g Guide, run fieldkit.Run, rig fieldkit.Rig) (settled fieldkit.Run, moved string) {
	if run.Step == End {
		return run, ""
	}
	if g.index(run.Step) >= 0 {
		run.Step, _ = g.onward(run.Step, rig)
		return run, ""
	}
	for i := len(run.Path) - 1; i >= 0; i-- {
		if g.index(run.Path[i]) >= 0 {
			run = rewind(run, i)
			run.Step, _ = g.onward(run.Step, rig)
			return run, "This repair was rewritten since you left it. You are back at the last step both versions have: check it is done, then go on."
		}
	}
	fresh := run.Step == "" && len(run.Path) == 0
	run.Path, run.Answers = nil, nil
	run.Step, _ = g.onward(g.first(), rig)
	if fresh {
		return run, ""
	}
	return run, "This repair was rewritten since you left it, and none of the steps you did is left. You are at its first step: pass by what is done."
}

// rewind stands at the i-th step of the path, as before it was done.
func rewind(run fieldkit.Run, i int) fieldkit.Run {
	run.Step = run.Path[i]
	if _, answered := run.Answers[run.Step]; answered {
		run.Answers = maps.Clone(run.Answers)
		delete(run.Answers, run.Step)
	}
	if len(run.Answers) == 0 {
		run.Answers = nil
	}
	run.Path = slices.Clone(run.Path[:i])
	if i == 0 {
		run.Path = nil
	}
	return run
}

// whole is a moment as it is kept: in UTC, to the second.
func whole(m fieldkit.Moment) fieldkit.Moment {
	return fieldkit.Moment{Time: m.UTC().Truncate(time.Second)}
}
