package main

import (
	"context"
	"errors"
	"fmt"
	"io"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/kitfile"
)

const checkHelp = `
fieldkit check [-json] [FILE]

Reads a kit file and lists everything that is wrong with it, each with its line and
place and what to do; then what this program's catalog does not know, links that
contradict each other, and how many positions are counter-ready, with the gaps most
worth closing.

` + kitOptionsHelp + `
FILE may be written without -kit. The status is 1 when the file is not valid;
contradictions and gaps alone do not make it so.

JSON fields: file; valid; problems (line, column, pointer, where, what, do);
contradictions (block: the link that says does not fit, wanted, with: IDs of parts,
say: in words); ready (rigs: rig, name, ready, nearly, notReady; gaps: title, what,
why, part, positions).

Examples:
  fieldkit check kit.json
  fieldkit check -json kit.json
`

// checked is what check prints as JSON.
type checked struct {
	File           string                 `json:"file"`
	Valid          bool                   `json:"valid"`
	Problems       []checkedProblem       `json:"problems"`
	More           int                    `json:"moreProblems,omitempty"` // beyond the longest list kept
	Contradictions []checkedContradiction `json:"contradictions"`
	Ready          checkedReady           `json:"ready"`
}

type checkedProblem struct {
	Line    int    `json:"line,omitempty"`
	Column  int    `json:"column,omitempty"`
	Pointer string `json:"pointer"`
	Where   string `json:"where,omitempty"`
	What    string `json:"what"`
	Do      string `json:"do,omitempty"`
}

type checkedContradiction struct {
	Block  string `json:"block"`
	Wanted string `json:"wanted"`
	With   string `json:"with"`
	Say    string `json:"say"`
}

type checkedReady struct {
	Rigs []checkedRig `json:"rigs"`
	Gaps []checkedGap `json:"gaps"`
}

type checkedRig struct {
	Rig    string `json:"rig"`
	Name   string `json:"name"`
	Ready  int    `json:"ready"`
	Nearly int    `json:"nearly"`
	Not    int    `json:"notReady"`
}

type checkedGap struct {
	Title     string   `json:"title"`
	What      string   `json:"what"`
	Why       string   `json:"why"`
	Part      string   `json:"part,omitempty"`
	Positions []string `json:"positions"`
}

// gapsShown bounds the gaps listed: the next weekend's work, not a year's.
const gapsShown = 10

func checkCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("check")
	words, ok := opts.read(args, stderr)
	switch {
	case !ok:
		return askedWrong
	case len(words) > 1:
		return opts.wrong(stderr, "%q is one word too many", words[1])
	case len(words) == 1 && *opts.kit != "":
		return opts.wrong(stderr, "both -kit %s and %s are named", *opts.kit, words[0])
	case len(words) == 1:
		*opts.kit = words[0]
	}
	report, err := check(*opts.kit)
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	if *opts.json {
		printJSON(stdout, report)
	} else {
		report.print(stdout)
	}
	if !report.Valid {
		return notDone
	}
	return done
}

// check reads the file of that path, the demo kit if there is none. An error says
// that there was nothing to check.
func check(path string) (checked, error) {
	kit, file, err := data.DemoKit(), []byte(nil), error(nil)
	if path != "" {
		if file, err = readFile(path); err != nil {
			return checked{}, err
		}
		kit, err = kitfile.Load(path, file)
	}
	report := checked{File: path, Problems: []checkedProblem{}, Contradictions: []checkedContradiction{}, Ready: checkedReady{[]checkedRig{}, []checkedGap{}}}
	if path == "" {
		report.File = "demo kit"
	}
	if err != nil {
		report.problems(err)
		return report, nil
	}
	unknown := kitfile.CheckAgainst(kit, data.Catalog())
	if file != nil {
		report.problems(kitfile.Place(path, file, unknown))
	} else {
		report.add(unknown)
	}
	report.Valid = len(report.Problems) == 0
	report.contradict(kit)
	report.ready(kit)
	return report, nil
}

func (r *checked) problems(err error) {
	if listed := (*kitfile.Problems)(nil); errors.As(err, &listed) && listed != nil {
		r.add(listed.List)
		r.More = listed.More
	}
}

func (r *checked) add(problems []kitfile.Problem) {
	for _, p := range problems {
		r.Problems = append(r.Problems, checkedProblem{p.Line, p.Column, p.Pointer, p.Where, p.What, p.Do})
	}
}

func (r *checked) contradict(kit fieldkit.Kit) {
	name := func(id string) string {
		if p, ok := kit.Part(id); ok && p.Name != "" {
			return p.Name
		}
		return id
	}
	for _, c := range interchange.New(kit.Parts.Slice(), kit.Links.Slice()).Contradictions() {
		r.Contradictions = append(r.Contradictions, checkedContradiction{c.Block.ID, c.Wanted(), c.Chain.Part, c.Say(name)})
	}
}

func (r *checked) ready(kit fieldkit.Kit) {
	var all []counter.Readiness
	for _, rig := range kit.Rigs {
		summary := checkedRig{Rig: rig.ID, Name: rig.Name}
		states := counter.Ready(kit, data.Catalog(), rig.ID)
		for _, s := range states {
			switch s.State {
			case counter.StateReady:
				summary.Ready++
			case counter.StateNearly:
				summary.Nearly++
			default:
				summary.Not++
			}
		}
		r.Ready.Rigs = append(r.Ready.Rigs, summary)
		all = append(all, states...)
	}
	for i, g := range counter.GapsWorthClosing(all) {
		if i == gapsShown {
			break
		}
		r.Ready.Gaps = append(r.Ready.Gaps, checkedGap{g.Title, g.What, g.Why, g.Part, list(g.Positions)})
	}
}

func (r checked) print(w io.Writer) {
	for _, p := range r.Problems {
		fmt.Fprintln(w, kitfile.Problem{Line: p.Line, Column: p.Column, Where: p.Where, What: p.What, Do: p.Do}.Error(r.File))
	}
	if r.More > 0 {
		fmt.Fprintf(w, "%s: %d more problems\n", r.File, r.More)
	}
	switch n := len(r.Problems) + r.More; {
	case n == 1:
		fmt.Fprintf(w, "%s is not valid: 1 problem\n", r.File)
	case n > 1:
		fmt.Fprintf(w, "%s is not valid: %d problems\n", r.File, n)
	default:
		fmt.Fprintf(w, "%s is valid\n", r.File)
	}
	if len(r.Contradictions) > 0 {
		fmt.Fprintln(w, "\nLinks that contradict each other")
		for _, c := range r.Contradictions {
			fmt.Fprintf(w, "  %s\n", c.Say)
		}
	}
	if len(r.Ready.Rigs) > 0 {
		fmt.Fprintln(w, "\nCounter-ready")
		for _, rig := range r.Ready.Rigs {
			fmt.Fprintf(w, "  %s: %d positions ready, %d nearly, %d not\n", rig.Name, rig.Ready, rig.Nearly, rig.Not)
		}
	}
	if len(r.Ready.Gaps) > 0 {
		fmt.Fprintln(w, "\nWorth finding out before the next trip")
		for _, g := range r.Ready.Gaps {
			fmt.Fprintf(w, "  %s: %s (%s)\n", g.Title, g.What, g.Why)
		}
	}
}
