package main

import (
	"context"
	"fmt"
	"io"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
	"trailfieldkit/fieldkit/plainpage"
)

const reportHelp = `
fieldkit report [-kit FILE] [-on DAY] TRIP

Writes the report of a trip as one HTML page to print: who went, what broke and what
mended it, what was measured, what was used and is to buy, what is due after it. TRIP is
its ID or part of its name.

  -kit FILE   the kit file to work on (the demo kit if left out)
  -on DAY     what is due as of that day: 2026-05-14 (today if left out)

Example:
  fieldkit report 2024-05-widows-rib >report.html
`

func reportCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("report")
	on := opts.String("on", "", "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	if len(words) != 1 {
		return opts.wrong(stderr, "one trip is to be named")
	}
	day, stamp, ok := asOf(opts, *on, stderr)
	if !ok {
		return askedWrong
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	trip, status := oneTrip(opts, kit, words[0], stderr)
	if status != done {
		return status
	}
	page := plainpage.TripReport(findings.ReportOf(kit, data.Catalog(), trip, day, fieldkit.Metric), "", fieldkit.Metric)
	fmt.Fprint(stdout, plainpage.Frame{KitName: kit.Name, Demo: *opts.kit == ""}.Alone(page, stamp))
	return done
}
