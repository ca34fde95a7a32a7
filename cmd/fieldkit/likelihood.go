package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/spares"
)

const likelihoodHelp = `
fieldkit likelihood [-kit FILE] [-json] [-trip TRIP] POSITION

Says how likely a position is to fail on a trip, and what that rests on: wear
readings of the part that is fitted now, its age, the crew's log of failures, or the
part kind's starting guess, in this order. POSITION is its ID or part of its name;
TRIP is its ID or part of its name, and the next trip that is not done if left out.

` + kitOptionsHelp + `  -trip TRIP  the trip

The status is 1 when the kit has no such position or trip, or when nothing is known
of the position's part kind, and 2 when several are meant.

JSON fields: probability, that it fails at least once; evidence: wear readings, age,
own log, own figure or starting guess; interval, the two ends that the probability
lies between 9 times in 10; detail, in words; expected, failures on the trip; again,
the probability of two or more; guessed: most of that rests on a starting guess;
position and trip, their IDs.

Examples:
  fieldkit likelihood hobnail-front-brake-pads
  fieldkit likelihood -trip 2026-12-widows-rib -json wicket-track-bar-bush
`

// likely is what likelihood prints as JSON.
type likely struct {
	Probability float64    `json:"probability"`
	Evidence    string     `json:"evidence"`
	Interval    [2]float64 `json:"interval"`
	Detail      string     `json:"detail"`
	Expected    float64    `json:"expected"`
	Again       float64    `json:"again"`
	Guessed     bool       `json:"guessed"`
	Position    string     `json:"position"`
	Trip        string     `json:"trip"`
}

func likelihoodCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("likelihood")
	wantedTrip := opts.String("trip", "", "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	wanted := strings.TrimSpace(strings.Join(words, " "))
	if wanted == "" {
		return opts.wrong(stderr, "no position is named")
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	trip, status := oneTrip(opts, kit, *wantedTrip, stderr)
	if status != done {
		return status
	}
	position, status := onePosition(opts, kit, wanted, stderr)
	if status != done {
		return status
	}
	rig, _ := kit.RigOf(position)
	if !slices.Contains(trip.Rigs, rig.ID) {
		fmt.Fprintf(stderr, "fieldkit likelihood: %s does not go on %s; name another trip\n", rig.Name, trip.Name)
		return notDone
	}
	l := spares.LikelihoodOf(kit, data.Catalog(), trip, position)
	if l.Expected <= 0 {
		fmt.Fprintf(stderr, "fieldkit likelihood: nothing is known of how parts of kind %q fail, or %s has no distance\n", position.Kind, trip.Name)
		return notDone
	}
	if *opts.json {
		printJSON(stdout, likely{
			figure(l.Probability), string(l.Source), [2]float64{figure(l.Interval[0]), figure(l.Interval[1])},
			strings.Join(append([]string{l.Evidence}, l.Detail...), "; "), figure(l.Expected), figure(l.Again), l.Guessed(), position.ID, trip.ID,
		})
		return done
	}
	fmt.Fprintf(stdout, "%s of %s on %s\n", position.Title(), rig.Name, trip.Name)
	fmt.Fprintf(stdout, "  fails with a probability of %s, 9 times in 10 between %s and %s\n", spares.Guess(spares.Percent(l.Probability), l.Guessed()), spares.Percent(l.Interval[0]), spares.Percent(l.Interval[1]))
	fmt.Fprintf(stdout, "  %s\n", l.Evidence)
	for _, d := range l.Detail {
		fmt.Fprintf(stdout, "    %s\n", d)
	}
	if l.Due {
		fmt.Fprintln(stdout, "  it is likely at its limit before the trip is over: change it before leaving")
	}
	return done
}

// oneTrip finds the trip meant; a status other than done has been said.
func oneTrip(opts kitOptions, kit fieldkit.Kit, wanted string, stderr io.Writer) (fieldkit.Trip, int) {
	trips := tripsMeant(kit, wanted)
	switch {
	case len(trips) > 1:
		names := make([]string, len(trips))
		for i, t := range trips {
			names[i] = fmt.Sprintf("%s (%s)", t.Name, t.ID)
		}
		return fieldkit.Trip{}, opts.wrong(stderr, "%q may be any of: %s", wanted, strings.Join(names, ", "))
	case len(trips) == 0 && wanted == "":
		fmt.Fprintf(stderr, "fieldkit %s: the kit has no trip ahead; name one that is done, or add one\n", opts.Name())
		return fieldkit.Trip{}, notDone
	case len(trips) == 0:
		fmt.Fprintf(stderr, "fieldkit %s: the kit has no trip %q; name one of: %s\n", opts.Name(), wanted, tripNames(kit))
		return fieldkit.Trip{}, notDone
	}
	return trips[0], done
}

// onePosition finds the position of that ID, else the one with the words in its name.
func onePosition(opts kitOptions, kit fieldkit.Kit, wanted string, stderr io.Writer) (fieldkit.Position, int) {
	if p, ok := kit.Position(wanted); ok {
		return p, done
	}
	var meant []fieldkit.Position
	for _, p := range kit.Positions.All() {
		if strings.Contains(strings.ToLower(p.Title()), strings.ToLower(wanted)) {
			meant = append(meant, p)
		}
	}
	switch len(meant) {
	case 0:
		fmt.Fprintf(stderr, "fieldkit %s: the kit has no position %q\n", opts.Name(), wanted)
		return fieldkit.Position{}, notDone
	case 1:
		return meant[0], done
	}
	ids := make([]string, len(meant))
	for i, p := range meant {
		ids[i] = p.ID
	}
	return fieldkit.Position{}, opts.wrong(stderr, "%q may be any of: %s", wanted, strings.Join(ids, ", "))
}
