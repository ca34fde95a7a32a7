package main

import (
	"fmt"
	"io"
	"time"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares/optimum"
	"trailfieldkit/fieldkit/spares/problemfile"
)

const problemHelp = `
A bare problem (-problem FILE) is one JSON object of one of two forms; fields that are
not named here are ignored:

  linear: {"limits": {NAME: amount, …}, "positions": [{"id", "p", "loss", "tools": [ids]}],
    "items": [{"id", NAME: amount, …, "copies", "fits": [position ids]}],
    "tools": [{"id", NAME: amount, …}]}
    Each position fails at most once, and one carried copy covers every position it fits.
  pooled: {"limits", "groups": [{"id", "position_rates": […] or "lambda", "loss",
    NAME: amount, …, "copies", "tools": [ids]}], "tools"}
    Poisson demand: k copies with all the group's tools save loss × E[min(N, k)].

One to ten limits of any name; a missing amount is 0. JSON fields: value; bound: no choice
is worth more; proved: the value is the optimum, within 1e-9 of it; items (id, copies);
tools (ids); used (by limit); nodes of the search; seconds. Without -time it searches
until the proof.
`

// packProblem solves a bare problem.
func packProblem(opts kitOptions, path string, seconds float64, stdout, stderr io.Writer) int {
	text, err := readFile(path)
	if err != nil {
		return complain(stderr, "pack", err)
	}
	from := time.Now()
	task, err := problemfile.Read(text)
	if err != nil {
		if e, ok := err.(*fieldkit.Error); ok {
			err = e.At(path)
		}
		return complain(stderr, "pack", err)
	}
	var o optimum.Options
	if seconds > 0 {
		last := time.Duration(seconds * float64(time.Second))
		o.KeepGoing = func() bool { return time.Since(from) < last }
	}
	answer := task.Solve(o)
	answer.Seconds = time.Since(from).Seconds()
	if *opts.json {
		printJSON(stdout, answer)
		return done
	}
	fmt.Fprintf(stdout, "value %.9g, ", answer.Value)
	if answer.Proved {
		fmt.Fprintln(stdout, "proved to be the best")
	} else {
		fmt.Fprintf(stdout, "the best possible is at most %.9g\n", answer.Bound)
	}
	for _, it := range answer.Items {
		fmt.Fprintf(stdout, "  %d x %s\n", it.Copies, it.ID)
	}
	for _, id := range answer.Tools {
		fmt.Fprintf(stdout, "  tool %s\n", id)
	}
	return done
}
