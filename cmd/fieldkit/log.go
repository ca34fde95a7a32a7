package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

const logHelp = `
fieldkit log [-kit FILE] [-json] [-rig RIG]

Says what a kit's log says: what fails most, what cost most hours, how long parts last
with the interval of that, which spares were used on trips and which were only carried.
RIG is its ID or its name; all rigs if it is left out.

` + kitOptionsHelp + `  -rig RIG    the rig

The status is 1 when the kit has no such rig, or when no failure is in its log.

JSON fields: systems, kinds, modes and trips, each a list of name, failures and
lost_hours; lives, a list of kind, places, failures, way_km, mean_km, low_km and high_km
(9 times in 10 between the two; without a failure mean and high are null, and 19 times
in 20 it is further than low); spares, a list of part, carried_trips, used and
used_trips; packing_lists and trips_done.

Examples:
  fieldkit log
  fieldkit log -rig hobnail -json
`

type jsonTally struct {
	Name     string  `json:"name"`
	Failures int     `json:"failures"`
	Lost     float64 `json:"lost_hours"`
}

type jsonLife struct {
	Kind     string   `json:"kind"`
	Places   int      `json:"places"`
	Failures int      `json:"failures"`
	Way      float64  `json:"way_km"`
	Mean     *float64 `json:"mean_km"`
	Low      float64  `json:"low_km"`
	High     *float64 `json:"high_km"`
}

type jsonSpare struct {
	Part    string `json:"part"`
	Carried int    `json:"carried_trips"`
	Used    int    `json:"used"`
	UsedOn  int    `json:"used_trips"`
}

// says is what log prints as JSON.
type says struct {
	Systems []jsonTally `json:"systems"`
	Kinds   []jsonTally `json:"kinds"`
	Modes   []jsonTally `json:"modes"`
	Trips   []jsonTally `json:"trips"`
	Lives   []jsonLife  `json:"lives"`
	Spares  []jsonSpare `json:"spares"`
	Lists   int         `json:"packing_lists"`
	Done    int         `json:"trips_done"`
}

func logCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("log")
	wanted := opts.String("rig", "", "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	if len(words) > 0 {
		return opts.wrong(stderr, "%q is one word too many", words[0])
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	rig, status := rigNamed(opts, kit, *wanted, stderr)
	if status != done {
		return status
	}
	cat := data.Catalog()
	kinds := findings.Count(kit, cat, findings.ByPartKind, rig)
	if len(kinds) == 0 {
		fmt.Fprintln(stderr, "fieldkit log: no failure is in the log")
		return notDone
	}
	systems, modes := findings.Count(kit, cat, findings.BySystem, rig), findings.Count(kit, cat, findings.ByMode, rig)
	trips, lives := findings.TripHours(kit, rig), findings.ByKind(kit, cat, rig)
	spares, lists, trip := findings.Spares(kit, cat, rig)
	if *opts.json {
		out := says{Systems: talliesOf(systems), Kinds: talliesOf(kinds), Modes: talliesOf(modes), Trips: talliesOf(trips), Lives: []jsonLife{}, Spares: []jsonSpare{}, Lists: lists, Done: trip}
		for _, l := range lives {
			out.Lives = append(out.Lives, jsonLife{l.Kind, l.Places, l.Failures, kilometres(l.Way), someKilometres(l.Mean), kilometres(l.Low), someKilometres(l.High)})
		}
		for _, s := range spares {
			out.Spares = append(out.Spares, jsonSpare{s.Part, s.Trips, s.Used, s.UsedOn})
		}
		printJSON(stdout, out)
		return done
	}
	printTallies(stdout, "What fails most", systems)
	printTallies(stdout, "By kind of part", kinds)
	printTallies(stdout, "What cost most hours", findings.Costliest(kinds))
	printTallies(stdout, "Hours lost per trip", trips)
	fmt.Fprintln(stdout, "How far the rig drives until a part fails at one place")
	for _, l := range lives {
		fmt.Fprintf(stdout, "  %-34s %s\n", l.Name, lifeLine(l))
	}
	fmt.Fprintf(stdout, "Spares (%d of %d trips done kept a packing list)\n", lists, trip)
	for _, s := range spares {
		fmt.Fprintf(stdout, "  %-34s %d used on %d trips, carried on %d\n", s.Name, s.Used, s.UsedOn, s.Trips)
	}
	return done
}

// rigNamed finds a rig by its ID or name; no word is all rigs.
func rigNamed(opts kitOptions, kit fieldkit.Kit, wanted string, stderr io.Writer) (id string, status int) {
	if wanted == "" {
		return "", done
	}
	var names []string
	for _, r := range kit.Rigs {
		if r.ID == wanted || strings.EqualFold(r.Name, wanted) {
			return r.ID, done
		}
		names = append(names, r.ID)
	}
	fmt.Fprintf(stderr, "fieldkit %s: the kit has no rig %q; name one of: %s\n", opts.Name(), wanted, strings.Join(names, ", "))
	return "", notDone
}

func printTallies(w io.Writer, title string, list []findings.Tally) {
	fmt.Fprintln(w, title)
	for _, t := range list {
		fmt.Fprintf(w, "  %-34s %3d  %s\n", t.Name, t.Failures, t.Lost)
	}
}

func lifeLine(l findings.Life) string {
	show := func(d fieldkit.Distance) string { return findings.About(d, fieldkit.Metric) }
	if l.Failures == 0 {
		return "further than " + show(l.Low) + ", 19 times in 20"
	}
	high := "no end known"
	if l.High > 0 {
		high = show(l.High)
	}
	return fmt.Sprintf("about %s (9 times in 10: %s to %s), %d failed", show(l.Mean), show(l.Low), high, l.Failures)
}

func talliesOf(list []findings.Tally) []jsonTally {
	out := []jsonTally{}
	for _, t := range list {
		out = append(out, jsonTally{t.Name, t.Failures, figure(t.Lost.Hours())})
	}
	return out
}

func kilometres(d fieldkit.Distance) float64 { return figure(float64(d) / float64(fieldkit.Kilometre)) }

// someKilometres is nothing where a distance is not known.
func someKilometres(d fieldkit.Distance) *float64 {
	if d == 0 {
		return nil
	}
	x := kilometres(d)
	return &x
}
