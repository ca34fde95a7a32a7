package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards"
	"trailfieldkit/fieldkit/standards/measure"
)

var measureHelp = `
fieldkit measure [-worn] [-tool TOOL] [-json] [-n N] KIND NAME=VALUE…

Says what standard part it is from what was measured on it: candidates by likelihood,
how far each reading is off, and what to measure next. Values may be in millimetres or
inches, whole, decimal or fractions: 35, 34.9mm, 1-3/8, 1.378in; a number without a
unit is millimetres, or inches if only they make sense; how far it may be off can stand
behind it: 34.9±0.2. On a worn part the likelihood allows for wear.

  -worn       the part is worn
  -tool TOOL  what lengths were taken with: ` + toolNames() + `
              (the usual tool of each if left out)
  -json       print one JSON object instead of text
  -n N        at most N candidates (default 8)

Options may stand before or after the words. The status is 1 when nothing standard
fits; the nearest are listed all the same.

JSON fields: candidates, likeliest first (nearest first if none fits), each with designation, likelihood (against
the others and against nothing standard: they add up to less than 1) and misfit (by
name: value and unit, what was read less what the part should have; of words 0 for the
same and 1 for another); next (measurement, empty if nothing is to be gained, and why).

Kinds and what can be measured on them:
` + kindList() + `
Examples:
  fieldkit measure bearing bore=35 od=72 width=17
  fieldkit measure tapered -worn bore=1-5/8 od=2.891in
  fieldkit measure thread -tool 'steel rule' nominal=9/16 tpi=18
  fieldkit measure wheel studs=5 spacing=2.645in
`

func toolNames() string {
	var names []string
	for _, t := range measure.Tools {
		if t.Within > 0 {
			names = append(names, fmt.Sprintf("%s (±%s)", t.Name, t.Within.Show(fieldkit.Metric)))
		}
	}
	return strings.Join(names, ", ")
}

func kindList() string {
	var b strings.Builder
	for _, k := range measure.Kinds() {
		var names []string
		for _, a := range k.Attributes {
			names = append(names, a.Name)
		}
		fmt.Fprintf(&b, "  %-9s %s\n", k.Name, strings.Join(names, ", "))
	}
	return b.String()
}

// measured is what measure prints as JSON.
type measured struct {
	Candidates []measuredCandidate `json:"candidates"`
	Next       measuredNext        `json:"next"`
}

type measuredCandidate struct {
	Designation string            `json:"designation"`
	Likelihood  float64           `json:"likelihood"`
	Misfit      map[string]amount `json:"misfit"`
}

type measuredNext struct {
	Measurement string `json:"measurement"`
	Why         string `json:"why"`
}

func measureCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	set := options("measure")
	opts := kitOptions{FlagSet: set, json: set.Bool("json", false, "")}
	worn, toolName, most := set.Bool("worn", false, ""), set.String("tool", "", ""), set.Int("n", 8, "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	if len(words) == 0 {
		return opts.wrong(stderr, "say what kind of part it is, and what was measured")
	}
	kind, known := measure.KindNamed(words[0])
	switch {
	case !known:
		return opts.wrong(stderr, "no kind %q", words[0])
	case *most < 1 || *most > maxMeasured:
		return opts.wrong(stderr, "-n is %d and must be from 1 to %d", *most, maxMeasured)
	}
	query := measure.Query{Worn: *worn}
	if *toolName != "" {
		tool, known := measure.ToolNamed(*toolName)
		if !known {
			return opts.wrong(stderr, "no tool %q", *toolName)
		}
		query.Tool = &tool
	}
	for _, w := range words[1:] {
		name, value, ok := strings.Cut(w, "=")
		if !ok {
			return opts.wrong(stderr, "%q is not NAME=VALUE", w)
		}
		query.Given = append(query.Given, measure.Given{Name: name, Text: value})
	}
	result, err := kind.Find(data.Handbook(), query)
	if err != nil {
		return opts.wrong(stderr, "%v", err)
	}
	candidates := result.Shown(*most)
	if *opts.json {
		printJSON(stdout, measureAsJSON(candidates, result.Next))
	} else {
		printMeasured(stdout, kind, result, candidates)
	}
	if !result.Fits {
		fmt.Fprintf(stderr, "fieldkit measure: nothing standard fits these readings; the nearest is %s\n", candidates[0].Designation)
		return notDone
	}
	return done
}

// maxMeasured bounds -n.
const maxMeasured = 200

func measureAsJSON(candidates []measure.Candidate, next measure.Next) measured {
	m := measured{Candidates: []measuredCandidate{}, Next: measuredNext{next.Measurement, next.Why}}
	for _, c := range candidates {
		misfit := map[string]amount{}
		for _, f := range c.Misfits {
			misfit[f.Name] = amountOf(f.Off)
		}
		m.Candidates = append(m.Candidates, measuredCandidate{c.Designation.String(), math.Round(c.Likelihood*1e6) / 1e6, misfit})
	}
	return m
}

func printMeasured(w io.Writer, kind measure.Kind, r measure.Result, candidates []measure.Candidate) {
	var read []string
	for _, x := range r.Readings {
		read = append(read, standards.Label(x.Name)+" "+x.Words(fieldkit.Metric))
	}
	fmt.Fprintf(w, "%s: %s\n", kind.Name, strings.Join(read, "; "))
	if !r.Fits {
		fmt.Fprintln(w, "Nothing standard fits. The nearest:")
	}
	for i, c := range candidates {
		if r.Fits {
			fmt.Fprintf(w, "%d. %s, %s\n", i+1, c.Designation, measure.Chance(c.Likelihood))
		} else { // a share of what does not fit would only mislead
			fmt.Fprintf(w, "%d. %s\n", i+1, c.Designation)
		}
		for _, f := range c.Misfits {
			fmt.Fprintf(w, "   %s: %s\n", standards.Label(f.Name), f.Words(fieldkit.Metric))
		}
	}
	if r.Next.Measurement == "" {
		fmt.Fprintf(w, "Next: %s\n", r.Next.Why)
		return
	}
	fmt.Fprintf(w, "Measure next: %s\n   why: %s\n", standards.Label(r.Next.Measurement), r.Next.Why)
	if a, ok := kind.AttributeNamed(r.Next.Measurement); ok {
		fmt.Fprintf(w, "   how: %s\n", a.How)
	}
}
