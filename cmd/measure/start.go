package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"slices"
	"strings"
	"time"

	"trailfieldkit/cmd/internal/chromium"
)

// moments notes when the page reaches each state, in milliseconds after the
// navigation began: the first screen drawn, and a kit shown.
const moments = `
globalThis.moments = {};
new MutationObserver(() => {
	const note = (name, reached) => { if (reached && !(name in moments)) moments[name] = performance.now(); };
	note('running', document.documentElement?.dataset.start === 'running');
	note('open', document.querySelector('#work[data-phase=open]'));
}).observe(document, { subtree: true, childList: true, attributes: true });
`

// plainPaint is when a plain page was first painted: the first paint of all, if the
// start script found the page there, which waits for that paint. It is asked for
// afterwards: a script put in before would be what is measured.
const plainPaint = `(performance.getEntriesByName('fieldkit-shown').length && performance.getEntriesByName('fieldkit-plain').length
	&& performance.getEntriesByName('first-contentful-paint')[0]?.startTime || 0)`

func moment(name string) string { return fmt.Sprintf("(moments[%q] || 0)", name) }

// settling is how long a browser just started loads pages of its own.
const settling = 2500 * time.Millisecond

// trial is one way of starting that is repeated.
type trial struct {
	name    string
	when    string // JavaScript: milliseconds after the navigation began, 0 while not reached
	from    source
	profile string
	address string
	demo    bool                  // with the demo kit chosen
	open    string                // path that is opened; empty means the first screen
	times   map[float64][]float64 // milliseconds by slowness of the processor
}

var slowness = []float64{1, 4}

// printStarts measures the start without signal: a new browser process each time, on
// a profile that has stored the program before, with the server stopped. Subjects
// take turns, so that what else the computer does falls on all alike.
func printStarts(ctx context.Context, out io.Writer, say func(string), bare, program subject, runs int) error {
	trials := []*trial{
		{name: "bare page", from: bare.source(), when: moment("running")},
		{name: "program, first screen", from: program.source(), when: moment("running")},
		{name: "program, demo kit on the screen", from: program.source(), when: moment("open"), demo: true},
		{name: "plain page of a card readable", from: program.source(), when: plainPaint, demo: true, open: "counter/card?part=pads-front"},
		{name: "one line of text from a worker", from: oneLine, when: firstPaint},
	}
	for _, t := range trials {
		say("storing the " + t.name)
		dir, err := os.MkdirTemp("", "fieldkit-measure-")
		if err != nil {
			return err
		}
		defer os.RemoveAll(dir)
		t.profile, t.times = dir, map[float64][]float64{}
		if err := t.warm(ctx); err != nil {
			return fmt.Errorf("%s: %w", t.name, err)
		}
	}
	for run := range runs {
		for _, slow := range slowness {
			say(fmt.Sprintf("start %d of %d, processor slowed %g times", run+1, runs, slow))
			for _, t := range trials {
				took, err := t.start(ctx, slow)
				if err != nil {
					return fmt.Errorf("%s: %w", t.name, err)
				}
				t.times[slow] = append(t.times[slow], took)
			}
		}
	}
	fmt.Fprintf(out, "%-34s %12s %12s   %s\n", "start without signal, ms", "processor", "4x slower",
		fmt.Sprintf("median of %d (least to most)", runs))
	for _, t := range trials {
		fmt.Fprintf(out, "%-34s %12.0f %12.0f   (%s) (%s)\n", t.name, median(t.times[1]), median(t.times[4]),
			spread(t.times[1]), spread(t.times[4]))
	}
	fmt.Fprintf(out, "%-34s %12.2f %12.2f\n\n", fmt.Sprintf("ratio of first screens (goal %.2f)", startGoal),
		median(trials[1].times[1])/median(trials[0].times[1]), median(trials[1].times[4])/median(trials[0].times[4]))
	fmt.Fprintf(out, "%-34s %12s %12.0f\n", fmt.Sprintf("plain page, ms (goal %d at 4x slower)", plainGoal), "", median(trials[3].times[4]))
	fmt.Fprintf(out, "%-34s %12.2f %12.2f\n\n", "ratio of plain page to one line",
		median(trials[3].times[1])/median(trials[4].times[1]), median(trials[3].times[4])/median(trials[4].times[4]))
	return nil
}

// warm visits the subject once with a server and stores it.
func (t *trial) warm(ctx context.Context) error {
	handler, err := t.from.handler()
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return err
	}
	server := &http.Server{Handler: handler}
	go server.Serve(listener)
	defer server.Close()
	t.address = "http://" + listener.Addr().String() + "/"
	b, err := chromium.Start(ctx, chromium.Options{Phone: true, Profile: t.profile})
	if err != nil {
		return err
	}
	defer b.Close() // gently: everything reaches the disk
	page, err := b.Open(t.address)
	if err != nil {
		return err
	}
	if err := page.WaitFor("the stored copy", t.from.stored); err != nil {
		return err
	}
	if !t.demo {
		return nil
	}
	if err := page.Tap("demo kit"); err != nil {
		return err
	}
	if err := page.WaitFor("the demo kit", "document.querySelector('#work[data-phase=open]')"); err != nil || t.open == "" {
		return err
	}
	if err := page.Goto(t.address + t.open); err != nil {
		return err
	}
	return page.WaitFor("the plain page", fmt.Sprintf("fieldkitPlain.list().then((list) => list.some((page) => page.path === 'plain/' + %q))", t.open))
}

// start opens the stored copy in a new process and returns how long it took.
func (t *trial) start(ctx context.Context, slow float64) (float64, error) {
	b, err := chromium.Start(ctx, chromium.Options{Phone: true, Profile: t.profile})
	if err != nil {
		return 0, err
	}
	defer b.Close()
	page, err := b.Blank()
	if err != nil {
		return 0, err
	}
	if strings.Contains(t.when, "moments[") {
		err = page.OnEachDocument(moments)
	}
	if err := errors.Join(err, page.SlowCPU(slow)); err != nil {
		return 0, err
	}
	time.Sleep(settling)
	if err := page.Goto(t.address + t.open); err != nil {
		return 0, err
	}
	if err := page.WaitFor(t.name, t.when+" > 0"); err != nil {
		return 0, err
	}
	return chromium.Eval[float64](page, t.when)
}

func median(times []float64) float64 {
	sorted := slices.Sorted(slices.Values(times))
	if len(sorted) == 0 {
		return 0
	}
	middle := len(sorted) / 2
	if len(sorted)%2 == 1 {
		return sorted[middle]
	}
	return (sorted[middle-1] + sorted[middle]) / 2
}

func spread(times []float64) string {
	return fmt.Sprintf("%.0f to %.0f", slices.Min(times), slices.Max(times))
}
