package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

func pathsOf(jobs []plainJob) (paths []string) {
	for _, job := range jobs {
		if page, ok := job(); ok {
			paths = append(paths, page.Path())
		}
	}
	return paths
}

func TestPlainJobs(t *testing.T) {
	k := data.DemoKit()
	graph := func() *interchange.Graph { return interchange.New(k.Parts.Slice(), k.Links.Slice()) }
	pads := cardKey{"pads-front", "hobnail-front-brake-pads"}
	k.Packs = []fieldkit.Pack{{ID: "p", Trip: "2026-12-widows-rib", Lines: []fieldkit.PackLine{{Type: fieldkit.SpareItem, Item: "pads-front", Count: 1}}}, {ID: "q", Trip: "2026-09-high-tarn"}}
	got := pathsOf(plainJobs(k, graph, []cardKey{pads}, []cardKey{{"ujoint-1350", ""}, pads, {"gone", ""}}, fieldkit.Inch))
	assert.Equal(t, []string{
		"plain/emergency",
		"plain/repair/run?id=run-wicket-u-joint",
		"plain/pack/trip?id=2026-12-widows-rib",
		"plain/counter/card?part=pads-front&position=hobnail-front-brake-pads",
		"plain/counter/card?part=ujoint-1350",
	}, got, "each once; no card of a part that is gone, no list of a trip that is done")
}

func TestCardsOpenedAndPinned(t *testing.T) {
	textsInMemory = map[string]string{}
	t.Cleanup(func() { textsInMemory = nil })
	assert.True(t, noteOpened(demoKit, cardKey{"a", ""}))
	assert.False(t, noteOpened(demoKit, cardKey{"a", ""}), "it is in front already")
	assert.True(t, noteOpened(demoKit, cardKey{"b", "p"}))
	assert.True(t, noteOpened(demoKit, cardKey{"a", ""}))
	assert.Equal(t, []cardKey{{"a", ""}, {"b", "p"}}, readCards(openedKey(demoKit)))
	assert.Empty(t, readCards(openedKey(ownKit)), "each kit has its own")
	for i := range openedKept + 5 {
		noteOpened(demoKit, cardKey{itoa(i), ""})
	}
	require.Len(t, readCards(openedKey(demoKit)), openedKept)

	togglePin(demoKit, cardKey{"a", ""})
	togglePin(demoKit, cardKey{"", "p"})
	assert.True(t, isPinned(demoKit, cardKey{"", "p"}))
	togglePin(demoKit, cardKey{"a", ""})
	assert.Equal(t, []cardKey{{"", "p"}}, readCards(pinnedKey(demoKit)))
	forgetCards(demoKit)
	assert.Empty(t, readCards(pinnedKey(demoKit)))
}
