package repair

import (
	"slices"

	"trailfieldkit/fieldkit"
)

// Reason is a question that was not asked, because the rig's traits answer it.
type Reason struct {
	Step   string   // ID of the question
	Answer string   // the answer taken
	Traits []string // IDs of the traits that decided
}

// Text says why: "this rig: locking hubs".
func (r Reason) Text() string { return "this rig: " + r.Answer }

// onward goes from a step to the first one that is shown on this rig, past steps
// meant for other rigs and past questions its traits answer, and gives the
// reasons. It ends at a step or at End.
func (g Guide) onward(id string, rig fieldkit.Rig) (string, []Reason) {
	var because []Reason
	for id != End {
		s, _ := g.Step(id)
		if s.Only.On(rig) == Fails {
			id = g.following(id)
			continue
		}
		o, decided := s.decided(rig)
		if !decided {
			break
		}
		because = append(because, Reason{Step: id, Answer: o.Answer, Traits: o.When.Traits()})
		id = g.afterOption(id, o)
	}
	return id, because
}

// decided returns the option the rig's traits give.
func (s Step) decided(rig fieldkit.Rig) (Option, bool) {
	for _, o := range s.Options {
		if len(o.When) > 0 && o.When.On(rig) == Holds {
			return o, true
		}
	}
	return Option{}, false
}

// option returns the option of that answer.
func (s Step) option(answer string) (Option, bool) {
	i := slices.IndexFunc(s.Options, func(o Option) bool { return o.Answer == answer })
	if i < 0 {
		return Option{}, false
	}
	return s.Options[i], true
}

// first is where the guide begins.
func (g Guide) first() string {
	if len(g.Steps) == 0 {
		return End
	}
	return g.Steps[0].ID
}

// following is where a step leads that is done, or passed by.
func (g Guide) following(id string) string {
	i := g.index(id)
	switch {
	case i < 0:
		return End
	case g.Steps[i].Next != "":
		return g.Steps[i].Next
	case i+1 < len(g.Steps):
		return g.Steps[i+1].ID
	}
	return End
}

// afterOption is where an answer leads.
func (g Guide) afterOption(id string, o Option) string {
	if o.Next != "" {
		return o.Next
	}
	return g.following(id)
}

// left counts the steps from id to the end along the longest way that this rig
// may still take.
func (g Guide) left(id string, rig fieldkit.Rig) int {
	// Steps lead only forward, so the counts are found from the last to the first.
	count := map[string]int{End: 0}
	for i := len(g.Steps) - 1; i >= 0; i-- {
		s := g.Steps[i]
		o, decided := s.decided(rig)
		switch {
		case s.Only.On(rig) == Fails:
			count[s.ID] = count[g.following(s.ID)]
		case decided:
			count[s.ID] = count[g.afterOption(s.ID, o)]
		case s.Asks():
			for _, o := range s.Options {
				count[s.ID] = max(count[s.ID], 1+count[g.afterOption(s.ID, o)])
			}
		default:
			count[s.ID] = 1 + count[g.following(s.ID)]
		}
	}
	return count[id]
}

// mayShow lists the steps this rig may come to, in the order of the list, and in
// front of which of them its traits answered a question.
func (g Guide) mayShow(rig fieldkit.Rig) (shown []string, because map[string][]Reason) {
	reached := map[string]bool{}
	because = map[string][]Reason{}
	visit := func(id string) {
		to, reasons := g.onward(id, rig)
		if to == End {
			return
		}
		reached[to] = true
		for _, r := range reasons {
			if !slices.ContainsFunc(because[to], func(known Reason) bool { return known.Step == r.Step }) {
				because[to] = append(because[to], r)
			}
		}
	}
	visit(g.first())
	for _, s := range g.Steps {
		if !reached[s.ID] {
			continue
		}
		shown = append(shown, s.ID)
		if !s.Asks() {
			visit(g.following(s.ID))
		}
		for _, o := range s.Options {
			visit(g.afterOption(s.ID, o))
		}
	}
	return shown, because
}
