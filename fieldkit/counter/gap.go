package counter

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// Gap is something to find out before the next trip.
type Gap struct {
	Part      string   // ID, if the part is known
	Positions []string // IDs of the places it helps
	Title     string   // of those places
	What      string   // "measure cap diameter"
	Why       string   // what makes it worth the while
	// Worth is the hours that are likely to be lost in 10,000 km on rough track to
	// failures there, shared among the things still to be found out. It orders gaps
	// and means no more than the starting guesses behind it.
	Worth float64
	// AtPosition is for what is asked of one position, such as which part sits there;
	// the rest is asked of the part wherever it sits.
	AtPosition bool

	steps int // things to find out there, this one among them
	rate  float64
	lost  fieldkit.Minutes
	spare int
}

// withSpare is how much of the loss remains to be worried about when a spare is in
// stock: it may be used up or left at home (starting guess).
const withSpare = 0.25

// GapsWorthClosing ranks what is missing: how often the part fails, times the hours
// lost without a spare, less if a spare is in stock, and shared among all that must
// be found out there. A part that sits in several places, such as left and right, is
// one gap.
func GapsWorthClosing(states []Readiness) []Gap {
	type key struct{ part, position, what string }
	place := map[key]int{}
	var gaps []Gap
	for _, r := range states {
		for _, g := range r.open {
			k := key{part: g.Part, what: g.What}
			if g.AtPosition {
				k.position = r.Position
			}
			i, known := place[k]
			if !known {
				place[k] = len(gaps)
				g.Positions = slices.Clone(g.Positions)
				gaps = append(gaps, g)
				continue
			}
			gaps[i].Positions = append(gaps[i].Positions, g.Positions...)
			gaps[i].Title = joinTitles(gaps[i].Title, g.Title)
			gaps[i].rate += g.rate
			gaps[i].steps = max(gaps[i].steps, g.steps)
		}
	}
	for i := range gaps {
		gaps[i].weigh()
	}
	order.By(gaps, func(a, b Gap) int { return cmp.Compare(b.Worth, a.Worth) })
	return gaps
}

func (g *Gap) weigh() {
	g.Worth = g.rate * g.lost.Hours() / float64(g.steps)
	stock := "none in stock"
	if g.spare > 0 {
		g.Worth *= withSpare
		stock = fmt.Sprintf("%d in stock", g.spare)
	}
	rest := "the last thing missing there"
	if g.steps > 1 {
		rest = fmt.Sprintf("one of %d things missing there", g.steps)
	}
	words := []string{"no failure rate known"}
	if g.rate > 0 {
		words = []string{"about " + strconv.FormatFloat(g.rate, 'g', 3, 64) + " failures in 10,000 km (starting guess)"}
	}
	if g.lost > 0 {
		words = append(words, g.lost.String()+" lost without a spare")
	}
	g.Why = strings.Join(append(words, stock, rest), ", ")
}

// joinTitles names two places in one: "outer bearing, left and right".
func joinTitles(a, b string) string {
	for _, side := range []fieldkit.Side{fieldkit.Left, fieldkit.Right, fieldkit.Centre} {
		name, sided := strings.CutSuffix(b, ", "+string(side))
		if sided && (a == name || strings.HasPrefix(a, name+", ")) {
			return a + " and " + string(side)
		}
	}
	return a + "; " + b
}
