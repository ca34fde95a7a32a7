package fieldkit

import (
	"fmt"
	"math/rand/v2"
	"reflect"
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
				require.Equal(t, scan(reflect.ValueOf(k.Parts), id), c.Index(k, id), "seed %d", seed)
			}
		}
	}
}

func TestOfTwoWithOneIDTheFirstIsFound(t *testing.T) {
	var list []Part
	for i := range 3 * shortList {
		list = append(list, Part{ID: fmt.Sprint(i % (2 * shortList)), Name: fmt.Sprint(i)})
	}
	for range 3 * askedFirst {
		for i := range 2 * shortList {
			p, ok := Find(list, fmt.Sprint(i))
			require.True(t, ok)
			require.Equal(t, fmt.Sprint(i), p.Name)
		}
		_, ok := Find(list, "none")
		require.False(t, ok)
	}
}

func BenchmarkFind(b *testing.B) {
	for _, n := range []int{10, 1000, 100_000} {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			list := make([]Link, n)
			for i := range list {
				list[i].ID = fmt.Sprint(i)
			}
			last := list[n-1].ID
			for b.Loop() {
				Find(list, last)
			}
		})
	}
}
