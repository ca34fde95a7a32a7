package main

import (
	"context"
	"fmt"
	"io"
	"slices"
	"time"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
	"trailfieldkit/fieldkit/findings"
)

const dueHelp = `
fieldkit due [-kit FILE] [-json | -ics] [-on DAY]

Lists what is due: services by distance, engine hours, months and deep water, and parts
whose wear readings come to their limit. What is due now comes first.

` + kitOptionsHelp + `  -ics        print a calendar (iCalendar, RFC 5545) of what has a day
  -on DAY     as of that day: 2026-05-14 (today if left out)

Days that follow from distance or engine hours are reckoned from how much the rig was
driven in the last year.

The status is 1 when a calendar is asked for and nothing has a day.

JSON fields: due, a list of rig, name, state (due now, due soon, later, never written
down), by (a day, or empty), reckoned, left_km and left_hours (null where they do not
count), and words.

Examples:
  fieldkit due
  fieldkit due -ics >service.ics
`

// jsonDue is one thing that is due.
type jsonDue struct {
	Rig      string   `json:"rig"`
	Name     string   `json:"name"`
	State    string   `json:"state"`
	By       string   `json:"by"`
	Reckoned bool     `json:"reckoned"`
	LeftKm   *float64 `json:"left_km"`
	LeftH    *int     `json:"left_hours"`
	Words    string   `json:"words"`
}

func dueCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("due")
	ics, on := opts.Bool("ics", false, ""), opts.String("on", "", "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	if len(words) > 0 {
		return opts.wrong(stderr, "%q is one word too many", words[0])
	}
	day, stamp, ok := asOf(opts, *on, stderr)
	if !ok {
		return askedWrong
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	list := findings.DueOn(kit, data.Catalog(), day)
	switch {
	case *ics && !slices.ContainsFunc(list, func(d findings.Due) bool { return !d.By.IsZero() }):
		fmt.Fprintln(stderr, "fieldkit due: nothing has a day, and a calendar may not be empty (RFC 5545, 3.4)")
		return notDone
	case *ics:
		_, _ = stdout.Write(export.DueCalendar(kit, list, stamp, fieldkit.Metric)) // a closed pipe is the reader's word
	case *opts.json:
		out := []jsonDue{}
		for _, d := range list {
			one := jsonDue{Rig: d.Rig, Name: d.Name, State: string(d.State), By: d.By.String(), Reckoned: d.Reckoned, Words: d.Words(fieldkit.Metric)}
			if d.HasLeft {
				left := kilometres(d.Left)
				one.LeftKm = &left
			}
			if d.HasHours {
				one.LeftH = &d.HoursLeft
			}
			out = append(out, one)
		}
		printJSON(stdout, struct {
			Due []jsonDue `json:"due"`
		}{out})
	default:
		state := findings.DueState("")
		for _, d := range list {
			if d.State != state {
				state = d.State
				fmt.Fprintln(stdout, state)
			}
			fmt.Fprintf(stdout, "  %s: %s: %s\n", d.RigName, d.Name, d.Words(fieldkit.Metric))
		}
	}
	return done
}

// asOf reads the day that is asked for, else takes today; the moment goes with it.
func asOf(opts kitOptions, on string, stderr io.Writer) (day fieldkit.Date, stamp fieldkit.Moment, ok bool) {
	now := time.Now()
	if on == "" {
		return fieldkit.DateOf(now), fieldkit.Moment{Time: now.UTC()}, true
	}
	day, err := fieldkit.ParseDate(on)
	if err != nil {
		opts.wrong(stderr, "%v", err)
		return day, stamp, false
	}
	return day, fieldkit.Moment{Time: time.Date(day.Year, day.Month, day.Day, 12, 0, 0, 0, time.UTC)}, true
}
