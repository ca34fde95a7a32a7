package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/data/fits"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fit"
)

const fitHelp = `
fieldkit fit [-kit FILE] [-tool TOOL] [-json] POSITION NAME=VALUE…

Says whether the part in hand fits at a position of the kit: it is compared with the
part wanted there, attribute by attribute. Values may be in millimetres or inches,
whole, decimal or fractions: 35, 34.9mm, 1-3/8, 1.378in; a number without a unit is
millimetres, or inches if only they make sense beside what is wanted; how far it may
be off can stand behind it: 34.9±0.2. NAME is an attribute of the kind of part, or
number for the number on the part. Without values it lists what decides.

A part that differs in any attribute does not fit, unless a change makes up for it.
Where a wrong part is dangerous, an attribute known only by hearsay or by sight makes
no fit.

` + kitOptionsHelp + `  -tool TOOL  how the values were taken: caliper, tape, told … (as is usual for each
              if left out)

Options may stand before or after the words. The status is 1 when the part does not
fit.

JSON fields: position, kind, verdict (fits, fits with changes, does not fit, measure
these first), attributes (name, wanted and got with value and unit or null, rule,
result: agrees, agrees with a change, differs, not sure, not proven, not measured, not
known, another name; why; allows: the tolerance in words; source of the rule), changes, measure (the shortest list still to measure: name,
how, on the part wanted or in hand), weakest (evidence), caution.

Examples:
  fieldkit fit hobnail-front-brake-pads
  fieldkit fit hobnail-front-brake-pads 'pad length=6.42 in' 'ear shape=square'
  fieldkit fit -json hobnail-steering-pump bolt_spacing=80 number=K-4410
`

// fitted is what fit prints as JSON.
type fitted struct {
	Position   string       `json:"position"`
	Kind       string       `json:"kind"`
	Verdict    fit.Verdict  `json:"verdict"`
	Attributes []fittedLine `json:"attributes"`
	Changes    []string     `json:"changes"`
	Measure    []fittedToDo `json:"measure"`
	Weakest    string       `json:"weakest"`
	Caution    string       `json:"caution,omitempty"`
}

type fittedLine struct {
	Name   string      `json:"name"`
	Wanted *amount     `json:"wanted"`
	Got    *amount     `json:"got"`
	Rule   fit.Rule    `json:"rule"`
	Result fit.Outcome `json:"result"`
	Why    string      `json:"why,omitempty"`
	Allows string      `json:"allows"` // the rule with its tolerance, in words
	Source string      `json:"source"` // of the rule
}

type fittedToDo struct {
	Name   string `json:"name"`
	How    string `json:"how"`
	Wanted bool   `json:"wanted"`
	InHand bool   `json:"inHand"`
}

func fitCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("fit")
	tool := opts.String("tool", "", "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	if len(words) == 0 {
		return opts.wrong(stderr, "say at which position, and what was measured")
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	at, ok := kit.Position(words[0])
	if !ok {
		return opts.wrong(stderr, "the kit has no position %q; fieldkit find lists them", words[0])
	}
	part, _ := kit.Part(at.Part)
	kind, ok := data.Catalog().PartKind(orKind(part.Kind, at.Kind))
	schema, known := fits.For(kind)
	if !ok || !known {
		return opts.wrong(stderr, "nothing says what decides of a %q", orKind(part.Kind, at.Kind))
	}
	wanted := fit.Known(part)
	hand, err := handOf(schema, wanted, words[1:], *tool)
	if err != nil {
		return opts.wrong(stderr, "%v", err)
	}
	result := fit.Compare(schema, wanted, hand)
	if *opts.json {
		printJSON(stdout, fitAsJSON(at.ID, kind.ID, result))
	} else {
		printFit(stdout, at, orKind(part.Name, "a part that is not known yet"), result)
	}
	if result.Verdict == fit.DoesNotFit {
		return notDone
	}
	return done
}

func orKind(one, other string) string {
	if one == "" {
		return other
	}
	return one
}

// handOf reads what was measured on the part in hand.
func handOf(s fit.Schema, wanted fit.Part, words []string, tool string) (fit.Hand, error) {
	hand := fit.Hand{Readings: fit.Readings{}}
	seen := map[string]bool{}
	for _, w := range words {
		name, value, ok := strings.Cut(w, "=")
		if !ok {
			return hand, fmt.Errorf("%q is not NAME=VALUE", w)
		}
		a, known := s.Named(name)
		if seen[a.Name] && known {
			return hand, fmt.Errorf("%s is given twice", a.Name)
		}
		seen[a.Name] = true
		switch {
		case !known && name == "number" && strings.TrimSpace(value) == "":
			return hand, fmt.Errorf("number: nothing is written; write the number on the part")
		case !known && name == "number":
			hand.Number = value
			continue
		case !known:
			var names []string
			for _, a := range s.Attributes {
				names = append(names, a.Name)
			}
			return hand, fmt.Errorf("%q is not what decides of %s; give %s or number", name, s.Kind.Name, strings.Join(names, ", "))
		}
		r, err := a.Read(value, tool, wanted.Readings.Of(a.Name), fieldkit.Metric)
		if err != nil {
			return hand, err
		}
		hand.Readings.Set(a.Name, r)
	}
	return hand, nil
}

func fitAsJSON(position, kind string, r fit.Result) fitted {
	f := fitted{Position: position, Kind: kind, Verdict: r.Verdict, Changes: list(r.Changes), Measure: []fittedToDo{}, Weakest: string(r.Weakest), Caution: r.Caution}
	for _, l := range r.Lines {
		f.Attributes = append(f.Attributes, fittedLine{l.Name(), readingOf(l.Wanted), readingOf(l.Got), l.Attribute.Spec.Rule, l.Outcome, l.Why, l.Attribute.Tolerance(fieldkit.Metric), l.Attribute.Spec.Source})
	}
	for _, d := range r.Measure {
		f.Measure = append(f.Measure, fittedToDo{d.Name, d.How, d.Wanted, d.InHand})
	}
	return f
}

func readingOf(r *fit.Reading) *amount {
	if r == nil {
		return nil
	}
	a := amountOf(r.Value)
	return &a
}

func printFit(w io.Writer, at fieldkit.Position, part string, r fit.Result) {
	fmt.Fprintf(w, "%s: wanted is %s\n", at.Title(), part)
	fmt.Fprintf(w, "%s\n", strings.ToUpper(r.Say()[:1])+r.Say()[1:])
	if r.Caution != "" {
		fmt.Fprintf(w, "! %s\n", r.Caution)
	}
	if r.Weakest != "" {
		fmt.Fprintf(w, "It rests on nothing weaker than: %s\n", r.Weakest)
	}
	fmt.Fprintln(w)
	for _, l := range r.Lines {
		wanted, got := l.Both(fieldkit.Metric)
		fmt.Fprintf(w, "%s: %s\n   wanted %s, in hand %s (%s)\n", l.Name(), l.Outcome, orKind(wanted, "not known"), orKind(got, "not measured"), l.Attribute.Tolerance(fieldkit.Metric))
		if l.Got != nil && l.Got.Turned {
			fmt.Fprintln(w, "   taken as inches")
		}
		if l.By != "" {
			fmt.Fprintf(w, "   settled by %s\n", l.By)
		}
		if l.Why != "" {
			fmt.Fprintf(w, "   %s\n", l.Why)
		}
	}
	if len(r.Measure) > 0 {
		fmt.Fprintln(w, "\nStill to find out")
		for i, d := range r.Measure {
			fmt.Fprintf(w, "%d. %s, %s: %s\n", i+1, d.Name, d.On(), d.How)
			if len(d.Instead) > 0 {
				fmt.Fprintf(w, "   it settles %s\n", strings.Join(d.Instead, ", "))
			}
		}
	}
}
