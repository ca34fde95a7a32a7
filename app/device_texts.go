package app

import (
	"context"
	"maps"
	"strconv"
	"strings"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// Texts of this device (choices, drafts) are kept twice. The browser's localStorage
// answers at once and is shared by all tabs, but it reaches the disk up to a minute
// late: a dead battery would take back what was typed, and which kit is in hand. So
// every change goes to IndexedDB too, where it is on disk in a moment. Both count
// the changes; at the start the one that is ahead is right.

const (
	textPrefix = "fieldkit."
	turnKey    = textPrefix + "turn" // how many changes were made
)

// takeUpLimit is how long the start waits for the second copy. Without it the app
// works with the first alone.
const takeUpLimit = 2 * time.Second

// textKeeper is the second copy. Put writes all or nothing; "" removes a text.
type textKeeper interface {
	All(context.Context) (map[string]string, error)
	Put(context.Context, map[string]string) error
}

// textCopy writes behind: one write at a time, with all that has changed by then.
type textCopy struct {
	keeper  textKeeper
	waiting map[string]string
	writing bool
}

var secondCopy = &textCopy{}

// note takes up a change of the first copy.
func (c *textCopy) note(key, value, turn string) {
	if c.waiting == nil {
		c.waiting = map[string]string{}
	}
	c.waiting[key], c.waiting[turnKey] = value, turn
	c.flush()
}

// flush begins to write what waits.
func (c *textCopy) flush() {
	if c.keeper != nil && !c.writing && len(c.waiting) > 0 {
		c.writing = true
		go c.write()
	}
}

// write goes on until nothing waits. What could not be written waits for the next
// change: the first copy has it.
func (c *textCopy) write() {
	defer func() { c.writing = false }()
	for len(c.waiting) > 0 {
		batch := c.waiting
		c.waiting = nil
		if err := c.keeper.Put(context.Background(), batch); err != nil {
			maps.Copy(batch, c.waiting)
			c.waiting = batch
			return
		}
	}
}

// settleLimit is how long one waits for texts to be on disk.
const settleLimit = 5 * time.Second

// settle waits until nothing waits to be written, or the time is up. It must not run on
// the UI goroutine.
func (c *textCopy) settle(limit time.Duration) {
	for end := time.Now().Add(limit); c.keeper != nil && (c.writing || len(c.waiting) > 0) && time.Now().Before(end); {
		time.Sleep(5 * time.Millisecond)
	}
}

// nextTurn counts a change.
func nextTurn(last string) string { return strconv.Itoa(turnOf(last) + 1) }

func turnOf(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 {
		return 0
	}
	return n
}

// catchUp says what each copy lacks of the other: only the one that is behind takes
// changes. Removed texts are in it as "".
func catchUp(first, second map[string]string) (toFirst, toSecond map[string]string) {
	switch a, b := turnOf(first[turnKey]), turnOf(second[turnKey]); {
	case a < b:
		return changes(first, second), nil
	case a > b:
		return nil, changes(second, first)
	}
	return nil, nil
}

// changes turn one set of texts into another.
func changes(from, to map[string]string) map[string]string {
	list := map[string]string{}
	for key := range from {
		if _, stays := to[key]; !stays {
			list[key] = ""
		}
	}
	for key, value := range to {
		if from[key] != value {
			list[key] = value
		}
	}
	return list
}

// takeUpTexts opens the second copy and brings the copies in line. It is called
// before a kit is opened, and with that before any form is, and must not run on the
// UI goroutine.
func takeUpTexts() {
	if app.IsServer {
		return
	}
	ctx, cancel := context.WithTimeout(context.Background(), takeUpLimit)
	defer cancel()
	keeper, err := openTexts(ctx)
	if err != nil {
		return
	}
	second, err := keeper.All(ctx)
	if err != nil {
		return
	}
	toFirst, toSecond := catchUp(firstCopy(), second)
	for key, value := range toFirst {
		setText(key, value)
	}
	if toSecond != nil {
		secondCopy.waiting = toSecond // with all that has changed by now
	}
	secondCopy.keeper = keeper
	secondCopy.flush()
}

// firstCopy reads all texts of the app in localStorage.
func firstCopy() (all map[string]string) {
	all = map[string]string{}
	defer func() { _ = recover() }() // a browser that forbids it keeps nothing there
	texts := deviceTexts()
	for i := range texts.Get("length").Int() {
		if key := texts.Call("key", i).String(); strings.HasPrefix(key, textPrefix) {
			all[key] = texts.Call("getItem", key).String()
		}
	}
	return all
}
