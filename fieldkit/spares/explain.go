package spares

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// explain lays out what a choice of items is good for. It says the same of a list that was
// just planned and of one that was kept, if offer was told of the list.
func (m *model) explain(pack fieldkit.Pack, counts []int) Proposal {
	s := newSearch(&m.problem, counts)
	friends := Hours(m.worthOfFriends())
	p := Proposal{Pack: pack, Value: Hours(s.total()) - friends, Bare: m.hours - friends}
	p.Left = max(p.Bare-p.Value, 0)
	covers := m.covers(counts)
	shares, guessed := m.shares(counts)
	p.Pack.Lines = slices.Clone(pack.Lines)
	for i := range p.Pack.Lines {
		m.turn()
		line := &p.Pack.Lines[i]
		row, _ := rowOf(m.kit, m.cat, *line, currencyOf(m.kit, m.trip))
		l := Line{Row: row}
		if item, ok := m.index[RefOf(*line)]; ok && counts[item] > m.items[item].friend {
			ours := counts[item] - m.items[item].friend
			l.Guessed = guessed[item]
			m.reason(&l, item, s, covers[item], shares[item]*float64(ours)/float64(counts[item]))
			l.Saves = Hours(-s.gain([]option{{item, ours}}, -1))
		}
		line.Why = l.why()
		l.Row.Line = *line
		p.Lines = append(p.Lines, l)
	}
	p.Friends = m.friendly(s, covers, shares, guessed)
	p.Guessed = m.guessed()
	p.Sheet = SheetOf(m.kit, m.cat, p.Pack)
	p.Shopping = Shopping(m.kit, m.cat, p.Pack)
	p.LeftOut = m.leftOut(s, p.Pack)
	p.Notes = m.notes(p, counts)
	return p
}

// guessed reports that some of what a list saves rests on a starting guess.
func (m *model) guessed() bool {
	return slices.ContainsFunc(m.risks, func(r risk) bool { return r.likelihood.Guessed() || r.cost.Guessed() })
}

// reason fills in what a line is good for.
func (m *model) reason(l *Line, item int, s *search, covers []Cover, share float64) {
	l.Covers, l.Share = covers, share
	l.Repairs = m.repairsWith(item, s.counts)
	for c := range l.Covers {
		l.Uses += l.Covers[c].Uses
	}
	if len(l.Covers) > 0 {
		l.Evidence = l.Covers[0].Likelihood.Evidence
	}
}

// friendly lists what rides in friends' rigs, in the order of the trip, with what it is
// good for.
func (m *model) friendly(s *search, covers map[int][]Cover, shares []float64, guessed []bool) (lines []Line) {
	for _, f := range m.trip.Friends {
		item, ok := m.index[Ref{f.Type, f.Item}]
		if !ok {
			continue
		}
		l := Line{Row: Row{Line: fieldkit.PackLine{Type: f.Type, Item: f.Item, Count: f.Count}, Name: m.articles[item].name}, Who: f.Who, Guessed: guessed[item]}
		m.reason(&l, item, s, covers[item], shares[item]*float64(f.Count)/float64(max(s.counts[item], 1)))
		l.Saves = Hours(-s.gain([]option{{item, min(f.Count, s.counts[item])}}, -1))
		l.Line.Why = l.why()
		lines = append(lines, l)
	}
	return lines
}

// covers lists, by item, the places it mends with this choice on board.
func (m *model) covers(counts []int) map[int][]Cover {
	covers := map[int][]Cover{}
	for pool, members := range m.pools {
		out := m.worthOf(pool, counts)
		for k, d := range members {
			for r, via := range m.demands[d].reach {
				if counts[via.item] > 0 && m.ready(d, counts) {
					covers[via.item] = append(covers[via.item], m.cover(d, r, out.uses[k][r]))
				}
			}
		}
	}
	for _, list := range covers {
		order.By(list, func(a, b Cover) int {
			return cmp.Or(cmp.Compare(b.Uses, a.Uses), strings.Compare(a.Rig, b.Rig), strings.Compare(a.Position, b.Position))
		})
	}
	return covers
}

func (m *model) cover(d, r int, uses float64) Cover {
	pl := m.places[d]
	return Cover{
		Position: pl.position.ID, Title: pl.position.Title(), Rig: pl.rig.Name, Fitted: pl.position.Part,
		Grade: pl.via[r].Grade, Changes: pl.via[r].Changes, Proven: pl.via[r].Weakest, Worth: m.demands[d].reach[r].worth,
		Likelihood: pl.likelihood, Uses: uses,
		Without: pl.cost.Without, With: pl.cost.Carried, Guessed: pl.cost.Guessed(), Town: pl.cost.town(),
	}
}

// repairsWith lists the repairs on board whole that use a tool or consumable and
// for which a spare is carried.
func (m *model) repairsWith(item int, counts []int) (titles []string) {
	for d := range m.demands {
		spare := slices.ContainsFunc(m.demands[d].reach, func(r reach) bool { return counts[r.item] > 0 })
		for _, r := range m.demands[d].remedies {
			if re := m.remedies[r]; spare && re.wants != nil && m.met(r, counts) && re.uses(item) && !slices.Contains(titles, re.title) {
				titles = append(titles, re.title)
			}
		}
	}
	slices.Sort(titles)
	return titles
}

func (r remedy) uses(item int) bool {
	return slices.ContainsFunc(r.wants, func(w want) bool {
		return slices.ContainsFunc(w.anyOf, func(o option) bool { return o.item == item })
	})
}

// why puts a line's reason in one sentence.
func (l Line) why() string {
	var parts []string
	switch {
	case len(l.Covers) > 0:
		parts = append(parts, "fits "+countOf(len(l.Covers), "place", "places"),
			"used "+Times(l.Uses)+" on average", "saves "+Guess(l.Saves.String(), l.Guessed), l.Evidence)
	case len(l.Repairs) == 1:
		parts = append(parts, "for "+l.Repairs[0], "without it "+Guess(l.Saves.String(), l.Guessed)+" more")
	case len(l.Repairs) > 1:
		parts = append(parts, "shared by "+countOf(len(l.Repairs), "repair", "repairs"), "without it "+Guess(l.Saves.String(), l.Guessed)+" more")
	default:
		parts = append(parts, "nothing on this trip is known to need it")
	}
	return strings.Join(parts, "; ")
}

// Times prints an expected number of uses: "0.12 times", "once in 250 trips" where
// that is rarer than a figure can show.
func Times(uses float64) string {
	if uses > 0 && uses < 0.005 {
		return fmt.Sprintf("once in %.0f trips", 1/uses)
	}
	return fmt.Sprintf("%.2f times", uses)
}

func countOf(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
