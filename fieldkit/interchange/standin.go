package interchange

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// MaxStandIns bounds the answers for one part; the best come first. No store and no
// bin holds more.
const MaxStandIns = 1000

// StandIn is a part that can take the place of another, with the chain that says so.
type StandIn struct {
	Part    string
	Grade   fieldkit.Grade
	Changes []string // everything the chain needs changed, in the order of its steps
	Chain   []Step   // from the part wanted to this one
	Weakest fieldkit.Evidence
	// Contested are does-not-fit links between two parts of the chain: some step is
	// wrong, or the link is. Ask before relying on it.
	Contested []fieldkit.Link
}

// Step says that part To takes the place of part From.
type Step struct {
	From, To string
	Link     string // ID of the link; none when a standard designation ties the two
	Standard string // the designation both bear, with its standard
	Grade    fieldkit.Grade
	Changes  []string
	Evidence fieldkit.Evidence
	On       fieldkit.Date
	By       string
}

// StandIns lists the parts that can take the place of a part: best grade first, then
// the better proven, then the shorter chain; those with a contested chain last. A
// part that is recorded not to fit in its place is never among them. There are at
// most MaxStandIns.
func (g *Graph) StandIns(part string) []StandIn {
	var list []StandIn
	g.each(part, false, func(w *walk, to int) bool {
		list = append(list, w.chain(to))
		return len(list) < MaxStandIns
	})
	order.By(list, func(a, b StandIn) int { return contestedLast(a) - contestedLast(b) })
	return list
}

func contestedLast(s StandIn) int { return min(len(s.Contested), 1) }

// Serves lists the parts in whose place a part can stand, best first: the question
// of StandIns the other way round. Between says with which grade and changes.
func (g *Graph) Serves(part string) []string {
	var list []string
	g.each(part, true, func(w *walk, to int) bool {
		list = append(list, w.ids[to])
		return len(list) < MaxStandIns
	})
	return list
}

// Between says how part with stands in for part wanted; ok is false if it does not,
// and for a part and itself.
func (g *Graph) Between(wanted, with string) (s StandIn, ok bool) {
	g.each(wanted, false, func(w *walk, to int) bool {
		if w.ids[to] == with {
			s, ok = w.chain(to), true
		}
		return !ok
	})
	return s, ok
}

// each goes through what can stand in, best first, leaving out what is recorded not
// to fit.
func (g *Graph) each(part string, back bool, found func(w *walk, to int) bool) {
	a := g.areaOf(part)
	w, start := a.walk(back, false), a.index[part]
	w.from(start, func(to int) bool { return a.bars(start, to) || found(w, to) })
}
