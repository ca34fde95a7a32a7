package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/spares"
)

const packHelp = `
fieldkit pack [-kit FILE] [-json] [-inch] [-again] [TRIP]
fieldkit pack -problem FILE [-json] [-time S]

Plans what to carry on a trip: spares, with the tools and consumables their repairs
need, so that as little time as possible is likely to be lost within the trip's
limits of weight, space and money. TRIP is its ID or part of its name; without it
the next trip that is not done. A packing list that the kit already has for the trip
keeps its pinned lines, its bans and its ticks. Nothing is written to the kit file.

` + kitOptionsHelp + `  -inch       weights in pounds first (kilograms if left out)
  -again      plan again without each line, and for what was just left out: what that
              costs once the rest is chosen anew, and how much weight, money or space
              more would bring it in (takes some seconds)
  -problem FILE  solve a bare problem instead of a trip's
  -time S     end a bare problem's search after so many seconds, with the gap

The status is 1 when the kit has no such trip, and 2 when several are meant.

JSON fields: trip (id, name); value, lostWithout and lostWith: expected hours the
list saves, and those lost with nothing on board and with the list; bound: hours that
no list within the limits can save more of; proved: none saves more than this one; lines (type, id,
name, count, bin, mass, volume, stock, buy, pinned, packed, uses: pieces expected to
be used, saves: hours that leaving it at home would cost, share: of what the list
saves, each failure shared equally among all that its repair takes, 0 to 1, guessed:
some of that rests on a starting guess, typical: its weight or space is that of its
kind, not its own, rig: that carries it, again (with -again):
costs, most and proved: hours that the best list without it saves less; why, evidence, repairs,
covers: position, title, rig, fitted, grade, changes, proven, worth: share of the hours that such a fix
saves, less than 1 with changes or where it was only said or seen to fit; expected: failures on
the trip, probability, evidence, uses, hoursWithout, hoursWith, town); bins (id,
name, rig, mass, massLimit, volume, volumeLimit, lines: their ids); rigs (id, name,
mass, massLimit, volume, volumeLimit, lines: their ids); friends: what rides in friends'
rigs (type, id, name, count, who, saves, share, guessed, why); home (without, with:
probability that every rig drives home by itself, interval, hours lost on average,
hoursInterval; intervals hold 9 times in 10); totals (lines,
mass, volume, spend, unpriced, unweighed, over: in words); shopping (type, id, name,
for, count, stock, cost, stores); leftOut (type, id, name, adds: hours, why, needs:
ids, and of the first of them with -again entry: mass, money or volume more that brings it in, costs:
hours that taking it along now would cost, proved: nothing less does); notes. Masses are in kg, volumes in L, both as value and unit; a limit that is
not set is left out.
` + problemHelp + `
Examples:
  fieldkit pack
  fieldkit pack -kit kit.json long bench
  fieldkit pack -json 2026-12-widows-rib
  fieldkit pack -problem problem.json -json -time 2
`

func packCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("pack")
	inch := opts.Bool("inch", false, "")
	deep := opts.Bool("again", false, "")
	problem := opts.String("problem", "", "")
	seconds := opts.Float64("time", 0, "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	switch {
	case *problem != "" && (len(words) > 0 || *opts.kit != "" || *inch || *deep):
		return opts.wrong(stderr, "a bare problem has no kit, no trip and no pounds")
	case *problem == "" && *seconds != 0:
		return opts.wrong(stderr, "-time is for -problem")
	case *seconds < 0 || *seconds > 1e6 || math.IsNaN(*seconds):
		return opts.wrong(stderr, "-time %v is no span of seconds", *seconds)
	case *problem != "":
		return packProblem(opts, *problem, *seconds, stdout, stderr)
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	wanted := strings.TrimSpace(strings.Join(words, " "))
	trip, status := oneTrip(opts, kit, wanted, stderr)
	if status != done {
		return status
	}
	w := weighing{Proposal: spares.Plan(kit, data.Catalog(), repair.WithOwn(data.Guides(), kit), trip, keptFor(kit, trip))}
	w.with, w.without = spares.Outcomes(kit, data.Catalog(), repair.WithOwn(data.Guides(), kit), trip, w.Pack, rand.New(rand.NewPCG(1, 2)))
	if *deep {
		w.planAgain(kit, trip)
	}
	if *opts.json {
		printJSON(stdout, packAsJSON(kit, trip, w))
		return done
	}
	first := fieldkit.Metric
	if *inch {
		first = fieldkit.Inch
	}
	printPlan(stdout, kit, w, first)
	return done
}

// tripsMeant returns the trip of that ID, else those with the words in their names;
// without words the next one that is not done, those without a date last.
func tripsMeant(kit fieldkit.Kit, words string) (meant []fieldkit.Trip) {
	if t, ok := kit.Trip(words); ok {
		return []fieldkit.Trip{t}
	}
	for _, t := range kit.Trips {
		switch {
		case words != "" && strings.Contains(strings.ToLower(t.Name), strings.ToLower(words)):
			meant = append(meant, t)
		case words == "" && !t.Done && (len(meant) == 0 || sooner(t, meant[0])):
			meant = []fieldkit.Trip{t}
		}
	}
	return meant
}

func sooner(a, b fieldkit.Trip) bool {
	return !a.Start.IsZero() && (b.Start.IsZero() || a.Start.Before(b.Start))
}

func tripNames(kit fieldkit.Kit) string {
	if len(kit.Trips) == 0 {
		return "none, it has no trips"
	}
	var names []string
	for _, t := range kit.Trips {
		names = append(names, t.Name)
	}
	return strings.Join(names, ", ")
}

// keptFor returns the packing list that the kit holds for a trip, or nil.
func keptFor(kit fieldkit.Kit, trip fieldkit.Trip) *fieldkit.Pack {
	for i := range kit.Packs {
		if kit.Packs[i].Trip == trip.ID {
			return &kit.Packs[i]
		}
	}
	return nil
}

// weighing is a plan with what planning it again says.
type weighing struct {
	spares.Proposal
	with, without spares.Outcome
	drops         []spares.Drop // by line, if asked for
	entry         *spares.Entry // of the first thing left out
}

func (w *weighing) planAgain(kit fieldkit.Kit, trip fieldkit.Trip) {
	again := spares.PlanAgain(kit, data.Catalog(), repair.WithOwn(data.Guides(), kit), trip, keptFor(kit, trip), w.Pack, nil)
	for _, l := range w.Lines {
		w.drops = append(w.drops, again.Without(spares.RefOf(l.Line), nil))
	}
	if i := w.JustLeftOut(); i >= 0 {
		e := again.Entry(w.LeftOut[i].Ref, nil)
		w.entry = &e
	}
}

func printPlan(w io.Writer, kit fieldkit.Kit, p weighing, first fieldkit.System) {
	fmt.Fprint(w, spares.PackText(kit, data.Catalog(), p.Pack, first))
	fmt.Fprintf(w, "\nExpected to be lost on this trip: %s with nothing on board, %s with this list, which saves %s\n",
		spares.Guess(p.Bare.String(), p.Guessed), spares.Guess(p.Left.String(), p.Guessed), spares.Guess(p.Value.String(), p.Guessed))
	if p.Proved {
		fmt.Fprintln(w, "Proved: no list within the limits saves more, less a minute for packing each piece")
	} else {
		fmt.Fprintf(w, "Not proved to be the best: no list within the limits saves more than %s\n", spares.Guess(p.Bound.String(), p.Guessed))
	}
	fmt.Fprintf(w, "With nothing on board: %s\nWith this list: %s\n", p.without.Words(p.Guessed), p.with.Words(p.Guessed))
	if len(p.Lines) > 0 {
		fmt.Fprintln(w, "\nWhat each line is for")
	}
	for i, l := range p.Lines {
		fmt.Fprintf(w, "  %s: %s; %s of the value\n", l.Name, l.Line.Why, spares.Guess(spares.Percent(l.Share), l.Guessed))
		if p.drops != nil {
			fmt.Fprintf(w, "    %s\n", p.drops[i].Words(l.Guessed))
		}
		for _, c := range l.Covers {
			fmt.Fprintf(w, "    at %s, %s: %s\n", c.Rig, c.Title, fitOf(c))
		}
	}
	if len(p.LeftOut) > 0 {
		fmt.Fprintln(w, "\nNot on the list")
		for i, l := range p.LeftOut {
			fmt.Fprintf(w, "  %s, would save %s: %s\n", l.Name, spares.Guess(l.Adds.String(), l.Guessed), l.Text(first))
			if p.entry != nil && i == p.JustLeftOut() {
				fmt.Fprintf(w, "    %s\n", p.entry.Words(first, l.Guessed))
			}
		}
	}
	if len(p.Notes) > 0 {
		fmt.Fprintln(w, "\nTo know")
		for _, n := range p.Notes {
			fmt.Fprintf(w, "  %s\n", n)
		}
	}
}

// fitOf says how a spare fits at one place and what it spares there.
func fitOf(c spares.Cover) string {
	fit := string(c.Grade)
	if c.Proven != "" {
		fit += ", " + string(c.Proven)
	}
	if len(c.Changes) > 0 {
		fit += " (" + strings.Join(c.Changes, "; ") + ")"
	}
	without := spares.Guess(c.Without.String(), c.Guessed) + " without it"
	if c.Town != "" {
		without += ", by way of " + c.Town
	}
	return fmt.Sprintf("%s; %s, %s with it", fit, without, spares.Guess(c.With.String(), c.Guessed))
}
