package optimum

import (
	"cmp"
	"math"
	"slices"
)

// Solve finds the best allowed choice of a problem and proves it, or gives what it
// has when it is told to stop. It is deterministic but for when it is stopped. It
// panics on a problem that fails Check.
func Solve(p *Problem, o Options) Answer {
	if err := p.Check(); err != nil {
		panic(err)
	}
	return newSearch(p, o).run()
}

func newSearch(p *Problem, o Options) *search {
	s := &search{p: p, o: o, bound: math.Inf(1), target: math.Inf(-1), barren: math.Inf(1), worthOwn: worthOwn}
	s.best = make([]bool, len(p.Columns))
	s.up, s.down = make([]score, 2*len(p.Columns)+1), make([]score, 2*len(p.Columns)+1)
	s.grain = grainOf(p)
	return s
}

func (s *search) run() Answer {
	s.first()
	if r := reduce(newDomain(s.p)); s.descend([]*reduced{r}, r.gain) {
		s.bound = s.value
	}
	return s.answer()
}

// search is one run of Solve.
type search struct {
	p     *Problem
	o     Options
	best  []bool
	value float64
	bound float64
	// target, if there is one, is what choices are supposed to be worth: see deepen
	target float64
	grain  float64 // every value is a multiple of it; 0 if that is not known
	up     []score // of branching, by entity: a column, or after all of them a group
	down   []score
	barren float64 // bound of a relaxation that cuts did not lower
	nodes  int
	ended  bool // told to stop
	asked  int

	worthOwn int // see there
	parts    int // searched as problems of their own
}

func (s *search) keep() bool {
	if s.ended {
		return false
	}
	if s.asked++; s.o.KeepGoing != nil && !s.o.KeepGoing() {
		s.ended = true
	}
	return !s.ended
}

func (s *search) answer() Answer {
	value, used, _ := s.p.Allowed(s.best)
	a := Answer{Value: value, Bound: max(value, s.bound), Taken: slices.Clone(s.best), Used: used, Nodes: s.nodes}
	a.Proved = a.Bound-a.Value <= s.slack()
	return a
}

// slack is how much better a choice must be to count.
func (s *search) slack() float64 { return Tolerance * max(math.Abs(s.value), 1e-6) }

// better is the bound below which a part of the search cannot hold a better choice.
func (s *search) better() float64 {
	if s.grain > 0 {
		return s.value + s.grain*(1-1e-6)
	}
	return s.value + s.slack()
}

// offer takes up a choice of the whole problem if it is better and allowed.
func (s *search) offer(taken []bool) bool {
	value, _, ok := s.p.Allowed(taken)
	if !ok || value <= s.value {
		return false
	}
	s.value = value
	copy(s.best, taken)
	s.tell()
	return true
}

func (s *search) tell() {
	if s.o.Found != nil {
		s.o.Found(s.answer())
	}
}

// lower takes up a better bound, of what may be worth the target.
func (s *search) lower(bound float64) {
	bound = max(bound, s.target)
	if bound < s.bound-s.slack() {
		s.bound = max(bound, s.value)
		s.tell()
	}
}

// first makes a choice without any relaxation, so that there is one from the start.
func (s *search) first() {
	s.bound = 0
	groups := map[int]float64{}
	for _, c := range s.p.Columns {
		if c.Group > 0 {
			s.bound += max(0, c.Gain-groups[c.Group])
			groups[c.Group] = max(c.Gain, groups[c.Group])
		} else {
			s.bound += max(0, c.Gain)
		}
	}
	if s.o.Start != nil {
		s.offer(s.o.Start)
	}
	c := newChoice(s.p)
	c.fill(c.byDensity())
	c.prune()
	s.offer(c.taken)
}

// cutoff is the bound below which a part of the search is left alone.
func (s *search) cutoff() float64 { return max(s.target, s.better()) }

// grainOf finds the largest step that all gains are multiples of, 0 if there is none
// worth knowing.
func grainOf(p *Problem) float64 {
	for _, unit := range []float64{1, 0.1, 0.01, 0.001, 0.0001} {
		gcd, ok := int64(0), true
		for _, c := range p.Columns {
			x := c.Gain / unit
			n := math.Round(x)
			if math.Abs(n) > 1e12 || math.Abs(x-n) > 1e-9*max(1, math.Abs(n)) {
				ok = false
				break
			}
			for a, b := gcd, int64(math.Abs(n)); ; {
				if b == 0 {
					gcd = a
					break
				}
				a, b = b, a%b
			}
		}
		if ok && gcd > 0 {
			return float64(gcd) * unit
		}
	}
	return 0
}

// byDesc sorts column numbers by a score, the largest first, ties by number.
func byDesc(list []int, score []float64) {
	slices.SortFunc(list, func(a, b int) int { return cmp.Or(cmp.Compare(score[b], score[a]), a-b) })
}
