package spares

// shares splits what a choice saves among the items that save it, as shares of the whole:
// every failure that is fixed is shared equally among all that its repair takes, the
// spare, each tool and each consumable. Where none of them can be done without, that is
// what each adds on average over all orders in which the things might be packed, the
// Shapley value. It differs from what leaving one thing at home costs: of five things
// that are all needed each alone costs everything, and each has a fifth.
//
// Where a repair can be done in two ways, or a want be met by two things, the one that
// is named first counts.
//
// Source: L. S. Shapley, A Value for n-Person Games, 1953 (from memory).
//
// guessed says of which items some of that rests on a starting guess.
func (m *model) shares(counts []int) (shares []float64, guessed []bool) {
	total := 0.0
	shares, guessed = make([]float64, len(m.items)), make([]bool, len(m.items))
	for pool, members := range m.pools {
		out := m.worthOf(pool, counts)
		for k, d := range members {
			gear := m.gearFor(d, counts)
			for r, via := range m.demands[d].reach {
				saved := out.uses[k][r] * float64(m.demands[d].hours) * via.worth
				if saved == 0 {
					continue
				}
				total += saved
				part, guess := saved/float64(len(gear)+1), m.places[d].guessed()
				for _, i := range append([]int{via.item}, gear...) {
					shares[i] += part
					guessed[i] = guessed[i] || guess
				}
			}
		}
	}
	for i := range shares {
		if total > 0 {
			shares[i] /= total
		}
	}
	return shares, guessed
}

// guessed reports whether what a spare saves at a place rests on a starting guess: how
// likely it fails, or how long that takes.
func (pl place) guessed() bool { return pl.likelihood.Guessed() || pl.cost.Guessed() }

// gearFor lists the tools and consumables with which a demand is fixed, each once.
func (m *model) gearFor(d int, counts []int) (items []int) {
	for _, r := range m.demands[d].remedies {
		if !m.met(r, counts) {
			continue
		}
		for _, w := range m.remedies[r].wants {
			for _, o := range w.anyOf {
				if counts[o.item] >= o.count {
					items = appendNew(items, o.item)
					break
				}
			}
		}
		return items
	}
	return nil
}
