package spares

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

func TestEdits(t *testing.T) {
	start := fieldkit.Pack{ID: "p", Lines: []fieldkit.PackLine{
		{Type: fieldkit.SpareItem, Item: "seal", Count: 2, Packed: true},
		{Type: fieldkit.ToolItem, Item: "seal", Count: 1}, // a tool of the same ID is another thing
	}}
	seal := spare("seal")
	never := []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "seal"}}
	first := func(count int, packed, pinned bool, bin string) []fieldkit.PackLine {
		return []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "seal", Count: count, Packed: packed, Pinned: pinned, Bin: bin}, start.Lines[1]}
	}
	cases := []struct {
		name   string
		got    fieldkit.Pack
		lines  []fieldkit.PackLine
		never  []fieldkit.Item
		byHand bool
	}{
		{"tick", Tick(start, tool("seal"), true), []fieldkit.PackLine{start.Lines[0], {Type: fieldkit.ToolItem, Item: "seal", Count: 1, Packed: true}}, nil, false},
		{"untick", Tick(start, seal, false), first(2, false, false, ""), nil, false},
		{"tick what is not there", Tick(start, spare("hub"), true), start.Lines, nil, false},
		{"fewer pieces stay ticked", SetCount(start, seal, 1), first(1, true, true, ""), nil, true},
		{"more pieces are no longer all packed", SetCount(start, seal, 3), first(3, false, true, ""), nil, true},
		{"more than anyone carries", SetCount(start, seal, 1_000_000), first(MaxCount, false, true, ""), nil, true},
		{"no pieces", SetCount(start, seal, 0), start.Lines[1:], never, true},
		{"no pieces of what is not there", SetCount(start, spare("hub"), 0), start.Lines, nil, false},
		{"fewer than none", SetCount(start, seal, -1), start.Lines[1:], never, true},
		{"a new line", SetCount(start, spare("hub"), 1), append(first(2, true, false, ""), fieldkit.PackLine{Type: fieldkit.SpareItem, Item: "hub", Count: 1, Pinned: true}), nil, true},
		{"pin", Pin(start, seal, true), first(2, true, true, ""), nil, false},
		{"unpin", Pin(Pin(start, seal, true), seal, false), start.Lines, nil, false},
		{"move", Move(start, seal, "drawer", ""), first(2, true, false, "drawer"), nil, true},
		{"move what is not there", Move(start, spare("hub"), "drawer", ""), start.Lines, nil, false},
		{"remove", Remove(start, seal), start.Lines[1:], nil, true},
		{"remove what is not there", Remove(start, spare("hub")), start.Lines, nil, false},
		{"ban", Ban(start, seal), start.Lines[1:], never, true},
		{"ban twice", Ban(Ban(start, seal), seal), start.Lines[1:], never, true},
		{"ban what is not there", Ban(start, spare("hub")), start.Lines, []fieldkit.Item{{Type: fieldkit.SpareItem, Item: "hub"}}, true},
		{"allow again", Allow(Ban(start, seal), seal), start.Lines[1:], []fieldkit.Item{}, true},
		{"adding lifts the ban", SetCount(Ban(start, seal), seal, 1), append([]fieldkit.PackLine{start.Lines[1]}, fieldkit.PackLine{Type: fieldkit.SpareItem, Item: "seal", Count: 1, Pinned: true}), []fieldkit.Item{}, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.lines, c.got.Lines)
			assert.Equal(t, c.never, c.got.Never)
			assert.Equal(t, c.byHand, c.got.ByHand)
			assert.Equal(t, "p", c.got.ID)
		})
	}
	assert.Equal(t, first(2, true, false, ""), start.Lines, "the list given is never touched")
}
