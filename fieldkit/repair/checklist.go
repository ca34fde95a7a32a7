package repair

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// Listed is one step of a whole checklist.
type Listed struct {
	Step    Step
	Number  int
	Because []Reason // questions in front of it that this rig answers
	OnlyFor string   // the rigs it is meant for, where this rig's trait is not known
	Ways    []Way    // of a question: where each answer leads
	Next    int      // of other steps: the number of the step that follows, 0 the end
}

// Way is where an answer leads.
type Way struct {
	Answer string
	To     int // number of the step, 0 the end
}

// Checklist lists every step this rig may come to, in the order of the guide's list,
// numbered from 1.
func (g Guide) Checklist(rig fieldkit.Rig) []Listed {
	shown, because := g.mayShow(rig)
	number := func(id string) int {
		id, _ = g.onward(id, rig)
		return slices.Index(shown, id) + 1 // the end is not among them
	}
	list := make([]Listed, 0, len(shown))
	for _, s := range g.Steps {
		n := slices.Index(shown, s.ID) + 1
		if n == 0 {
			continue
		}
		one := Listed{Step: s, Number: n, Because: because[s.ID]}
		if s.Only.On(rig) == NotKnown {
			one.OnlyFor = s.Only.String()
		}
		for _, o := range s.Options {
			one.Ways = append(one.Ways, Way{o.Answer, number(g.afterOption(s.ID, o))})
		}
		if !s.Asks() {
			one.Next = number(g.following(s.ID))
		}
		list = append(list, one)
	}
	return list
}
