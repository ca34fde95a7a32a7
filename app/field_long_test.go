package app

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestShortened(t *testing.T) {
	all := []option{{"", "not known yet"}, {newPart, "a part not written down yet …"}}
	for i := range 400 {
		all = append(all, option{fmt.Sprint("part-", i), fmt.Sprintf("Hub seal no. %d", i)})
	}
	for _, c := range []struct {
		name, ahead, look string
		first             []string // after the two that are no record
		drawn, found      int
	}{
		{"nothing looked for", "", "", []string{"Hub seal no. 0", "Hub seal no. 1"}, 2 + pickable, 400},
		{"one from far down put first", "part-399", "", []string{"Hub seal no. 399", "Hub seal no. 0"}, 3 + pickable, 400},
		{"words in any order and case", "", "399 SEAL", []string{"Hub seal no. 399"}, 3, 1},
		{"it stays beside what is found", "part-7", "no. 38", []string{"Hub seal no. 7", "Hub seal no. 38", "Hub seal no. 138"}, 3 + 14, 14},
		{"it is counted among what is found", "part-377", "377", []string{"Hub seal no. 377"}, 3, 1},
		{"nothing found", "", "gearbox", nil, 2, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			list, found := shortened(all, c.ahead, c.look)
			assert.Equal(t, all[:2], list[:2])
			for i, label := range c.first {
				assert.Equal(t, label, list[2+i].label)
			}
			assert.Len(t, list, c.drawn)
			assert.Equal(t, c.found, found)
		})
	}
}
