package repair_test

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// gate is the guide of the tests: a question that a trait decides, one that it
// does not, a step for some rigs only, a field fix and a proper fix.
func gate(t testing.TB) repair.Guide {
	t.Helper()
	guides, err := repair.LoadGuides("testdata/guide.json", gateFile(t))
	require.NoError(t, err)
	require.Len(t, guides, 1)
	return guides[0]
}

func gateFile(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/guide.json")
	require.NoError(t, err)
	return data
}

func rigWith(traits map[string]string) fieldkit.Rig {
	return fieldkit.Rig{ID: "rig", Name: "Rig", Traits: traits}
}

var (
	unknown = rigWith(nil)
	wooden  = rigWith(map[string]string{"post": "wood"})
	steel   = rigWith(map[string]string{"post": "steel"})
	stone   = rigWith(map[string]string{"post": "stone"}) // an option the guide does not know
)

func moment(hour, minute int) fieldkit.Moment {
	return fieldkit.Moment{Time: time.Date(2026, time.May, 14, hour, minute, 7, 999, time.UTC)}
}

// follow does the steps of a way, each a step ID and, for a question, the answer.
func follow(t testing.TB, g repair.Guide, rig fieldkit.Rig, way ...[2]string) fieldkit.Run {
	t.Helper()
	run := repair.Start(g, rig, "", "run", moment(8, 0))
	for _, w := range way {
		var err error
		if w[1] == "" {
			run, err = repair.Done(g, run, rig, w[0])
		} else {
			run, err = repair.Answer(g, run, rig, w[0], w[1])
		}
		require.NoError(t, err)
	}
	return run
}
