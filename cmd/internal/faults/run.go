package faults

import (
	"context"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"sync"
	"time"
)

// Options say how much is done. The zero value is the short run, half a minute.
type Options struct {
	Long bool
	Only string    // letters of the classes to run; empty means all
	Log  io.Writer // told how far it is; may be nil
}

// amounts of a run.
type amounts struct {
	kills, snapshotKills int
	every                int // of the positions of a scripted day, one in so many
	screens              int // faults tried through the app's screens
	damages              int
	tabs                 time.Duration
}

var (
	short = amounts{kills: 4, snapshotKills: 1, every: 29, screens: 3, damages: 2_000, tabs: 2 * time.Second}
	long  = amounts{kills: 500, snapshotKills: 60, every: 1, screens: 90, damages: 60_000, tabs: time.Minute}
)

// Run goes through the classes. The error is of the harness itself: a browser that does
// not start, a program that does not compile. What the faults did is in the report.
func Run(ctx context.Context, o Options) (Report, error) {
	n := short
	if o.Long {
		n = long
	}
	s, err := newSite(ctx)
	if err != nil {
		return nil, err
	}
	defer s.stop()
	report := make(Report, len(parts))
	faults := make([]error, len(lanes))
	var wg sync.WaitGroup
	for lane, letters := range lanes {
		wg.Go(func() { faults[lane] = o.runLane(ctx, s, n, letters, report) })
	}
	wg.Wait()
	return slices.DeleteFunc(report, func(c *Class) bool { return c == nil }), errors.Join(faults...)
}

// parts are the classes in the order of the report.
var parts = []struct {
	letter string
	run    func(context.Context, *site, amounts) (*Class, error)
}{
	{"a", killed}, {"b", callsNatively}, {"b", callsInChromium}, {"b", callsUnderScreens}, {"c", damages},
	{"d", tabs}, {"d", screensAgree}, {"d", upgrade}, {"e", clocks}, {"f", photoTooMuch}, {"g", killedAtSnapshots}, {"g", snapshotsRefused},
}

// lanes are run beside each other: most of the time is spent waiting.
var lanes = []string{"ag", "b", "cdef"}

func (o Options) runLane(ctx context.Context, s *site, n amounts, letters string, report Report) error {
	for i, part := range parts {
		if !strings.Contains(letters, part.letter) || o.Only != "" && !strings.Contains(o.Only, part.letter) {
			continue
		}
		began := time.Now()
		c, err := part.run(ctx, s, n)
		if err != nil {
			return fmt.Errorf("class %s: %w", part.letter, err)
		}
		c.Note = strings.TrimSuffix(fmt.Sprintf("%.1f s; %s", time.Since(began).Seconds(), c.Note), "; ")
		report[i] = c
		if o.Log != nil {
			fmt.Fprint(o.Log, Report{c}.Table())
		}
	}
	return nil
}
