package lookup

// scratch is what one search notes down. It is as large as the index, so it is lent
// out again rather than made anew, and grows with it; it is handed back clean.
type scratch struct {
	row     []int32   // by phrase: where its qualities stand, from 1; 0 for nowhere
	noted   []int32   // phrases that have a row
	quality []float32 // rows of one figure for each segment
	seen    []bool    // by entry
	entries []int32   // seen
}

func (ix *Index) borrow() *scratch {
	if s, ok := ix.pool.Get().(*scratch); ok {
		s.row = append(s.row, make([]int32, len(ix.phrases)-len(s.row))...)
		s.seen = append(s.seen, make([]bool, len(ix.entries)-len(s.seen))...)
		return s
	}
	return &scratch{row: make([]int32, len(ix.phrases)), seen: make([]bool, len(ix.entries))}
}

func (ix *Index) giveBack(s *scratch) {
	for _, p := range s.noted {
		s.row[p] = 0
	}
	s.noted, s.quality = s.noted[:0], s.quality[:0]
	ix.pool.Put(s)
}

// note keeps how well a phrase matches segment i of n, if it is better than before.
func (s *scratch) note(phrase int32, i, n int, quality float32) {
	r := s.row[phrase]
	if r == 0 {
		s.noted = append(s.noted, phrase)
		r = int32(len(s.noted))
		s.row[phrase] = r
		for range n {
			s.quality = append(s.quality, 0)
		}
	}
	at := &s.quality[(int(r)-1)*n+i]
	*at = max(*at, quality)
}

// qualities gives how well a phrase matches each of n segments; none if it matches
// none.
func (s *scratch) qualities(phrase int32, n int) []float32 {
	r := int(s.row[phrase])
	if r == 0 {
		return nil
	}
	return s.quality[(r-1)*n : r*n]
}

// firstTime reports whether an entry was not seen before, and notes that it was.
func (s *scratch) firstTime(e int32) bool {
	if s.seen[e] {
		return false
	}
	s.seen[e] = true
	s.entries = append(s.entries, e)
	return true
}

func (s *scratch) forgetEntries() {
	for _, e := range s.entries {
		s.seen[e] = false
	}
	s.entries = s.entries[:0]
}
