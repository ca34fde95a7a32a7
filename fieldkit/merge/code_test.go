package merge

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/order"
)

// inOne writes a history in one go, by encoding/json alone: the bytes are a format.
func inOne(h *History) string {
	j := historyJSON{Format: Format, Version: "1.0", Clock: h.Clock, By: h.By}
	for _, s := range h.Seen {
		j.Seen = append(j.Seen, s)
	}
	order.By(j.Seen, Stamp.Compare)
	for k, t := range h.Of {
		if j.Records == nil {
			j.Records = map[string]map[string]traceJSON{}
		}
		if j.Records[k.Collection] == nil {
			j.Records[k.Collection] = map[string]traceJSON{}
		}
		j.Records[k.Collection][k.ID] = t.written()
	}
	return string(encode(j))
}

func TestWrittenInTurnsAsInOne(t *testing.T) {
	now := fieldkit.Moment{Time: start}
	h := &History{}
	require.Equal(t, inOne(h), string(h.Encode()))
	for i, id := range []string{"b", "a", "a<&>\"\\", "é\u2028中", "\xff", ""} {
		h.Record(h.Next(now, "line"), []Change{
			{Collection: []string{"parts", kitCollection}[i%2], ID: id, Before: []byte(`{"id":"x","note":"<b>"}`), After: []byte(`{"id":"x","note":"c","name":"n"}`)},
			{Collection: "parts", ID: "gone " + id, Before: []byte(`{"id":"x","note":"\u003cb>"}`)},
		})
		require.Equal(t, inOne(h), string(h.Encode()), id)
	}
	r, turns := grown(1000), 0
	assert.Equal(t, inOne(r.History), string(r.History.EncodeInTurns(func() { turns++ })))
	assert.Equal(t, 1000/turnAfter, turns)
}

func BenchmarkEncode(b *testing.B) {
	for _, n := range []int{1_000, 10_000, 100_000} {
		r := grown(n)
		b.Run(fmt.Sprint(n, " records"), func(b *testing.B) {
			for b.Loop() {
				r.History.Encode()
			}
		})
	}
}
