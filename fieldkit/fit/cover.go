package fit

import (
	"math/bits"
	"slices"
)

// coverSet is a set of items with what choosing it costs, above 0.
type coverSet struct {
	items []int
	cost  int
}

// cheapestCover chooses sets that together hold every item below n, at the least cost;
// of several such choices the one whose places come first. It is exact: branch and
// bound over the item that the fewest sets hold. ok is false if some item is in no
// set; then the others are covered.
func cheapestCover(n int, sets []coverSet) (chosen []int, ok bool) {
	c := cover{words: (n + 63) / 64, sets: sets}
	all := c.none()
	holders := make([][]int, n)
	for i, s := range sets {
		mask := c.none()
		for _, item := range s.items {
			if !mask.has(item) {
				mask.add(item)
				holders[item] = append(holders[item], i)
			}
		}
		c.masks = append(c.masks, mask)
	}
	ok = true
	for item := range n {
		if len(holders[item]) == 0 {
			ok = false
			continue
		}
		all.add(item)
		holders[item] = slices.DeleteFunc(holders[item], c.needless)
	}
	c.holders = holders
	c.best = -1
	c.search(all, nil, 0)
	return c.chosen, ok
}

type cover struct {
	words   int
	sets    []coverSet
	masks   []mask
	holders [][]int // by item: the sets that hold it
	best    int     // cost of the best choice so far, -1 for none
	chosen  []int
}

// mask is a set of items, a bit each.
type mask []uint64

func (c *cover) none() mask { return make(mask, c.words) }

func (m mask) has(i int) bool { return m[i/64]>>(i%64)&1 == 1 }
func (m mask) add(i int)      { m[i/64] |= 1 << (i % 64) }

func (m mask) without(other mask) mask {
	left := slices.Clone(m)
	for i := range left {
		left[i] &^= other[i]
	}
	return left
}

func (m mask) common(other mask) (n int) {
	for i := range m {
		n += bits.OnesCount64(m[i] & other[i])
	}
	return n
}

func (m mask) empty() bool { return !slices.ContainsFunc(m, func(w uint64) bool { return w != 0 }) }

// needless reports a set that another one replaces in every choice: it holds no less,
// costs no more, and comes first or costs less.
func (c *cover) needless(s int) bool {
	for i := range c.sets {
		if i != s && c.sets[i].cost <= c.sets[s].cost && (i < s || c.sets[i].cost < c.sets[s].cost) && c.masks[s].without(c.masks[i]).empty() {
			return true
		}
	}
	return false
}

func (c *cover) search(left mask, taken []int, cost int) {
	if left.empty() {
		sorted := slices.Sorted(slices.Values(taken))
		if c.best < 0 || cost < c.best || cost == c.best && slices.Compare(sorted, c.chosen) < 0 {
			c.best, c.chosen = cost, sorted
		}
		return
	}
	if c.best >= 0 && cost+c.atLeast(left) > c.best {
		return
	}
	// The item that fewest sets hold: every choice must take one of those.
	item, fewest := -1, 0
	for i := range c.holders {
		if left.has(i) && (item < 0 || len(c.holders[i]) < fewest) {
			item, fewest = i, len(c.holders[i])
		}
	}
	byGain := slices.Clone(c.holders[item])
	slices.SortStableFunc(byGain, func(a, b int) int {
		// the cheaper by item that is still open
		return c.sets[a].cost*c.masks[b].common(left) - c.sets[b].cost*c.masks[a].common(left)
	})
	for _, s := range byGain {
		c.search(left.without(c.masks[s]), append(slices.Clone(taken), s), cost+c.sets[s].cost)
	}
}

// atLeast bounds what covering the items left costs from below: each of them costs at
// least its share of the set that holds it most cheaply. The shares are added in
// thousandths and rounded up.
func (c *cover) atLeast(left mask) int {
	sum := 0
	for item := range c.holders {
		if !left.has(item) {
			continue
		}
		least := -1
		for _, s := range c.holders[item] {
			if share := c.sets[s].cost * 1000 / c.masks[s].common(left); least < 0 || share < least {
				least = share
			}
		}
		sum += least
	}
	return (sum + 999) / 1000
}
