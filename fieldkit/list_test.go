package fieldkit

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A list is what a slice is on which the same was done, whatever its length, and
// equal to the list made from that slice at once.
func TestListIsAsASlice(t *testing.T) {
	parts, _ := CollectionNamed("parts")
	for seed := range uint64(8) {
		rnd := rand.New(rand.NewPCG(seed, 3))
		var want []Part
		for i := range rnd.IntN(3 * blockSize) {
			want = append(want, Part{ID: fmt.Sprint("old-", i)})
		}
		k := Kit{Parts: ListOf(slices.Clone(want))}
		for step := range 40 {
			before, was := k, slices.Clone(want)
			id := fmt.Sprint("new-", step)
			switch place := rnd.IntN(len(want) + 1); rnd.IntN(5) {
			case 0:
				parts.PutAt(&k, Part{ID: id}, place)
				want = slices.Insert(want, place, Part{ID: id})
			case 1, 2:
				if place < len(want) {
					parts.Remove(&k, want[place].ID)
					want = slices.Delete(want, place, place+1)
				}
			case 3:
				if place < len(want) {
					want[place].Name = id
					parts.Put(&k, want[place])
				}
			default:
				more := make([]Part, rnd.IntN(2*blockSize))
				for i := range more {
					more[i].ID = fmt.Sprint(id, "-", i)
				}
				k.Parts = k.Parts.With(more...)
				want = append(want, more...)
			}
			require.Equal(t, len(want), k.Parts.Len(), "seed %d", seed)
			require.True(t, slices.EqualFunc(want, k.Parts.Slice(), same), "seed %d", seed)
			require.True(t, slices.EqualFunc(was, before.Parts.Slice(), same), "seed %d: the list of before has changed", seed)
		}
		require.Equal(t, ListOf(want), k.Parts, "seed %d", seed)
		for i, p := range k.Parts.All() {
			require.True(t, same(want[i], p) && same(want[i], k.Parts.At(i)), "seed %d", seed)
		}
	}
}

func same(a, b Part) bool { return a.ID == b.ID && a.Name == b.Name }

func TestListsThatAreOne(t *testing.T) {
	a := ListOf([]Part{{ID: "a"}})
	assert.True(t, a.Same(a))
	assert.True(t, List[Part]{}.Same(ListOf[Part](nil)))
	assert.False(t, a.Same(ListOf([]Part{{ID: "a"}})))
	assert.False(t, a.Same(a.With(Part{ID: "b"})))
}

// What an edit allocates does not grow with the list.
func TestAnEditCopiesLittleOfALongList(t *testing.T) {
	bytesOf := func(n int) int64 {
		records := make([]Link, n)
		for i := range records {
			records[i].ID = fmt.Sprint(i)
		}
		k := Kit{Links: ListOf(records)}
		links, _ := CollectionNamed("links")
		for range 3 * askedFirst {
			k.Links.Find("0") // so that the index is there
		}
		return testing.Benchmark(func(b *testing.B) {
			b.ReportAllocs()
			for i := range b.N {
				link, _ := k.Links.Find(fmt.Sprint(i % n))
				link.Note = "seen"
				edited := k
				links.Put(&edited, link)
			}
		}).AllocedBytesPerOp()
	}
	small, large := bytesOf(1000), bytesOf(100_000)
	t.Logf("bytes allocated by an edit: %d in a list of 1,000, %d in one of 100,000", small, large)
	assert.Less(t, large, 3*small)
}

// What changed between two lists, however they came about: the records of the one
// without those of the other.
func TestChangedGivesWhatOnlyOneListHas(t *testing.T) {
	parts, _ := CollectionNamed("parts")
	without := func(a, b List[Part]) map[*Part]bool {
		left := map[*Part]bool{}
		for _, r := range a.Refs() {
			left[r] = true
		}
		for _, r := range b.Refs() {
			delete(left, r)
		}
		return left
	}
	set := func(list []*Part) map[*Part]bool {
		all := map[*Part]bool{}
		for _, r := range list {
			all[r] = true
		}
		return all
	}
	for seed := range uint64(12) {
		rnd := rand.New(rand.NewPCG(seed, 5))
		records := make([]Part, rnd.IntN(2*blockSize))
		for i := range records {
			records[i].ID = fmt.Sprint("old-", i)
		}
		k := Kit{Parts: ListOf(records)}
		lists := []List[Part]{{}, k.Parts}
		for step := range 6 {
			for range rnd.IntN(4) {
				id := fmt.Sprint("old-", rnd.IntN(len(records)+1))
				switch rnd.IntN(3) {
				case 0:
					parts.PutAt(&k, Part{ID: fmt.Sprint("new-", step)}, rnd.IntN(len(records)+1))
				case 1:
					parts.Remove(&k, id)
				case 2:
					parts.Put(&k, Part{ID: id, Name: "changed"})
				}
			}
			lists = append(lists, k.Parts)
		}
		for i, before := range lists {
			for j, after := range lists {
				gone, came := Changed(before, after)
				require.True(t, maps.Equal(without(before, after), set(gone)), "seed %d, from %d to %d", seed, i, j)
				require.True(t, maps.Equal(without(after, before), set(came)), "seed %d, from %d to %d", seed, i, j)
			}
		}
	}
}
