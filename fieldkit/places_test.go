package fieldkit

import (
	"fmt"
	"math/rand/v2"
	"runtime"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whatever is put and removed, in kits that share what they began with, a record is
// found where a search from the front finds it, and nothing that is not there.
func TestPlacesAfterAnyEdits(t *testing.T) {
	for seed := range uint64(30) {
		rnd := rand.New(rand.NewPCG(seed, 9))
		c, _ := CollectionNamed("parts")
		kits := make([]Kit, 3)
		for range 400 {
			k := &kits[rnd.IntN(len(kits))]
			id := fmt.Sprint("part-", rnd.IntN(120))
			switch rnd.IntN(6) {
			case 0:
				c.Remove(k, id)
			case 1:
				kits[rnd.IntN(len(kits))] = *k
			case 2:
				c.PutAt(k, Part{ID: id}, rnd.IntN(90))
			default:
				c.Put(k, Part{ID: id})
			}
			for range 4 {
				k, id := kits[rnd.IntN(len(kits))], fmt.Sprint("part-", rnd.IntN(120))
				require.Equal(t, scan(k.Parts, id), c.Index(k, id), "seed %d", seed)
			}
		}
	}
}

func TestOfTwoWithOneIDTheFirstIsFound(t *testing.T) {
	var records []Part
	for i := range 3 * shortList {
		records = append(records, Part{ID: fmt.Sprint(i % (2 * shortList)), Name: fmt.Sprint(i)})
	}
	k := Kit{Parts: ListOf(records)}
	for range 3 * askedFirst {
		for i := range 2 * shortList {
			p, ok := k.Part(fmt.Sprint(i))
			require.True(t, ok)
			require.Equal(t, fmt.Sprint(i), p.Name)
		}
		_, ok := k.Part("none")
		require.False(t, ok)
	}
	c, _ := CollectionNamed("parts")
	c.Remove(&k, "0")
	p, _ := k.Part("0")
	require.Equal(t, fmt.Sprint(2*shortList), p.Name, "and when it goes, the second")
}

// More than what is remembered does no harm.
func TestManyListsAtOnce(t *testing.T) {
	c, _ := CollectionNamed("parts")
	begin := make([]Part, 3*shortList)
	for i := range begin {
		begin[i].ID = fmt.Sprint(i)
	}
	kits := []Kit{{Parts: ListOf(begin)}}
	for i := range 3 * mostLists {
		k := kits[i]
		k.Part("1")
		c.Put(&k, Part{ID: fmt.Sprint("new ", i)})
		c.Remove(&k, fmt.Sprint(i%5*3))
		kits = append(kits, k)
	}
	for i, k := range kits {
		for _, id := range []string{"0", "1", "3", "95", "new 0", "new 70", "new 190"} {
			require.Equal(t, scan(k.Parts, id), c.Index(k, id), "%q in kit %d", id, i)
		}
	}
}

func BenchmarkFind(b *testing.B) {
	for _, n := range []int{10, 1000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			records := make([]Link, n)
			for i := range records {
				records[i].ID = fmt.Sprint(i)
			}
			list := ListOf(records)
			for b.Loop() {
				list.Find(fmt.Sprint(n - 1))
			}
		})
	}
}

// The index of a list nobody has any more goes with it: kits that were looked at and laid
// aside, such as the kit as it was in March, do not pile up.
func TestForgetsListsThatAreGone(t *testing.T) {
	long := func() List[Part] {
		records := make([]Part, 2*shortList)
		for i := range records {
			records[i].ID = fmt.Sprint(i)
		}
		return ListOf(records)
	}
	for range mostLists / 2 {
		l := long()
		for range askedFirst + 1 {
			l.Find("5")
		}
	}
	runtime.GC()
	one := long()
	one.Find("5")
	places.Lock()
	defer places.Unlock()
	for list := range places.of {
		require.True(t, list.held(), "of %d lists", len(places.of))
	}
	require.Contains(t, places.of, one.identity())
}
