package fieldkit

import (
	"maps"
	"sync"
	"weak"
)

// Find returns the record of that ID; ok is false if there is none.
func Find[T Record](list []T, id string) (r T, ok bool) {
	for i := range list {
		if list[i].Key() == id {
			return list[i], true
		}
	}
	return r, false
}

const (
	shortList  = 32  // is searched from its front each time
	askedFirst = 2   // so often a long list is, before an index of it pays
	mostLists  = 64  // of which an index is remembered
	mostMoves  = 256 // after which an index is made anew
)

// placed is a list whose records have IDs.
type placed interface {
	Len() int
	idAt(i int) string
	identity() identity
}

// identity is comparable, and another for each list. Held says whether anybody still has
// the list.
type identity interface{ held() bool }

// firstBlock is a list's identity: the weak address of its first block, so that a kit
// nobody holds any more can go.
type firstBlock[T Record] struct{ at weak.Pointer[[]*T] }

func (b firstBlock[T]) held() bool { return b.at.Value() != nil }

func (l List[T]) identity() identity { return firstBlock[T]{weak.Make(&l.blocks[0])} }

// places remembers where the records of long lists are, for the lists searched
// lately.
var places = struct {
	sync.Mutex
	of   map[identity]*listed
	used int // rises with each use
}{of: map[identity]*listed{}}

// listed is what is known of a list: of the first n records of an index, those that
// are left after the moves.
type listed struct {
	index *placeIndex // none before the list was asked for a few times
	n     int
	moves []move // never changed in place
	asked int
	used  int
}

// placeIndex says where the records of a list were, from 1. Lists that came from one
// another share one.
type placeIndex struct {
	at    map[string]int
	n     int
	twice bool // an ID stands for two records
}

// move is a record put into a list or taken out of it.
type move struct {
	place int
	id    string
	in    bool
}

// placeOf gives the place of a record from 0, -1 if there is none; of several with
// the same ID the first.
func placeOf(list placed, id string) int {
	if list.Len() < shortList {
		return scan(list, id)
	}
	places.Lock()
	defer places.Unlock()
	l := remembered(list)
	if l.index == nil {
		if l.asked++; l.asked <= askedFirst {
			return scan(list, id)
		}
		l.index, l.n = indexOf(list), list.Len()
	}
	return l.place(id)
}

func (l *listed) place(id string) int {
	at := l.index.at[id] - 1
	if at >= l.n {
		at = -1 // in a list that has grown from the same beginning
	}
	for _, m := range l.moves {
		switch {
		case m.in && m.id == id:
			at = m.place
		case m.in && at >= m.place:
			at++
		case !m.in && at == m.place:
			at = -1
		case !m.in && at > m.place:
			at--
		}
	}
	return at
}

func indexOf(list placed) *placeIndex {
	index := &placeIndex{at: make(map[string]int, list.Len()), n: list.Len()}
	for i := range index.n {
		key := list.idAt(i)
		if index.at[key] == 0 {
			index.at[key] = i + 1
		} else {
			index.twice = true
		}
	}
	return index
}

// remembered finds or begins what is known of a list. The caller holds the lock.
func remembered(list placed) *listed {
	key := list.identity()
	l, ok := places.of[key]
	if !ok {
		maps.DeleteFunc(places.of, func(list identity, _ *listed) bool { return !list.held() })
		if len(places.of) >= mostLists {
			forgetOne()
		}
		l = &listed{}
		places.of[key] = l
	}
	places.used++
	l.used = places.used
	return l
}

// forgetOne drops what was not asked for the longest.
func forgetOne() {
	var oldest identity
	for key, l := range places.of {
		if oldest == nil || l.used < places.of[oldest].used {
			oldest = key
		}
	}
	delete(places.of, oldest)
}

// goOver lets the index of a list go over to the list that came from it by these
// moves; none if only a record was replaced by one of the same ID.
func goOver(before, after placed, moves ...move) {
	if before.Len() < shortList || after.Len() < shortList {
		return
	}
	places.Lock()
	defer places.Unlock()
	was := *remembered(before)
	if was.index == nil {
		remembered(after).asked = was.asked // a replay asks each list once
		return
	}
	if was.index.twice || len(was.moves)+len(moves) > mostMoves {
		return
	}
	is := remembered(after)
	is.index, is.n, is.moves = was.index, was.n, was.moves
	for _, m := range moves {
		if m.in && m.place == before.Len() && is.n == is.index.n && is.index.at[m.id] == 0 {
			is.n++ // the index grows with the list
			is.index.n, is.index.at[m.id] = is.n, is.n
			continue
		}
		is.moves = append(is.moves[:len(is.moves):len(is.moves)], m)
	}
}

func scan(list placed, id string) int {
	for i := range list.Len() {
		if list.idAt(i) == id {
			return i
		}
	}
	return -1
}
