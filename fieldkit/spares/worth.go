package spares

// outcome is what a choice of items does for one pool of demands.
type outcome struct {
	value float64     // expected hours saved
	uses  [][]float64 // by demand of the pool, by its reach: expected pieces used
}

const (
	// leastMass is the probability below which a course of events is not followed
	// any further: far below what any likelihood on a rig is known to.
	leastMass = 1e-12
	// maxStates bounds the courses of events kept at a time. A pool whose spares on
	// board exceed it counts on the first of them alone, which makes its value too
	// low, never too high.
	maxStates = 4096
)

// worthOf follows the failures of one pool over the trip, one after the other,
// and returns what the spares on board save on average. It is exact for Poisson
// demands: the n-th failure happens with probability P(N ≥ n), falls on a demand in
// proportion to its rate, and uses up the first piece that fits. For one kind of
// spare the sum is hours × E[min(N, copies)].
func (p *problem) worthOf(pool int, counts []int) outcome {
	return p.follow(pool, counts, func(d int) bool { return p.ready(d, counts) }, p.turn)
}

// worthIf is worthOf where it is given which demands can be fixed, spare aside.
func (p *problem) worthIf(pool int, counts []int, ready func(d int) bool) outcome {
	return p.follow(pool, counts, ready, nil)
}

// statesInTurn is after how many courses of events the screen gets its turn.
const statesInTurn = 256

// follow works out worthIf. turn is called now and then, unless it is nil.
func (p *problem) follow(pool int, counts []int, ready func(d int) bool, turn func()) outcome {
	members := p.pools[pool]
	out := outcome{uses: make([][]float64, len(members))}
	for m, d := range members {
		out.uses[m] = make([]float64, len(p.demands[d].reach))
	}
	live, total := p.live(members, counts, ready)
	if len(live) == 0 {
		return out
	}
	chains, states := p.chains(members, live, counts, enough(total))
	now, next := make([]float64, states), make([]float64, states)
	now[states-1] = 1 // everything still on board
	for n := 1; ; n++ {
		happens, served := AtLeast(n, total), 0.0
		for state, mass := range now {
			if turn != nil && state%statesInTurn == 0 {
				turn()
			}
			if mass == 0 {
				continue
			}
			now[state] = 0
			for i, m := range live {
				d := &p.demands[members[m]]
				q := mass * d.rate / total
				used, left := chains[i].use(state)
				next[left] += q
				if used >= 0 {
					q *= happens
					served += q
					out.uses[m][used] += q
					out.value += q * float64(d.hours) * d.reach[used].worth
				}
			}
		}
		if served < leastMass {
			return out
		}
		now, next = next, now
	}
}

// live returns the members of a pool that can be fixed and have a spare on board,
// and their failures expected together.
func (p *problem) live(members, counts []int, ready func(d int) bool) (live []int, total float64) {
	for m, d := range members {
		carried := false
		for _, r := range p.demands[d].reach {
			carried = carried || counts[r.item] > 0
		}
		if carried && p.demands[d].rate > 0 && ready(d) {
			live = append(live, m)
			total += p.demands[d].rate
		}
	}
	return live, total
}

// enough is the number of pieces that no demand of that mean ever exhausts.
func enough(mean float64) int {
	n := 1
	for AtLeast(n, mean) >= leastMass {
		n++
	}
	return n
}

// chain is the order in which one demand draws on the spares on board.
type chain []link

// link is one spare as a digit of the state, a mixed-radix number that says what is
// left of each.
type link struct{ reach, stride, radix int }

// chains numbers the states and returns the chain of each live member.
func (p *problem) chains(members, live, counts []int, enough int) (chains []chain, states int) {
	states = 1
	digits := map[int]link{} // by item
	for _, m := range live {
		var c chain
		for r, via := range p.demands[members[m]].reach {
			digit, known := digits[via.item]
			if copies := min(counts[via.item], enough); !known && copies > 0 && states*(copies+1) <= maxStates {
				digit, known = link{stride: states, radix: copies + 1}, true
				digits[via.item] = digit
				states *= copies + 1
			}
			if known {
				c = append(c, link{r, digit.stride, digit.radix})
			}
		}
		chains = append(chains, c)
	}
	return chains, states
}

// use takes the first spare of the chain that is left. It returns which of the
// demand's reach that is, -1 for none, and the state afterwards.
func (c chain) use(state int) (reach, left int) {
	for _, l := range c {
		if state/l.stride%l.radix > 0 {
			return l.reach, state - l.stride
		}
	}
	return -1, state
}
