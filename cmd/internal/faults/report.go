package faults

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// Class is what one class of faults came to.
type Class struct {
	Name         string // "a  killed inside commits"
	Cases        int
	Acknowledged int            // writes
	Lost         int            // acknowledged and not there
	Closed       int            // states that did not open
	Told         map[string]int // what the person was told, how often
	Wrong        []string       // what must not be; the first of them
	Note         string         // more figures
	wrong        int
}

// Failed reports whether anything was lost, stayed closed or was wrong.
func (c *Class) Failed() bool { return c.Lost > 0 || c.Closed > 0 || c.wrong > 0 || c.Cases == 0 }

// bad notes something that must not be.
func (c *Class) bad(format string, a ...any) {
	if c.wrong++; len(c.Wrong) < 5 {
		c.Wrong = append(c.Wrong, fmt.Sprintf(format, a...))
	}
}

func (c *Class) tell(message string) {
	if c.Told == nil {
		c.Told = map[string]int{}
	}
	c.Told[message]++
}

// Report is all classes in order.
type Report []*Class

// Failed reports whether any class failed.
func (r Report) Failed() bool { return slices.ContainsFunc(r, (*Class).Failed) }

// told is how many messages of a class the table lists.
const told = 6

// Table prints one row a class, and under it what the person was told.
func (r Report) Table() string {
	var b strings.Builder
	fmt.Fprintf(&b, "%-40s %7s %7s %5s %6s %6s  %s\n", "class", "cases", "ack'd", "lost", "closed", "wrong", "")
	for _, c := range r {
		fmt.Fprintf(&b, "%-40s %7d %7d %5d %6d %6d  %s\n", c.Name, c.Cases, c.Acknowledged, c.Lost, c.Closed, c.wrong, c.Note)
		messages := slices.SortedFunc(maps.Keys(c.Told), func(x, y string) int {
			if c.Told[x] != c.Told[y] {
				return c.Told[y] - c.Told[x]
			}
			return strings.Compare(x, y)
		})
		for _, m := range messages[:min(told, len(messages))] {
			fmt.Fprintf(&b, "   %5d × told: %s\n", c.Told[m], m)
		}
		if more := len(messages) - told; more > 0 {
			fmt.Fprintf(&b, "           and %d more\n", more)
		}
		for _, w := range c.Wrong {
			fmt.Fprintf(&b, "   WRONG: %s\n", w)
		}
	}
	return b.String()
}
