package app

import (
	"errors"
	"slices"
	"strings"

	"trailfieldkit/data/fits"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
)

// fitView is what the fit check draws.
type fitView struct {
	found    bool
	position fieldkit.Position
	part     fieldkit.Part
	title    string
	lines    []fitLine
	result   fit.Result
	differs  []string // what differs and what that does
	todo     []string // what is still to find out
	rests    string   // on what proof the verdict rests
}

// fitLine is one attribute on the screen.
type fitLine struct {
	name               string
	dim                fieldkit.Dimension
	wanted, wantedBoth string // as it is written, and in both systems
	allows             string
	how                string
	options            []option
	class, word, why   string // how it stands; nothing while nothing is found
	rests              string // decides or not, and the source of its tolerance
}

// fitAnother is chosen for what is neither the wanted nor any word known.
const fitAnother = "something else"

// viewFit compares what was typed with the part wanted at a position, or with a part.
func viewFit(k fieldkit.Kit, cat fieldkit.Catalog, position, part string, typed map[string]string, first fieldkit.System) fitView {
	v := fitView{}
	v.position, _ = k.Position(position)
	if part == "" {
		part = v.position.Part
	}
	v.part, _ = k.Part(part)
	kind, ok := cat.PartKind(orWord(v.part.Kind, v.position.Kind))
	schema, known := fits.For(kind)
	if v.found = ok && known && (v.position.ID != "" || v.part.ID != ""); !v.found {
		return v
	}
	v.title = strings.Join(nonEmpty(v.part.Name, otherThan(v.part.Name, v.position.Title())), ", ")
	wanted := fit.Known(v.part)
	hand := fit.Hand{Readings: fit.Readings{}, Number: strings.TrimSpace(typed[fitNumber])}
	faults := map[string]string{}
	for _, a := range schema.Attributes {
		text := strings.TrimSpace(typed[fitField(a.Name)])
		if text == "" {
			continue
		}
		r, err := a.Read(text, takenWith(a, typed), wanted.Readings.Of(a.Name), first)
		if err != nil {
			faults[a.Name] = faultWords(err)
			continue
		}
		hand.Readings.Set(a.Name, r)
	}
	v.result = fit.Compare(schema, wanted, hand)
	for _, l := range v.result.Lines {
		v.lines = append(v.lines, lineOf(l, faults[l.Name()], first))
		if l.Outcome == fit.Differs {
			v.differs = append(v.differs, l.Name()+": "+l.Why)
		}
	}
	for _, d := range v.result.Measure {
		text := d.Name + ", " + d.On()
		if len(d.Instead) > 0 {
			text += ": it settles " + strings.Join(d.Instead, ", ")
		}
		v.todo = append(v.todo, text)
	}
	if v.result.Weakest != "" {
		v.rests = "Rests on nothing weaker than: " + string(v.result.Weakest)
	}
	return v
}

// takenWith says how a value was come by: by the tool chosen for lengths, by hearsay,
// or as is usual for it.
func takenWith(a fit.Attribute, typed map[string]string) string {
	switch {
	case typed[fitTold] != "":
		return fitTold
	case a.Dim == fieldkit.DimLength:
		return typed[fitTool]
	}
	return ""
}

func faultWords(err error) string {
	var e *fieldkit.Error
	if errors.As(err, &e) {
		return strings.Join(nonEmpty(e.What, e.Do), ": ")
	}
	return err.Error()
}

func lineOf(l fit.Line, fault string, first fieldkit.System) fitLine {
	a := l.Attribute
	line := fitLine{name: a.Name, dim: a.Dim, allows: a.Tolerance(first), how: capital(a.How)}
	line.wantedBoth, _ = l.Both(first)
	if l.Wanted != nil {
		line.wanted = l.Wanted.Value.Show(first)
	}
	if len(a.Spec.Words) > 0 {
		line.options = wordOptions(a, line.wanted)
	}
	need := "not needed for the verdict"
	if a.Must {
		need = "decides"
	}
	line.rests = capital(strings.Join(nonEmpty(need, a.Spec.Source), " · "))
	switch {
	case fault != "":
		line.class, line.word, line.why = "none", "cannot be read", fault
	case l.Outcome == fit.NotMeasured && l.Got == nil, l.Outcome == fit.NotKnown && l.Got == nil:
		line.why = ""
		if l.Outcome == fit.NotKnown {
			line.why = l.Why
		}
	default:
		line.class, line.word, line.why = outcomeMark(l), string(l.Outcome), l.Why
		if l.By != "" {
			line.word += ", by " + l.By
		}
		if l.Got != nil && l.Got.Turned {
			line.why = strings.Join(nonEmpty(line.why, "the number is taken in "+string(first.Other())+" units"), "; ")
		}
	}
	return line
}

func outcomeMark(l fit.Line) string {
	switch l.Outcome {
	case fit.Agrees:
		return "good"
	case fit.Differs:
		return "none"
	}
	return "part"
}

// wordOptions are what may be seen: what ours shows first, then the other words of the
// trade for it.
func wordOptions(a fit.Attribute, wanted string) []option {
	var list []option
	if wanted != "" {
		list = append(list, option{wanted, "as wanted: " + wanted})
	}
	for _, entry := range a.Spec.Words {
		word, _, _ := strings.Cut(entry, "|")
		if wanted == "" || !a.SameWords(wanted, word) {
			list = append(list, option{word, word})
		}
	}
	if !slices.ContainsFunc(list, func(o option) bool { return o.value == fitAnother }) {
		list = append(list, option{fitAnother, fitAnother})
	}
	return list
}

func (v fitView) wantedName() string { return orWord(v.part.Name, v.position.Title()) }
