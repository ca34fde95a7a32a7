package spares

import (
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// notes says what to know before relying on a list: what is guessed, what could not
// be planned, and what the list breaks.
func (m *model) notes(p Proposal, counts []int) []string {
	var notes []string
	note := func(when bool, format string, args ...any) {
		if when {
			notes = append(notes, fmt.Sprintf(format, args...))
		}
	}
	note(len(rigsOf(m.trip)) == 0, "no rig goes on this trip, so nothing is reckoned to fail: say which rigs go")
	for _, r := range rigsOf(m.trip) {
		_, ok := m.kit.Rig(r)
		note(!ok, "the trip names the rig %q, which the kit does not hold", r)
	}
	pinned := make([]int, len(m.items))
	for _, l := range p.Lines {
		if i, ok := m.index[RefOf(l.Line)]; ok && Stays(l.Line) {
			pinned[i] = counts[i]
		}
	}
	note(len(m.beyond(m.load(pinned))) > 0,
		"what stays on the list because it is pinned or ticked is by itself over a limit of the trip: take some of it off, or raise the limit")
	for _, l := range p.Lines {
		_, ok := m.index[RefOf(l.Line)]
		note(!ok || !m.articles[m.index[RefOf(l.Line)]].known, "the list names %s, which the kit does not hold", l.Name)
	}
	guessed := 0
	for _, pl := range m.places {
		if pl.likelihood.Guessed() {
			guessed++
		}
	}
	t := p.Sheet.Totals
	note(p.Guessed || t.Typical.Mass || t.Typical.Volume, "%s", GuessMeans)
	note(guessed > 0, "%d of %s %s on a starting guess rather than on readings or your log", guessed, countOf(len(m.places), "likelihood", "likelihoods"), map[bool]string{true: "rests", false: "rest"}[guessed == 1])
	note(m.unknown > 0, "%s may fail and %s no part recorded: no spare can be matched there",
		countOf(m.unknown, "position", "positions"), hasOrHave(m.unknown))
	note(len(m.kit.Tools) == 0, "the kit lists no tools: the plan takes it that every tool is on board")
	note(len(m.kit.Consumables) == 0, "the kit lists no consumables: the plan takes it that every fluid and grease is on board")
	for _, w := range m.unmet() {
		note(true, "%s: the kit lists none, so these repairs cannot be planned: %s", w.name, strings.Join(w.repairs, ", "))
	}
	if kinds := m.undescribed(counts); len(kinds) > 0 {
		note(true, "no repair is described for %s: see to their tools yourself", strings.Join(kinds, ", "))
	}
	town := slices.ContainsFunc(m.places, func(pl place) bool { return pl.cost.Way == ByTown })
	note(town && len(rigsOf(m.trip)) == 1, "one rig goes alone: where a part would be bought in town, the hours take it that somebody gives you a lift")
	note(m.trip.Yardstick == fieldkit.ByMoney, "measured by money: hours are what things cost, at %s an hour", fieldkit.Money{Cents: hourWorth(m.trip), Currency: currencyOf(m.kit, m.trip)})
	note(m.trip.Yardstick == fieldkit.ByHome, "measured by getting home: a rig that cannot drive home counts %s, all else nothing", strandingCounts)
	note(t.Unweighed > 0, "the weight of %s is not known and counts as nothing", countOf(t.Unweighed, "line", "lines"))
	note(t.Unpriced > 0, "the price of %s to buy is not known in %s and counts as nothing", countOf(t.Unpriced, "line", "lines"), t.Spend.Currency)
	return notes
}

func hasOrHave(n int) string {
	if n == 1 {
		return "has"
	}
	return "have"
}

// missing is a tool or consumable that the kit does not list, with the repairs that
// need it.
type missing struct {
	name    string
	repairs []string
}

// unmet lists what keeps repairs from being done, whatever is bought, by name.
func (m *model) unmet() (list []missing) {
	for _, re := range m.remedies {
		for _, w := range re.wants {
			if len(w.anyOf) > 0 {
				continue
			}
			i := slices.IndexFunc(list, func(x missing) bool { return x.name == w.name })
			if i < 0 {
				list = append(list, missing{name: w.name})
				i = len(list) - 1
			}
			if !slices.Contains(list[i].repairs, re.title) {
				list[i].repairs = append(list[i].repairs, re.title)
			}
		}
	}
	order.By(list, func(a, b missing) int { return strings.Compare(a.name, b.name) })
	return list
}

// undescribed names the part kinds for which a spare is carried and no repair is
// described.
func (m *model) undescribed(counts []int) (names []string) {
	for d, pl := range m.places {
		carried := slices.ContainsFunc(m.demands[d].reach, func(r reach) bool { return counts[r.item] > 0 })
		described := slices.ContainsFunc(m.demands[d].remedies, func(r int) bool { return m.remedies[r].title != "" })
		if carried && !described && !slices.Contains(names, pl.kind.Name) {
			names = append(names, pl.kind.Name)
		}
	}
	slices.Sort(names)
	return names
}
