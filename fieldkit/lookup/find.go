package lookup

import (
	"slices"

	"trailfieldkit/fieldkit/standards"
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
	Positions []string // where it is fitted, as far as the query asks for it
	Donor     string   // ID of the donor it comes from, or is

	// Of a designation: what it says, and the parts of the kit that bear it. Of a row
	// of a table that is no designation: the row.
	Designation standards.Designation
	Parts       []string
	Row         *Row
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
	kit := ix.newSearch(q)
	defer kit.end()
	best := ranking{limit: limit}
	searches := []*search{kit}
	if ix.shelf != nil {
		shelf := ix.shelf.index.newSearch(q)
		defer shelf.end()
		searches = append(searches, shelf)
		for _, r := range ix.shelf.read(q, shelf) {
			best.add(r)
			for _, e := range ix.bearersOf(r.read) {
				best.add(scored{from: kit, entry: e, rank: ix.entries[e].rank, read: r.read, score: r.score + behind[DesignationHit]})
			}
		}
	}
	for missing := 0; missing == 0 || missing < q.asked && len(best.list) == 0; missing++ {
		best.least = missing
		for _, s := range searches {
			s.entriesMissing(missing, &best)
		}
	}
	var hits []Hit
	for _, f := range best.list {
		if f.score < faint*best.list[0].score {
			break
		}
		hits = append(hits, ix.bearing(f.from.hit(f)))
	}
	return hits
}

// scored is an entry, a designation that was read from the query as a whole, or an
// entry that bears such a one.
type scored struct {
	from   *search
	entry  int32                 // -1 for none
	rank   int64                 // of the entry, -1 for none
	read   standards.Designation // what the whole query was read as
	score  float64
	missed int
}

// ranking keeps the best few of what is found.
type ranking struct {
	limit int
	least int // words missed by those in the list
	list  []scored
}

// add takes in what misses no more words than the others and is among the best.
// Of equals the earlier comes first.
func (r *ranking) add(f scored) {
	switch {
	case f.missed > r.least:
		return
	case f.missed < r.least:
		r.least, r.list = f.missed, r.list[:0]
	case len(r.list) == r.limit && !f.before(r.list[r.limit-1]):
		return
	}
	if f.entry >= 0 {
		if i := slices.IndexFunc(r.list, func(x scored) bool { return x.from == f.from && x.entry == f.entry }); i >= 0 {
			if !f.before(r.list[i]) {
				return
			}
			r.list = slices.Delete(r.list, i, i+1)
		}
	}
	at := len(r.list)
	for at > 0 && f.before(r.list[at-1]) {
		at--
	}
	if at >= r.limit {
		return
	}
	if len(r.list) < r.limit {
		r.list = append(r.list, scored{})
	}
	copy(r.list[at+1:], r.list[at:])
	r.list[at] = f
}

func (f scored) before(other scored) bool {
	if f.score != other.score {
		return f.score > other.score
	}
	return f.from == other.from && f.rank < other.rank
}

// search is one query under way.
type search struct {
	ix       *Index
	shelf    bool // the index is one of published tables
	q        query
	segments []segment
	ending   [][]int // by word: the segments that end behind it
	*scratch
	base, here choice
}

func (ix *Index) newSearch(q query) *search {
	s := &search{ix: ix, shelf: ix.published, q: q, segments: ix.segments(q, true), scratch: ix.borrow()}
	n := len(s.segments)
	s.base, s.here = make(choice, n), make(choice, n)
	s.ending = make([][]int, len(q.words)+1)
	for i, seg := range s.segments {
		s.ending[seg.to] = append(s.ending[seg.to], i)
		for _, m := range seg.matches {
			s.note(m.phrase, i, n, float32(m.quality))
		}
	}
	return s
}

func (s *search) end() { s.ix.giveBack(s.scratch) }

// entriesMissing ranks the entries that account for all but some words. Such a one
// accounts for at least one of the rarest words, one more than may be missed: only what
// matches those is looked at.
func (s *search) entriesMissing(most int, best *ranking) {
	words := s.byRarity()
	words = words[:min(most+1, len(words))]
	var over []int
	for i, seg := range s.segments {
		if slices.ContainsFunc(words, func(w int) bool { return seg.from <= w && w < seg.to }) {
			over = append(over, i)
		}
	}
	s.eachEntry(over, func(e int32) { best.add(s.score(e)) })
}

// byRarity lists the words of the query that are not idle, those that the fewest
// entries account for first.
func (s *search) byRarity() (words []int) {
	entries := make([]int, len(s.q.words))
	for _, seg := range s.segments {
		n := 0
		for _, m := range seg.matches {
			n += len(s.ix.phrases[m.phrase].entries)
		}
		for w := seg.from; w < seg.to; w++ {
			entries[w] += n
		}
	}
	for w := range s.q.words {
		if !s.q.idle[w] {
			words = append(words, w)
		}
	}
	slices.SortStableFunc(words, func(a, b int) int { return entries[a] - entries[b] })
	return words
}

// eachEntry calls found once with every entry that matches one of the segments.
func (s *search) eachEntry(segments []int, found func(e int32)) {
	for _, i := range segments {
		for _, m := range s.segments[i].matches {
			for _, e := range s.ix.phrases[m.phrase].entries {
				if s.firstTime(e) {
					found(e)
				}
			}
		}
	}
	s.forgetEntries()
}

// behind is what is taken off the score of a kind of hit, so that of equals the one
// that helps most at a counter comes first.
var behind = map[Kind]float64{PartHit: 0, PositionHit: 1, DonorHit: 2, ToolHit: 2, ConsumableHit: 2, DesignationHit: 1.5, RowHit: 3, KindHit: 8}

// notFitted is taken off the score of a part that sits nowhere on the rigs.
const notFitted = 0.5

// score rates an entry by its best place.
func (s *search) score(e int32) scored {
	entry := &s.ix.entries[e]
	clear(s.base)
	s.best(s.base, entry.phrases)
	top := s.cover(s.base)
	for _, p := range entry.places {
		copy(s.here, s.base)
		s.best(s.here, p.phrases)
		if c := s.cover(s.here); c.beats(top) {
			top = c
		}
	}
	f := scored{from: s, entry: e, rank: entry.rank, missed: top.missed, score: top.sum/float64(s.q.asked) - entry.behind}
	if entry.kind == PartHit && len(entry.places) == 0 {
		f.score -= notFitted
	}
	return f
}

// choice is the best phrase of an entry for each segment.
type choice []struct {
	phrase  int32
	quality float32
}

// best looks among phrases for what matches each segment better than what is chosen
// already.
func (s *search) best(c choice, phrases []int32) {
	for _, p := range phrases {
		for i, quality := range s.qualities(p, len(s.segments)) {
			if quality > c[i].quality {
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
func (s *search) cover(c choice) covering {
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
