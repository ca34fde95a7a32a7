package fieldkit

import (
	"iter"
	"maps"
	"sync"
	"weak"
)

// Grouped finds the records of a long list that have something in common, such as the
// spares of a part, without going through the list. What it has to know for that is
// kept for each block of a list, so that an edit costs one block and not the list.
//
//	var sparesOf = fieldkit.GroupedBy(func(s *Spare, under func(key string)) { under(s.Part) })
//	for _, s := range sparesOf.All(kit.Spares, "bearing") { … }
type Grouped[T Record] struct {
	by     func(r *T, under func(key string))
	mu     sync.Mutex
	blocks map[weak.Pointer[*T]]map[string][]int // places in a block, rising
	room   int                                   // for so many blocks, before those nobody holds any more are dropped
}

// GroupedBy groups records under what by calls under with: once, several times, or
// never for a record that nobody looks for. The empty key is as good as none.
func GroupedBy[T Record](by func(r *T, under func(key string))) *Grouped[T] {
	return &Grouped[T]{by: by, blocks: map[weak.Pointer[*T]]map[string][]int{}}
}

// All goes through the places and records under a key in the order of the list. As with
// List.Ref, the records are shared.
func (g *Grouped[T]) All(l List[T], key string) iter.Seq2[int, *T] {
	return func(yield func(int, *T) bool) {
		for b, block := range l.blocks {
			for _, i := range g.placesIn(block)[key] {
				if !yield(b*blockSize+i, block[i]) {
					return
				}
			}
		}
	}
}

const fewBlocks = 64

func (g *Grouped[T]) placesIn(block []*T) map[string][]int {
	g.mu.Lock()
	defer g.mu.Unlock()
	held := weak.Make(&block[0])
	if places, ok := g.blocks[held]; ok {
		return places
	}
	if len(g.blocks) >= g.room {
		maps.DeleteFunc(g.blocks, func(held weak.Pointer[*T], _ map[string][]int) bool { return held.Value() == nil })
		g.room = max(fewBlocks, 2*len(g.blocks))
	}
	places := map[string][]int{}
	for i, r := range block {
		g.by(r, func(key string) {
			if at := places[key]; key != "" && (len(at) == 0 || at[len(at)-1] != i) {
				places[key] = append(at, i)
			}
		})
	}
	g.blocks[held] = places
	return places
}
