package starts

import (
	"context"
	"errors"
	"fmt"
	"math/rand/v2"
	"slices"
	"sync"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/web"
)

// Options say how much is tried.
type Options struct {
	Long bool
	Seed uint64       // of the bytes drawn by chance
	Way  string       // only this way of breaking; empty for all
	File string       // only this file; empty for all
	Say  func(Report) // told after each case; may be nil
}

const (
	lanes   = 2  // tabs at work at the same time, on first visits and on updates each
	anyLong = 12 // bytes by chance, in the long run, of each file and way
)

// Run tries every case. The error is of the browser or the server, not of a case.
func Run(ctx context.Context, o Options) (Report, error) {
	first, err := firstEdition()
	if err != nil {
		return Report{}, err
	}
	chance := rand.New(rand.NewPCG(o.Seed, 1))
	f, err := newField()
	if err != nil {
		return Report{}, err
	}
	defer f.server.Close()
	b, err := chromium.Start(ctx, chromium.Options{Phone: true})
	if err != nil {
		return Report{}, err
	}
	defer b.Kill()
	list := cases(first, o.Long, anyLong, chance)
	visits := slices.Concat(list, lateCases(first, chance))
	other := func(c one) bool {
		return o.Way != "" && c.way.name != o.Way || o.File != "" && c.file != o.File
	}
	list, visits = slices.DeleteFunc(list, other), slices.DeleteFunc(visits, other)
	if !o.Long { // a first visit costs more: every third, so that each file and each way has its turn
		all := visits
		visits = nil
		for i, c := range all {
			if (i%len(ways)+i/len(ways))%3 == 0 {
				visits = append(visits, c)
			}
		}
	}
	t := &trial{field: f, browser: b, first: first, say: o.Say}
	list, visits = shuffled(list, chance), shuffled(visits, chance)
	updated := make(chan error)
	go func() { updated <- t.share(ctx, list, "update", t.updateLane) }()
	err = errors.Join(t.share(ctx, visits, "first visit", t.visitLane), <-updated)
	return t.report, err
}

// shuffled brings cases into an order by chance: a run that is broken off has tried some
// of everything.
func shuffled(list []one, chance *rand.Rand) []one {
	list = slices.Clone(list)
	chance.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
	return list
}

type trial struct {
	field   *field
	browser *chromium.Browser
	first   web.Site

	mu      sync.Mutex
	edition int
	report  Report
	say     func(Report)
}

// nextEdition is a site that differs from all before in every file.
func (t *trial) nextEdition() web.Site {
	t.mu.Lock()
	t.edition++
	n := t.edition
	t.mu.Unlock()
	return edition(t.first, n)
}

func (t *trial) note(phase string, c one, came came, wrong string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	t.report.add(phase, c, came, wrong)
	if t.say != nil {
		t.say(t.report)
	}
}

// share lets lanes take cases until none is left.
func (t *trial) share(ctx context.Context, list []one, phase string, lane func(context.Context, <-chan one) error) error {
	todo := make(chan one, len(list))
	for _, c := range list {
		todo <- c
	}
	close(todo)
	ended := make(chan error, lanes)
	for range lanes {
		go func() {
			ended <- lane(ctx, todo)
		}()
	}
	var fault error
	for range lanes {
		if err := <-ended; err != nil && fault == nil {
			fault = fmt.Errorf("%s: %w", phase, err)
		}
	}
	if fault == nil {
		fault = ctx.Err()
	}
	return fault
}
