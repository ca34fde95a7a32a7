package optimum

// node is a part of the search yet to be looked at.
type node struct {
	bound  float64
	serial int
	fixed  []int32 // column·2 + value, all from the root on
	musts  []int32
	head   []int32 // basis of its parent
	atHi   []bool
}

type nodes []*node

func (h nodes) Len() int { return len(h) }
func (h nodes) Less(i, j int) bool {
	if h[i].bound != h[j].bound {
		return h[i].bound > h[j].bound
	}
	return h[i].serial > h[j].serial
}
func (h nodes) Swap(i, j int) { h[i], h[j] = h[j], h[i] }
func (h *nodes) Push(x any)   { *h = append(*h, x.(*node)) }
func (h *nodes) Pop() any {
	last := (*h)[len(*h)-1]
	*h = (*h)[:len(*h)-1]
	return last
}
