package app

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit/merge"
)

func TestWhatANewVersionWaitsFor(t *testing.T) {
	before := kept
	t.Cleanup(func() { kept, planning = before, nil })
	for name, c := range map[string]struct {
		waits bool
		state func()
	}{
		"nothing":                        {false, func() {}},
		"something typed on this screen": {true, func() { kept.typing = kept.shown.number }},
		"something typed on one left":    {false, func() { kept.typing = kept.shown.number - 1 }},
		"a value picked for a merge":     {true, func() { picks{}.toggle(merge.Clash{Field: "name"}, 1) }},
		"a pick taken back": {false, func() {
			p := picks{}
			p.toggle(merge.Clash{Field: "name"}, 1)
			p.toggle(merge.Clash{Field: "name"}, 1)
		}},
		"a write, a restore or a photo": {true, func() { kept.atWork = 1 }},
		"a plan":                        {true, func() { planning = &planWork{} }},
	} {
		t.Run(name, func(t *testing.T) {
			kept, planning = &store{shown: shownScreen{number: 7}}, nil
			c.state()
			assert.Equal(t, c.waits, inTheWay() != nil)
		})
	}
}
