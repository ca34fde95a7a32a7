package spares

import (
	"encoding/binary"
	"slices"
)

// search holds a choice of items while it is changed, with what it is worth.
type search struct {
	p       *problem
	counts  []int
	met     []bool    // by remedy: on board whole
	values  []float64 // by pool, of the choice as last settled
	settled []int     // by pool: the turn at which it last changed
	turn    int
	seen    map[string]float64 // values by key
	options [][]int            // by item: the remedies of the demands it reaches
	users   [][]int            // by remedy: the items that reach a demand it fixes
}

// newSearch starts with a choice.
func newSearch(p *problem, counts []int) *search {
	s := &search{p: p, seen: map[string]float64{}}
	s.options, s.users = make([][]int, len(p.items)), make([][]int, len(p.remedies))
	for _, d := range p.demands {
		if p.turn != nil {
			p.turn()
		}
		for _, via := range d.reach {
			for _, r := range d.remedies {
				if !slices.Contains(s.options[via.item], r) {
					s.options[via.item] = append(s.options[via.item], r)
					s.users[r] = append(s.users[r], via.item)
				}
			}
		}
	}
	for r := range s.users {
		slices.Sort(s.users[r])
	}
	s.start(counts)
	return s
}

// start takes up a choice in place of the one before.
func (s *search) start(counts []int) {
	s.counts = slices.Clone(counts)
	s.met, s.values = make([]bool, len(s.p.remedies)), make([]float64, len(s.p.pools))
	for r := range s.met {
		s.met[r] = s.p.met(r, s.counts)
	}
	s.settled = make([]int, len(s.p.pools))
	s.turn++
	for pool := range s.values {
		s.values[pool], s.settled[pool] = s.value(pool), s.turn
	}
}

// add changes the choice by some items, sign 1 or -1, and returns the pools whose
// value that may change, in order.
func (s *search) add(items []option, sign int) (pools []int) {
	var remedies []int
	for _, a := range items {
		s.counts[a.item] += sign * a.count
		if pool := s.p.poolOf[a.item]; pool >= 0 {
			pools = append(pools, pool)
		}
		remedies = append(remedies, s.p.neededBy[a.item]...)
	}
	slices.Sort(remedies)
	for _, r := range slices.Compact(remedies) {
		if met := s.p.met(r, s.counts); met != s.met[r] {
			s.met[r] = met
			pools = append(pools, s.p.poolsFor[r]...)
		}
	}
	slices.Sort(pools)
	return slices.Compact(pools)
}

// settle changes the choice for good.
func (s *search) settle(items []option, sign int) {
	s.turn++
	for _, pool := range s.add(items, sign) {
		s.values[pool], s.settled[pool] = s.value(pool), s.turn
	}
}

// gain is what adding items would add to the value of the choice; with sign -1 it is
// what leaving them at home would take from it, below nothing.
func (s *search) gain(items []option, sign int) (gain float64) {
	pools := s.add(items, sign)
	gain = s.change(pools)
	s.add(items, -sign)
	return gain
}

// change sums what some pools are worth beyond their settled values.
func (s *search) change(pools []int) (sum float64) {
	for _, pool := range pools {
		sum += s.value(pool) - s.values[pool]
	}
	return sum
}

// total is the value of the choice.
func (s *search) total() (sum float64) {
	for _, v := range s.values {
		sum += v
	}
	return sum
}

// value looks up or computes what the choice is worth in one pool.
func (s *search) value(pool int) float64 {
	key := s.key(pool)
	v, ok := s.seen[key]
	if !ok {
		v = s.p.worthOf(pool, s.counts).value
		s.seen[key] = v
	}
	return v
}

// key encodes what decides a pool's value: the copies of its spares and which of its
// demands can be fixed.
func (s *search) key(pool int) string {
	key := binary.AppendUvarint(make([]byte, 0, 32), uint64(pool))
	for _, d := range s.p.pools[pool] {
		ready := slices.ContainsFunc(s.p.demands[d].remedies, func(r int) bool { return s.met[r] })
		if !ready {
			key = append(key, 0)
			continue
		}
		key = append(key, 1)
		for _, r := range s.p.demands[d].reach {
			key = binary.AppendUvarint(key, uint64(s.counts[r.item]))
		}
	}
	return string(key)
}

// complete lists what a remedy still lacks on top of a load: of what meets a want the
// preferred one that fits the limits, else the preferred one. possible is false if
// some want cannot be met.
func (s *search) complete(r int, now load) (lacks []option, possible bool) {
	defer func() { s.put(lacks, -1) }()
	for _, w := range s.p.remedies[r].wants {
		if w.met(s.counts) {
			continue
		}
		chosen, choice := option{}, load{}
		for _, o := range w.anyOf {
			if !s.p.mayTake(o) {
				continue
			}
			more := option{o.item, o.count - s.counts[o.item]}
			then := s.p.with(now, s.counts, []option{more})
			_, fits := s.p.share(now, then)
			if chosen.count == 0 || fits {
				chosen, choice = more, then
			}
			if fits {
				break
			}
		}
		if chosen.count == 0 {
			return lacks, false
		}
		// Put on board at once: what meets this want may meet the next as well.
		lacks, now = merge(lacks, chosen), choice
		s.put([]option{chosen}, 1)
	}
	return lacks, true
}

// put changes counts alone, for a moment.
func (s *search) put(items []option, sign int) {
	for _, a := range items {
		s.counts[a.item] += sign * a.count
	}
}

// merge adds to a list that names each item once.
func merge(items []option, more option) []option {
	for i := range items {
		if items[i].item == more.item {
			items[i].count += more.count
			return items
		}
	}
	return append(items, more)
}
