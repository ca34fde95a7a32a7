package lookup

import (
	"math/bits"
	"slices"

	"trailfieldkit/fieldkit/order"
)

// Hit is one thing found.
type Hit struct {
	Kind      Kind
	ID        string
	Title     string
	Sub       string   // where it is fitted, what is in stock
	Why       []string // in plain words, at least one
	Score     float64  // of 100
	Part      string   // ID, for a part
	Position  string   // ID, for a position; of a part the first of Positions
	Positions []string // of a part: where it is fitted, as far as the query asks for it
	Donor     string   // ID of the donor it comes from, or is
}

// faint is the share of the best score below which a hit is noise beside it.
const faint = 0.45

// Find gives what the query may mean, best first, at most limit (and MaxHits) hits.
// An empty query gives none.
func (ix *Index) Find(text string, limit int) []Hit {
	q := parse(text)
	limit = min(limit, MaxHits)
	if q.asked == 0 || limit <= 0 {
		return nil
	}
	s := ix.newSearch(q)
	found := s.strict()
	if len(found) == 0 {
		found = s.lenient()
	}
	order.By(found, func(a, b scored) int {
		switch {
		case a.score > b.score:
			return -1
		case a.score < b.score:
			return 1
		}
		return int(a.entry - b.entry)
	})
	var hits []Hit
	for _, f := range found[:min(limit, len(found))] {
		if f.score < faint*found[0].score {
			break
		}
		hits = append(hits, s.hit(f))
	}
	return hits
}

// search is one query under way.
type search struct {
	ix       *Index
	q        query
	segments []segment
	// mask says for each phrase which segments it matches; quality how well, at
	// phrase × len(segments) + segment.
	mask    []uint64
	quality []float32
	ending  [][]int // by word: the segments that end behind it
}

type scored struct {
	entry  int32
	score  float64
	missed int
}

func (ix *Index) newSearch(q query) *search {
	s := &search{ix: ix, q: q, segments: ix.segments(q, true), mask: make([]uint64, len(ix.phrases))}
	n := len(s.segments)
	s.quality = make([]float32, n*len(ix.phrases))
	s.ending = make([][]int, len(q.words)+1)
	for i, seg := range s.segments {
		s.ending[seg.to] = append(s.ending[seg.to], i)
		for _, m := range seg.matches {
			s.mask[m.phrase] |= 1 << i
			at := int(m.phrase)*n + i
			s.quality[at] = max(s.quality[at], float32(m.quality))
		}
	}
	return s
}

// strict finds the entries that account for every word, starting from the word that
// the fewest do.
func (s *search) strict() []scored {
	var best []int // segments over the rarest word
	rarest := -1
	for w := range s.q.words {
		if s.q.idle[w] {
			continue
		}
		var over []int
		entries := 0
		for i, seg := range s.segments {
			if seg.from <= w && w < seg.to {
				over = append(over, i)
				for _, m := range seg.matches {
					entries += len(s.ix.phrases[m.phrase].entries)
				}
			}
		}
		if rarest < 0 || entries < rarest {
			best, rarest = over, entries
		}
	}
	var found []scored
	for _, e := range s.entriesOf(best) {
		if f := s.score(e); f.missed == 0 {
			found = append(found, f)
		}
	}
	return found
}

// lenient finds the entries that miss the fewest words; one at least must match.
func (s *search) lenient() []scored {
	all := make([]int, len(s.segments))
	for i := range all {
		all[i] = i
	}
	var found []scored
	least := s.q.asked - 1
	for _, e := range s.entriesOf(all) {
		f := s.score(e)
		if f.missed < least {
			least, found = f.missed, nil
		}
		if f.missed == least {
			found = append(found, f)
		}
	}
	return found
}

func (s *search) entriesOf(segments []int) []int32 {
	seen := make([]bool, len(s.ix.entries))
	var list []int32
	for _, i := range segments {
		for _, m := range s.segments[i].matches {
			for _, e := range s.ix.phrases[m.phrase].entries {
				if !seen[e] {
					seen[e] = true
					list = append(list, e)
				}
			}
		}
	}
	return list
}

// behind is what is taken off the score of a kind of hit, so that of equals the one
// that helps most at a counter comes first.
var behind = map[Kind]float64{PartHit: 0, PositionHit: 1, DonorHit: 2, ToolHit: 2, ConsumableHit: 2, KindHit: 8}

// notFitted is taken off the score of a part that sits nowhere on the rigs.
const notFitted = 0.5

// score rates an entry by its best place.
func (s *search) score(e int32) scored {
	entry := &s.ix.entries[e]
	var base choice
	s.best(&base, entry.phrases)
	top := s.cover(&base)
	for _, p := range entry.places {
		here := base
		s.best(&here, p.phrases)
		if c := s.cover(&here); c.beats(top) {
			top = c
		}
	}
	f := scored{entry: e, missed: top.missed, score: top.sum/float64(s.q.asked) - behind[entry.kind]}
	if entry.kind == PartHit && len(entry.places) == 0 {
		f.score -= notFitted
	}
	return f
}

// choice is the best phrase of an entry for each segment.
type choice [maxSegments]struct {
	phrase  int32
	quality float32
}

// best looks among phrases for what matches each segment better than what is chosen
// already.
func (s *search) best(c *choice, phrases []int32) {
	n := len(s.segments)
	for _, p := range phrases {
		for mask := s.mask[p]; mask != 0; mask &= mask - 1 {
			i := bits.TrailingZeros64(mask)
			if quality := s.quality[int(p)*n+i]; quality > c[i].quality {
				c[i].phrase, c[i].quality = p, quality
			}
		}
	}
}

// covering accounts for the words of the query by segments that follow each other.
type covering struct {
	missed int
	sum    float64            // of quality times words
	with   [MaxWords + 1]int8 // by word: the segment that ends behind it, -1 for none
}

func (c covering) beats(other covering) bool {
	return c.missed < other.missed || c.missed == other.missed && c.sum > other.sum
}

// cover picks the segments that account for most words, and best.
func (s *search) cover(c *choice) covering {
	var with [MaxWords + 1]int8
	var missed [MaxWords + 1]int
	var sum [MaxWords + 1]float64
	for w := 1; w <= len(s.q.words); w++ {
		with[w], missed[w], sum[w] = -1, missed[w-1], sum[w-1]
		if !s.q.idle[w-1] {
			missed[w]++
		}
		for _, i := range s.ending[w] {
			if c[i].quality == 0 {
				continue
			}
			seg := &s.segments[i]
			m, total := missed[seg.from], sum[seg.from]+float64(c[i].quality)*float64(seg.asked)
			if m < missed[w] || m == missed[w] && total > sum[w] {
				with[w], missed[w], sum[w] = int8(i), m, total
			}
		}
	}
	n := len(s.q.words)
	return covering{missed: missed[n], sum: sum[n], with: with}
}

// chosen lists the segments of a covering in the order of the query.
func (s *search) chosen(c covering) (list []int) {
	for w := len(s.q.words); w > 0; {
		i := int(c.with[w])
		if i < 0 {
			w--
			continue
		}
		list = append(list, i)
		w = s.segments[i].from
	}
	slices.Reverse(list)
	return list
}
