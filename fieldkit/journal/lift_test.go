package journal

import (
	"encoding/json"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An entry whose kit is lifted out reads as the encoding/json package reads the whole of
// it, however its text is damaged; only what is wrong within the kit is found later.
func TestLiftedReadsAsWhole(t *testing.T) {
	kit := `{"format":"trail-field-kit","name":"a \"}] \\","rigs":[{"id":"r","note":"` + strings.Repeat("{[,:", liftFrom/4) + `"}]}`
	body := `{"seq":7,"id":"e","what":"restored, \"it\"","changes":[{"collection":"parts","id":"p","after":{"id":"p"}}],"kit":` + kit + `,"undoes":"d","history":{"clock":[1,"b"]},"stamp":""}`
	rest, lifted, history := lift([]byte(body))
	assert.Less(t, len(rest), 200)
	assert.Equal(t, kit, string(lifted))
	assert.Equal(t, `{"clock":[1,"b"]}`, string(history))

	whole := func(body string) (e entryJSON, ok bool) { return e, json.Unmarshal([]byte(body), &e) == nil }
	requireAlike := func(body string) bool {
		want, ok := whole(body)
		e, err := decodeEntry([]byte(body))
		if !ok {
			if err == nil {
				require.False(t, json.Valid(e.Kit) && (e.History == nil || json.Valid(e.History)), "%.300s", body)
			}
			return false
		}
		if err != nil { // wrong in a way that JSON does not know
			return false
		}
		require.Equal(t, []any{want.Seq, want.ID, want.What, want.Changes, want.Undoes}, []any{e.Seq, e.ID, e.What, e.Changes, e.Undoes})
		require.Equal(t, string(want.Kit), string(e.Kit))
		require.Equal(t, string(want.History), string(e.History))
		return true
	}
	require.True(t, requireAlike(body))
	for _, with := range []string{`,"kit":{"format":"another"}}`, `,"kit":null}`, `,"history":{}}`, `,"new":[{"a":1}],"more":-1.5e3}`, ` }`, `}`, `,}`, `}}`, ``, `,"kit"`, `,"kit":`, `,"kit":{`, `,5:6}`, `,"a\":1}`} {
		requireAlike(strings.TrimSuffix(body, "}") + with)
	}
	requireAlike(strings.Replace(body, `"kit":`, `"kit" : `, 1))
	requireAlike(strings.Replace(body, `"kit":`, `"Kit":`, 1))
	requireAlike("[" + body + "]")

	rnd, pieces, read := rand.New(rand.NewPCG(1, 1)), []string{"", `"`, `,`, `:`, `{`, `}`, `[`, `]`, `\`, " ", "1", `"kit":{}`}, 0
	outside := len(body) - len(kit)
	for range 400 {
		at := rnd.IntN(outside)
		if begin := strings.Index(body, kit); at > begin {
			at += len(kit) - 1
		}
		upTo := min(len(body), at+rnd.IntN(4))
		if requireAlike(body[:at] + pieces[rnd.IntN(len(pieces))] + body[upTo:]) {
			read++
		}
	}
	assert.Greater(t, read, 50)
}

// FuzzLift lifts kit and history out of any text: no panic, and what is left reads as the
// whole does.
func FuzzLift(f *testing.F) {
	for _, body := range []string{
		``, `{`, `{}`, `[]`, `{"kit":{}}`, `{"kit":{"a":"}"},"history":{}}`, `{"seq":1,"kit":{"a":[{}]},"what":"\"x\\"}`,
		`{"kit":{},"kit":{"a":1}}`, `{"kit":{},"seq":2}}`, `{"kit":{]},"what":"x"}`, `{"kit" :{}}`, `{"history":{"a":1},"stamp":"s"}`,
	} {
		f.Add([]byte(body))
	}
	f.Fuzz(func(t *testing.T, body []byte) {
		rest, kit, history := liftOut(body)
		var want, got entryJSON
		if json.Unmarshal(body, &want) != nil {
			return
		}
		require.NoError(t, json.Unmarshal(rest, &got), "%s", rest)
		if got.Kit != nil || got.History != nil {
			return // written twice, or in other letters: such a text is nobody's
		}
		if kit != nil {
			got.Kit = kit
		}
		if history != nil {
			got.History = history
		}
		require.Equal(t, want, got)
	})
}
