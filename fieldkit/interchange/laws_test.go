package interchange_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// randomKit makes a few parts, some bearing a designation, and links of all grades.
func randomKit(r *rand.Rand, n, links int) ([]fieldkit.Part, []fieldkit.Link) {
	grades := []fieldkit.Grade{fieldkit.DropIn, fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit}
	parts := make([]fieldkit.Part, n)
	for i := range parts {
		parts[i] = fieldkit.Part{ID: string(rune('a' + i)), Kind: "k"}
		if r.IntN(3) == 0 {
			parts[i] = bearing(parts[i].ID, "k", fmt.Sprint(6200+r.IntN(2)), fieldkit.EvidenceOrder[r.IntN(7)])
		}
	}
	var list []fieldkit.Link
	for i := range links {
		l := link(fmt.Sprintf("l%02d", i), parts[r.IntN(n)].ID, parts[r.IntN(n)].ID, grades[r.IntN(len(grades))], fieldkit.EvidenceOrder[r.IntN(7)])
		if l.Grade == fieldkit.WithChanges {
			l.Changes = []string{fmt.Sprint("change ", r.IntN(3))}
		}
		list = append(list, l)
	}
	return parts, list
}

func eachRandomKit(t *testing.T, rounds int, check func(t *testing.T, r *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link)) {
	for seed := range rounds {
		r := rand.New(rand.NewPCG(uint64(seed), 7))
		parts, links := randomKit(r, 3+r.IntN(4), r.IntN(10))
		if ok := t.Run(fmt.Sprint("seed ", seed), func(t *testing.T) { check(t, r, parts, links) }); !ok {
			return
		}
	}
}

// best is what brute force knows of the best chain: grade, strength of the weakest
// evidence, steps.
type best struct{ rank, strength, steps int }

// bruteForce walks every simple path from one part, by the rules as they are
// written down in doc.go.
func bruteForce(parts []fieldkit.Part, links []fieldkit.Link, start string) map[string]best {
	barred := func(a, b string) bool {
		for _, l := range links {
			if l.Grade == fieldkit.DoesNotFit && (l.For == a && l.With == b || l.For == b && l.With == a) {
				return true
			}
		}
		return false
	}
	found := map[string]best{}
	var walk func(at string, on string, so best)
	try := func(at, to, on string, so best, grade fieldkit.Grade, how fieldkit.Evidence) {
		if strings.Contains(on, to) || barred(at, to) {
			return
		}
		so.rank, so.strength, so.steps = max(so.rank, interchange.Rank(grade)), min(so.strength, how.Strength()), so.steps+1
		known, ok := found[to]
		if !barred(start, to) && (!ok || so.rank < known.rank || so.rank == known.rank && (so.strength > known.strength || so.strength == known.strength && so.steps < known.steps)) {
			found[to] = so
		}
		walk(to, on+to, so)
	}
	walk = func(at, on string, so best) {
		for _, l := range links {
			if l.Grade == fieldkit.DoesNotFit {
				continue
			}
			if l.For == at {
				try(at, l.With, on, so, l.Grade, l.Evidence)
			}
			if l.With == at && l.Grade != fieldkit.OneWay {
				try(at, l.For, on, so, l.Grade, l.Evidence)
			}
		}
		for _, p := range parts {
			for _, q := range parts {
				if p.ID != at || q.ID == at || len(p.Numbers) == 0 || len(q.Numbers) == 0 || p.Numbers[0].Value != q.Numbers[0].Value {
					continue
				}
				how := fieldkit.PublishedStandard
				for _, n := range []fieldkit.Number{p.Numbers[0], q.Numbers[0]} {
					if n.Proof.How.Strength() < fieldkit.NumberRead.Strength() && n.Proof.How.Strength() < how.Strength() {
						how = n.Proof.How
					}
				}
				try(at, q.ID, on, so, fieldkit.DropIn, how)
			}
		}
	}
	walk(start, start, best{strength: len(fieldkit.EvidenceOrder)})
	return found
}

func TestAgreesWithEveryPath(t *testing.T) {
	eachRandomKit(t, 400, func(t *testing.T, _ *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link) {
		g := interchange.New(parts, links)
		for _, p := range parts {
			got := map[string]best{}
			for _, s := range g.StandIns(p.ID) {
				got[s.Part] = best{interchange.Rank(s.Grade), s.Weakest.Strength(), len(s.Chain)}
				require.Equal(t, p.ID, s.Chain[0].From)
				require.Equal(t, s.Part, s.Chain[len(s.Chain)-1].To)
			}
			require.Equal(t, bruteForce(parts, links, p.ID), got, "stand-ins of %s among %+v", p.ID, links)
		}
	})
}

func TestOrderOfLinksAndPartsNeverMatters(t *testing.T) {
	eachRandomKit(t, 100, func(t *testing.T, r *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link) {
		one := interchange.New(parts, links)
		r.Shuffle(len(links), func(i, j int) { links[i], links[j] = links[j], links[i] })
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		two := interchange.New(parts, links)
		for _, p := range parts {
			require.Equal(t, one.StandIns(p.ID), two.StandIns(p.ID))
			require.Equal(t, one.Serves(p.ID), two.Serves(p.ID))
		}
		require.Equal(t, one.Contradictions(), two.Contradictions())
	})
}

func TestClosureIsIdempotent(t *testing.T) {
	eachRandomKit(t, 150, func(t *testing.T, _ *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link) {
		type reached struct {
			wanted, with string
			grade        fieldkit.Grade
			weakest      fieldkit.Evidence
		}
		closure := func(links []fieldkit.Link) map[reached]bool {
			g, all := interchange.New(parts, links), map[reached]bool{}
			for _, p := range parts {
				for _, s := range g.StandIns(p.ID) {
					all[reached{p.ID, s.Part, s.Grade, s.Weakest}] = true
				}
			}
			return all
		}
		once, more := closure(links), links
		for d := range once {
			more = append(more, link("derived "+d.wanted+d.with, d.wanted, d.with, d.grade, d.weakest))
		}
		require.Equal(t, once, closure(more))
	})
}

func TestServesIsStandInsTheOtherWayRound(t *testing.T) {
	eachRandomKit(t, 100, func(t *testing.T, _ *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link) {
		g := interchange.New(parts, links)
		for _, p := range parts {
			var want []string
			for _, q := range parts {
				if _, ok := g.Between(q.ID, p.ID); ok {
					want = append(want, q.ID)
				}
			}
			require.ElementsMatch(t, want, g.Serves(p.ID))
		}
	})
}

func TestBlockBeatsAnyChain(t *testing.T) {
	eachRandomKit(t, 100, func(t *testing.T, r *rand.Rand, parts []fieldkit.Part, links []fieldkit.Link) {
		a, b := parts[r.IntN(len(parts))].ID, parts[r.IntN(len(parts))].ID
		before := interchange.New(parts, links)
		_, fits := before.Between(a, b)
		after := interchange.New(parts, append(links, link("zz", a, b, fieldkit.DoesNotFit, fieldkit.Hearsay)))
		_, still := after.Between(a, b)
		_, back := after.Between(b, a)
		require.False(t, still)
		require.False(t, back)
		if fits && a != b {
			require.NotEmpty(t, after.Contradictions())
		}
	})
}

func TestComposeLaws(t *testing.T) {
	grades := []fieldkit.Grade{fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit}
	for _, a := range grades {
		assert.Equal(t, a, interchange.Compose(a, fieldkit.DropIn), "drop-in changes nothing")
		assert.Equal(t, fieldkit.DoesNotFit, interchange.Compose(a, fieldkit.DoesNotFit))
		for _, b := range grades {
			assert.Equal(t, interchange.Compose(a, b), interchange.Compose(b, a))
			for _, c := range grades {
				assert.Equal(t, interchange.Compose(a, interchange.Compose(b, c)), interchange.Compose(interchange.Compose(a, b), c))
			}
		}
	}
}

// clusters makes many small groups of parts, as a large kit has.
func clusters(links int) []fieldkit.Link {
	r := rand.New(rand.NewPCG(1, 2))
	list := make([]fieldkit.Link, links)
	for i := range list {
		group := i / 10
		a, b := r.IntN(6), r.IntN(6)
		list[i] = link(fmt.Sprintf("l%06d", i), fmt.Sprintf("p%05d-%d", group, a), fmt.Sprintf("p%05d-%d", group, b),
			[]fieldkit.Grade{fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit}[r.IntN(4)], fieldkit.EvidenceOrder[r.IntN(7)])
	}
	return list
}

func BenchmarkStandInsAmong100000Links(b *testing.B) {
	g := interchange.New(nil, clusters(100_000))
	for i := 0; b.Loop(); i++ {
		g.StandIns(fmt.Sprintf("p%05d-0", i%10_000))
	}
}

func BenchmarkNew100000Links(b *testing.B) {
	list := clusters(100_000)
	for b.Loop() {
		interchange.New(nil, list)
	}
}

func BenchmarkStandInsOneChainOf100000Parts(b *testing.B) {
	var list []fieldkit.Link
	for i := range 100_000 {
		list = append(list, dropIn(fmt.Sprint(i), fmt.Sprintf("p%06d", i), fmt.Sprintf("p%06d", i+1)))
	}
	g := interchange.New(nil, list)
	for b.Loop() {
		g.StandIns("p000000")
	}
}
