package starts

import (
	"fmt"
	"slices"
	"strings"
)

// came is what a case came to.
type came int

const (
	startsNew    came = iota // starts with no signal in the new version, whole
	startsOld                // starts in the old version, whole
	saidNotReady             // says that it is not ready for no signal
	nothingCame              // the page itself did not arrive: nothing is claimed
	bad
)

// Report counts cases by phase and way.
type Report struct {
	Rows  []*Row
	Wrong []string // the first bad cases
	Still []string // updates that were asked for again, from a page opened anew
}

// Row counts the cases of one way of breaking in one phase.
type Row struct {
	Phase, Way string
	Count      [bad + 1]int
}

// Cases is how many were tried.
func (r Row) Cases() (n int) {
	for _, count := range r.Count {
		n += count
	}
	return n
}

// Failed reports whether a case of the row came to what must not be.
func (r Row) Failed() bool { return r.Count[bad] > 0 }

const wrongShown = 12

func (r *Report) add(phase string, c one, as came, wrong string) {
	i := slices.IndexFunc(r.Rows, func(row *Row) bool { return row.Phase == phase && row.Way == c.way.name })
	if i < 0 {
		i = len(r.Rows)
		r.Rows = append(r.Rows, &Row{Phase: phase, Way: c.way.name})
	}
	r.Rows[i].Count[as]++
	if as == bad && len(r.Wrong) < wrongShown {
		r.Wrong = append(r.Wrong, fmt.Sprintf("%s, %s, %s at %d: %s", phase, c.file, c.way.name, c.at, wrong))
	}
}

// TooStill reports whether more than one update in fifty had to be asked for again: that
// is no longer a browser with too much to do.
func (r Report) TooStill() bool { return len(r.Still)*50 > r.Cases() }

// Bad counts the cases that came to what must not be.
func (r Report) Bad() (n int) {
	for _, row := range r.Rows {
		n += row.Count[bad]
	}
	return n
}

// Cases counts all.
func (r Report) Cases() (n int) {
	for _, row := range r.Rows {
		n += row.Cases()
	}
	return n
}

// Table prints one row a way and phase.
func (r Report) Table() string {
	var b strings.Builder
	line := func(phase, way string, cases int, count [bad + 1]int) {
		fmt.Fprintf(&b, "%-12s %-34s %6d %8d %8d %10d %8d %5d\n", phase, way, cases,
			count[startsNew], count[startsOld], count[saidNotReady], count[nothingCame], count[bad])
	}
	fmt.Fprintf(&b, "%-12s %-34s %6s %8s %8s %10s %8s %5s\n", "during", "the download breaks by", "cases", "starts", "old", "says not", "no page", "bad")
	fmt.Fprintf(&b, "%-12s %-34s %6s %8s %8s %10s %8s %5s\n", "", "", "", "new", "version", "ready", "came", "")
	var all [bad + 1]int
	rows := slices.Clone(r.Rows)
	slices.SortStableFunc(rows, func(a, b *Row) int {
		if a.Phase != b.Phase {
			return strings.Compare(a.Phase, b.Phase)
		}
		return placeOf(a.Way) - placeOf(b.Way)
	})
	for _, row := range rows {
		line(row.Phase, row.Way, row.Cases(), row.Count)
		for i, n := range row.Count {
			all[i] += n
		}
	}
	line("together", "", r.Cases(), all)
	for _, w := range r.Still {
		fmt.Fprintf(&b, "asked again: %s\n", w)
	}
	for _, w := range r.Wrong {
		fmt.Fprintf(&b, "BAD: %s\n", w)
	}
	return b.String()
}

func placeOf(name string) int {
	return slices.IndexFunc(ways, func(w way) bool { return w.name == name })
}
