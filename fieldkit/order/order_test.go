package order

import (
	"math/rand"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

type record struct {
	name string
	nth  int
}

func byName(a, b record) int { return strings.Compare(a.name, b.name) }

func TestEqualEntriesStayInOrder(t *testing.T) {
	list := []record{{"u-joint", 1}, {"seal", 2}, {"u-joint", 3}, {"hub", 4}, {"seal", 5}}
	By(list, byName)
	assert.Equal(t, []record{{"hub", 4}, {"seal", 2}, {"seal", 5}, {"u-joint", 1}, {"u-joint", 3}}, list)
}

func TestShortLists(t *testing.T) {
	By(nil, byName)
	one := []record{{"seal", 1}}
	By(one, byName)
	assert.Equal(t, []record{{"seal", 1}}, one)
}

// The standard library's stable sort gives the same order.
func TestAgreesWithStableSort(t *testing.T) {
	chance := rand.New(rand.NewSource(1))
	for range 200 {
		list := make([]record, chance.Intn(100))
		for i := range list {
			list[i] = record{string(rune('a' + chance.Intn(9))), i}
		}
		want := slices.Clone(list)
		slices.SortStableFunc(want, byName)
		By(list, byName)
		assert.Equal(t, want, list)
	}
}
