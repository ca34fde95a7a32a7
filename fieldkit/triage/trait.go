package triage

import (
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// traitPrefix begins the ID of a question that asks how the rig is built.
const traitPrefix = "rig-"

// Question returns the question of that ID if it can be asked on this rig: one of the
// book whose condition does not fail, or one about a trait that the rig's page does
// not say and that some cause hangs on.
func (l *Look) Question(id string) (Question, bool) {
	return named(l.questions(), func(q Question) bool { return q.ID == id })
}

// questions lists what can be asked on this rig, traits last.
func (l *Look) questions() (list []Question) {
	for _, q := range l.book.Questions {
		if q.Only.On(l.rig) != repair.Fails {
			list = append(list, q)
		}
	}
	for _, t := range l.cat.Traits {
		hangs := func(c live) bool { return c.cause.Suits[t.ID] != nil || c.guide.Suits[t.ID] != nil }
		if l.rig.Traits[t.ID] == "" && slices.ContainsFunc(l.live, hangs) {
			list = append(list, questionOf(t))
		}
	}
	return list
}

// questionOf asks for a trait; its options are equally usual.
func questionOf(t fieldkit.Trait) Question {
	q := Question{ID: traitPrefix + t.ID, Ask: "How is this rig built: " + t.Name + "?", How: t.Ask, trait: t.ID}
	for _, option := range t.Options {
		q.Options = append(q.Options, Option{ID: optionID(option), Answer: option, Usual: 1})
	}
	return q
}

// optionID makes an ID of a trait's option: "pump-box-and-ram".
func optionID(option string) string {
	return strings.Join(strings.FieldsFunc(option, func(r rune) bool { return r == ' ' || r == ',' || r == '/' }), "-")
}

// chanceOfTrait is even over the options that a cause can have, and over all for a
// cause that does not hang on the trait.
func chanceOfTrait(c Cause, g repair.Guide, q Question) []float64 {
	can := func(answer string) bool {
		return (c.Suits[q.trait] == nil || slices.Contains(c.Suits[q.trait], answer)) &&
			(g.Suits[q.trait] == nil || slices.Contains(g.Suits[q.trait], answer))
	}
	n := 0
	for _, o := range q.Options {
		if can(o.Answer) {
			n++
		}
	}
	p := make([]float64, len(q.Options))
	for i, o := range q.Options {
		p[i] = slip / float64(len(q.Options))
		if can(o.Answer) {
			p[i] += (1 - slip) / float64(n)
		}
	}
	return p
}
