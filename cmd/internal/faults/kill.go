package faults

import (
	"bytes"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"time"

	"trailfieldkit/cmd/internal/chromium"
)

// killed is class a: three databases of one page are written to without pause, and the
// browser is killed at a random instant after an action has begun.
func killed(ctx context.Context, s *site, n amounts) (*Class, error) {
	return s.kills(ctx, &Class{Name: "a  killed inside commits"}, n.kills, "trying", "")
}

// killedAtSnapshots is the first half of class g: as class a, with a snapshot after
// every action, and the instant counted from the beginning of a snapshot.
func killedAtSnapshots(ctx context.Context, s *site, n amounts) (*Class, error) {
	return s.kills(ctx, &Class{Name: "g  killed while snapshots are renewed"}, n.snapshotKills, "snapshot", "snapshots")
}

const (
	databases = 3  // written to at once
	sameData  = 12 // kills before a fresh set of databases is begun
)

func (s *site) kills(ctx context.Context, c *Class, kills int, mark, how string) (*Class, error) {
	profile, remove, err := newProfile()
	if err != nil {
		return nil, err
	}
	defer remove()
	rnd := rand.New(rand.NewPCG(uint64(time.Now().UnixNano()), 1))
	underWay, writes := 0, 0
	most := 2 * kills // one between two actions does not count
	names := func(round int) (list []string) {
		for i := range databases {
			list = append(list, fmt.Sprintf("%s-%d-%d", mark, round/sameData, i))
		}
		return list
	}
	for round := 0; round <= most; round++ {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		b, err := chromium.Start(ctx, chromium.Options{Profile: profile})
		if err != nil {
			return nil, err
		}
		page, err := s.openBench(b)
		if err != nil {
			b.Kill()
			return nil, err
		}
		last := names(max(round-1, 0)) // of which the kill before says how much must be there
		for _, name := range last {
			a, err := order(page, "look", name)
			if err != nil {
				a.Err = err.Error()
			}
			s.judge(c, name, a)
		}
		if err := gaveUp(c, page); err != nil {
			b.Kill()
			return nil, err
		}
		if c.Cases == kills || round == most {
			writes += strict(c, page)
			b.Kill()
			break
		}
		s.forget()
		for i, name := range names(round) {
			s.mu.Lock()
			from := s.ledgerOf(name).last + 1
			s.mu.Unlock()
			start := fmt.Sprintf("bench('write', %q, '%d', %q)", name, from, how)
			if err := page.Run("(setTimeout(() => " + start + fmt.Sprintf(", %d))", i*3)); err != nil {
				b.Kill()
				return nil, err
			}
		}
		if err := s.awaitMark(ctx, c, mark, databases+rnd.IntN(12)); err != nil {
			b.Kill()
			return nil, err
		}
		time.Sleep(time.Duration(rnd.IntN(9_000)) * time.Microsecond)
		b.Kill()
		s.mu.Lock()
		writes += allStrict(c, s.seen)
		s.mu.Unlock()
		if left := processesOf(profile); left > 0 {
			c.bad("%d processes outlived the kill", left)
		}
		inside := mark != "trying" // a snapshot follows what was acknowledged
		for _, name := range names(round) {
			s.mu.Lock()
			if s.ledgerOf(name).underWay != 0 {
				underWay++
				inside = true
			}
			s.ledgerOf(name).underWay = 0
			s.mu.Unlock()
		}
		if inside {
			c.Cases++
		}
	}
	if c.Cases < kills {
		c.bad("only %d of %d kills fell inside an action", c.Cases, most)
	}
	for _, l := range s.ledgersOf(mark) {
		c.Acknowledged += len(l.acknowledged)
	}
	c.Note = fmt.Sprintf("%d kills, %d actions under way at that instant; %d transactions read back as strict", c.Cases, underWay, writes)
	return c, nil
}

// gaveUp notes databases that the browser itself threw away, finding its files damaged,
// and why: Chromium says so when it makes them anew. Whether the second copy had
// everything is judged like any other state.
func gaveUp(c *Class, page *chromium.Page) error {
	said, err := chromium.Eval[[]string](page, "thrownAway")
	for _, why := range said {
		_, why, _ = strings.Cut(why, ": ") // of which of them does not matter
		c.tell("(by the browser, of a database it threw away) " + why)
	}
	return err
}

// awaitMark waits for the count-th announcement of a kind, and notes what was refused.
func (s *site) awaitMark(ctx context.Context, c *Class, mark string, count int) error {
	limit := time.After(time.Minute)
	for {
		select {
		case e := <-s.heard:
			switch e.what {
			case mark:
				if count--; count <= 0 {
					return nil
				}
			case "trying", "acknowledged", "snapshot":
			default:
				c.bad("%s, action %d: %s", e.name, e.n, e.what)
			}
		case <-limit:
			return fmt.Errorf("the page writes nothing")
		case <-ctx.Done():
			return ctx.Err()
		}
	}
}

func (s *site) ledgersOf(prefix string) (list []*ledger) {
	s.mu.Lock()
	defer s.mu.Unlock()
	for name, l := range s.ledger {
		if len(name) > len(prefix) && name[:len(prefix)+1] == prefix+"-" {
			list = append(list, l)
		}
	}
	return list
}

// processesOf counts the processes that name a profile on their command line, after
// giving the dead a moment to go. Only Linux shows them.
func processesOf(profile string) (count int) {
	if runtime.GOOS != "linux" {
		return 0
	}
	for range 40 {
		count = 0
		lines, _ := filepath.Glob("/proc/[0-9]*/cmdline")
		for _, file := range lines {
			if text, err := os.ReadFile(file); err == nil && bytes.Contains(text, []byte(profile)) {
				count++
			}
		}
		if count == 0 {
			return 0
		}
		time.Sleep(10 * time.Millisecond)
	}
	return count
}
