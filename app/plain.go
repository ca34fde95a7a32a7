package app

import (
	"slices"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
	"trailfieldkit/fieldkit/interchange"
	"trailfieldkit/fieldkit/plainpage"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/spares"
)

// Plain pages are kept for the moments when the program is not there yet, or cannot
// start: the emergency page, repairs under way, packing lists of trips to come, and
// the counter cards that were pinned or opened.

// cardKey says which counter card: of a part, of a position, or of a part there.
type cardKey struct{ part, position string }

func (c cardKey) address() string {
	return "counter/card" + query("part", c.part, "position", c.position)
}

// openedKept is how many of the cards opened last are kept as plain pages.
const openedKept = 20

// plainJob makes one page when its turn comes; ok is false if the kit has nothing
// for it any more. Each is short: a screen waits for one at most.
type plainJob func() (page plainpage.Page, ok bool)

// plainJobs lists the pages to keep of a kit, the most needed first.
func plainJobs(k fieldkit.Kit, graph func() *interchange.Graph, pinned, opened []cardKey, first fieldkit.System) []plainJob {
	jobs := []plainJob{func() (plainpage.Page, bool) { return plainpage.Emergency(k.Rigs, first), true }}
	for _, run := range k.Runs {
		if repair.Open(run) {
			jobs = append(jobs, func() (plainpage.Page, bool) { return plainRun(k, run, first) })
		}
	}
	for _, pack := range k.Packs {
		if trip, ok := k.Trip(pack.Trip); ok && !trip.Done && len(pack.Lines) > 0 {
			jobs = append(jobs, func() (plainpage.Page, bool) {
				cat := data.Catalog()
				return plainpage.PackingList(spares.SheetOf(k, cat, pack), spares.Shopping(k, cat, pack), "pack/trip"+query("id", trip.ID), first), true
			})
		}
	}
	cards := slices.Clone(pinned)
	for _, c := range opened {
		if !slices.Contains(cards, c) {
			cards = append(cards, c)
		}
	}
	for _, c := range cards {
		jobs = append(jobs, func() (plainpage.Page, bool) {
			card, err := counter.CardFor(k, data.Catalog(), graph(), c.part, c.position)
			return plainpage.Card(card, c.address(), first), err == nil
		})
	}
	return jobs
}

func plainRun(k fieldkit.Kit, run fieldkit.Run, first fieldkit.System) (plainpage.Page, bool) {
	guide, ok := repair.Named(guidesOf(k), run.Guide)
	return plainpage.RepairUnderWay(k, data.Catalog(), guide, run, "repair/run"+query("id", run.ID), first), ok
}

// ---- which cards ------------------------------------------------------------

// Cards are remembered by device and kit, a line each.
func pinnedKey(which string) string { return textPrefix + "cards." + which + ".pinned" }
func openedKey(which string) string { return textPrefix + "cards." + which + ".opened" }

func readCards(key string) (list []cardKey) {
	for line := range strings.SplitSeq(remembered(key), "\n") {
		if part, position, ok := strings.Cut(line, "\t"); ok {
			list = append(list, cardKey{part, position})
		}
	}
	return list
}

func writeCards(key string, list []cardKey) {
	lines := make([]string, len(list))
	for i, c := range list {
		lines[i] = c.part + "\t" + c.position
	}
	remember(key, strings.Join(lines, "\n"))
}

// noteOpened puts a card in front of those opened last.
func noteOpened(which string, c cardKey) (changed bool) {
	key := openedKey(which)
	list := readCards(key)
	if len(list) > 0 && list[0] == c {
		return false
	}
	list = append([]cardKey{c}, slices.DeleteFunc(list, func(o cardKey) bool { return o == c })...)
	writeCards(key, list[:min(len(list), openedKept)])
	return true
}

func isPinned(which string, c cardKey) bool { return slices.Contains(readCards(pinnedKey(which)), c) }

// togglePin pins a card, or takes the pin out.
func togglePin(which string, c cardKey) {
	key := pinnedKey(which)
	list := readCards(key)
	if i := slices.Index(list, c); i >= 0 {
		list = slices.Delete(list, i, i+1)
	} else {
		list = append(list, c)
	}
	writeCards(key, list)
}

// forgetCards forgets the cards of a kit that is thrown away.
func forgetCards(which string) {
	remember(pinnedKey(which), "")
	remember(openedKey(which), "")
}
