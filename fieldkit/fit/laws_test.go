package fit

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// draw makes readings of a random part: some attributes, some of them off, by random
// tools and proofs.
func draw(r *rand.Rand, s Schema, share float64) Readings {
	list := Readings{}
	texts := map[string][]string{
		"port": {"M16x1.5 O-ring", "M16x1.5", "5/8-18 inverted flare"}, "tank": {"remote", "integral", "on a hose"},
		"grade": {"EF", "FF", "DD", "blue"}, "size": {"K 80", "K 81"}, "rubber": {"nitrile", "FKM", "EPDM", "nitrile or FKM"},
	}
	base := map[string]int64{"bolts": 4_000_000, "spacing": 80_000_000, "barb": 16_000_000, "output": 90_000_000, "height": 150_000_000}
	for _, a := range s.Attributes {
		if r.Float64() > share {
			continue
		}
		reading := Reading{How: fieldkit.EvidenceOrder[r.IntN(len(fieldkit.EvidenceOrder))], Worn: r.IntN(5) == 0}
		if options, ok := texts[a.Name]; ok {
			reading.Value = fieldkit.Value{Dim: fieldkit.DimText, Text: options[r.IntN(len(options))]}
		} else {
			off := []int64{0, 0, 1, -1, 3, -8}[r.IntN(6)]
			step := int64(1_000_000)
			if a.Dim == fieldkit.DimLength {
				step = 300_000
				reading.Within = fieldkit.Length([]int64{0, 50_000, 500_000, 1_000_000}[r.IntN(4)])
			}
			reading.Value = fieldkit.Value{Dim: a.Dim, Base: base[a.Name] + off*step}
		}
		list.Set(a.Name, reading)
	}
	return list
}

// More knowledge never makes a part fit that did not: neither a further reading on
// either side, nor a finer tool, nor a better proof, nor a number.
func TestMoreKnowledgeNeverUndoesDoesNotFit(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	refused := 0
	for range 4000 {
		s := pump(t, r.IntN(2) == 0)
		wanted, hand := draw(r, s, 0.8), draw(r, s, 0.8)
		less := [2]Readings{{}, {}}
		for i, list := range []Readings{wanted, hand} {
			for name, reading := range list {
				if r.IntN(3) == 0 {
					continue
				}
				if reading.Within > 0 {
					reading.Within *= fieldkit.Length(1 + r.IntN(4))
				}
				reading.How = fieldkit.EvidenceOrder[len(fieldkit.EvidenceOrder)-1-r.IntN(1+reading.How.Strength()-1)%len(fieldkit.EvidenceOrder)]
				less[i][name] = reading
			}
		}
		if Compare(s, Part{Readings: less[0]}, Hand{Readings: less[1]}).Verdict != DoesNotFit {
			continue
		}
		refused++
		more := Compare(s, Part{Readings: wanted, Numbers: []string{"K1"}}, Hand{Readings: hand, Number: "K1"})
		require.Equal(t, DoesNotFit, more.Verdict)
	}
	assert.Greater(t, refused, 500)
}

// The order of attributes does not matter: the verdict, what differs, what is to be
// measured and what must be changed are the same.
func TestOrderOfAttributesDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 1500 {
		s := pump(t, r.IntN(2) == 0)
		wanted, hand := Part{Readings: draw(r, s, 0.9)}, Hand{Readings: draw(r, s, 0.9)}
		shuffled := Schema{Kind: s.Kind, Attributes: slices.Clone(s.Attributes)}
		r.Shuffle(len(shuffled.Attributes), func(i, j int) {
			shuffled.Attributes[i], shuffled.Attributes[j] = shuffled.Attributes[j], shuffled.Attributes[i]
		})
		a, b := Compare(s, wanted, hand), Compare(shuffled, wanted, hand)
		require.Equal(t, a.Verdict, b.Verdict)
		require.Equal(t, a.Weakest, b.Weakest)
		require.ElementsMatch(t, a.Differing(), b.Differing())
		require.ElementsMatch(t, a.Changes, b.Changes)
		require.Len(t, b.Measure, len(a.Measure))
	}
}

// Doing what the list says brings a verdict, and nothing less does.
func TestTheListIsEnoughAndNeeded(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	open := 0
	for range 1500 {
		s := pump(t, r.IntN(2) == 0)
		full := read(t, s, ours, "")
		hand := Readings{}
		for name, reading := range full {
			if r.IntN(2) == 0 {
				hand[name] = reading
			}
		}
		result := Compare(s, Part{Readings: full}, Hand{Readings: hand})
		if result.Verdict != MeasureFirst {
			continue
		}
		open++
		for skip := -1; skip < len(result.Measure); skip++ {
			done := Readings{}
			for name, reading := range hand {
				done[name] = reading
			}
			for i, todo := range result.Measure {
				if i != skip {
					done.Set(todo.Name, full[foldName(todo.Name)])
				}
			}
			verdict := Compare(s, Part{Readings: full}, Hand{Readings: done}).Verdict
			require.Equal(t, skip < 0, verdict == Fits, "without %d of %v", skip, result.Measure)
		}
	}
	assert.Greater(t, open, 500)
}

// A dangerous kind is never judged better than a harmless one with the same readings,
// and never fits on hearsay.
func TestCarefulIsNeverBetter(t *testing.T) {
	rank := map[Verdict]int{Fits: 3, WithChanges: 2, MeasureFirst: 1, DoesNotFit: 0}
	r := rand.New(rand.NewPCG(7, 8))
	for range 3000 {
		s, careful := pump(t, false), pump(t, true)
		wanted, hand := Part{Readings: draw(r, s, 0.95)}, Hand{Readings: draw(r, s, 0.95)}
		plain, strict := Compare(s, wanted, hand), Compare(careful, wanted, hand)
		require.LessOrEqual(t, rank[strict.Verdict], rank[plain.Verdict])
		if strict.Verdict == Fits || strict.Verdict == WithChanges {
			for _, l := range strict.Lines {
				if l.Attribute.Must {
					require.NotEqual(t, fieldkit.Hearsay, l.Proof, l.Name())
				}
			}
		}
	}
}

// The cheapest cover against trying every choice.
func TestCheapestCoverAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	for trial := range 1200 {
		n := 1 + r.IntN(8)
		sets := make([]coverSet, 1+r.IntN(10))
		for i := range sets {
			sets[i].cost = []int{1, 1 + r.IntN(5), 1000 + r.IntN(5)}[r.IntN(3)]
			for item := range n {
				if r.IntN(3) == 0 {
					sets[i].items = append(sets[i].items, item)
				}
			}
		}
		want, wantCost := bruteCover(n, sets)
		got, _ := cheapestCover(n, sets)
		cost := 0
		for _, k := range got {
			cost += sets[k].cost
		}
		require.Equal(t, wantCost, cost, "trial %d", trial)
		require.Equal(t, fmt.Sprint(want), fmt.Sprint(got), "trial %d", trial)
	}
}

// bruteCover tries every choice of sets, in order of their places.
func bruteCover(n int, sets []coverSet) (best []int, bestCost int) {
	all := 0
	for _, s := range sets {
		for _, item := range s.items {
			all |= 1 << item
		}
	}
	_ = n
	found := false
	for choice := range 1 << len(sets) {
		held, cost := 0, 0
		var list []int
		for k, s := range sets {
			if choice>>k&1 == 1 {
				cost += s.cost
				list = append(list, k)
				for _, item := range s.items {
					held |= 1 << item
				}
			}
		}
		if held != all {
			continue
		}
		if !found || cost < bestCost || cost == bestCost && slices.Compare(list, best) < 0 {
			found, best, bestCost = true, list, cost
		}
	}
	return best, bestCost
}

// A tell comes back as it was written.
func FuzzReadTell(f *testing.F) {
	for _, line := range []string{"splines: 30, not 35, by count", "ring gear: not 8.5 in", "cover: ten bolts, not twelve bolts, by eye", "a:b not c", "x: not , by hand"} {
		f.Add(line)
	}
	f.Fuzz(func(t *testing.T, line string) {
		tell, err := ReadTell(line, fieldkit.Metric)
		if err != nil {
			require.Zero(t, tell.Other)
			return
		}
		again, err := ReadTell(TellLine(tell, fieldkit.Metric), fieldkit.Metric)
		if err != nil || strings.Contains(line, " not ") && strings.Count(line, "not") > 1 {
			return // words that hold "not" themselves
		}
		require.Equal(t, tell.What, again.What)
		require.Equal(t, tell.By, again.By)
	})
}
