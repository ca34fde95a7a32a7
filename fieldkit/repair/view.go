package repair

import "trailfieldkit/fieldkit"

// View is what to show of a repair under way.
type View struct {
	Step  Step // the step to do or to answer; none once Ended
	Ended bool // every step is done: finish, and log the failure
	// Number is the step's place on the way taken, About the length of the longest
	// way it may still become. About only shrinks.
	Number, About int
	Because       []Reason // questions this rig answered since the last step
	// OnlyFor names the rigs the step is meant for when this rig's trait is not
	// known: others pass it by.
	OnlyFor string
	Moved   string // why the step is not the one that was left, if it is not
}

// Current gives the step a run stands at. It never fails: a run kept by another
// version of the guide resumes at the nearest step both have, and View.Moved
// says so.
func Current(g Guide, run fieldkit.Run, rig fieldkit.Rig) View {
	settled, moved := settle(g, run, rig)
	done := len(settled.Path)
	v := View{Moved: moved, Because: g.because(settled, rig)}
	if settled.Step == End {
		v.Ended, v.Number, v.About = true, done, done
		return v
	}
	v.Step, _ = g.Step(settled.Step)
	v.Number, v.About = done+1, done+g.left(settled.Step, rig)
	if v.Step.Only.On(rig) == NotKnown {
		v.OnlyFor = v.Step.Only.String()
	}
	return v
}

// because finds again, from the last step done, which questions the rig answered
// on the way to where the run stands.
func (g Guide) because(run fieldkit.Run, rig fieldkit.Rig) []Reason {
	from := g.first()
	if n := len(run.Path); n > 0 {
		last, ok := g.Step(run.Path[n-1])
		if !ok {
			return nil
		}
		from = g.following(last.ID)
		if o, answered := last.option(run.Answers[last.ID]); answered {
			from = g.afterOption(last.ID, o)
		}
	}
	landed, reasons := g.onward(from, rig)
	if landed != run.Step {
		return nil
	}
	return reasons
}
