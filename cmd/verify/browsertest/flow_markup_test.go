//go:build browser

package browsertest

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit/kitfile"
)

// markup is what would become part of a page, and run, were it not shown as text.
const markup = `<img src=x onerror="globalThis.ran=1"><script>ran=1</script>'`

// Every text that a kit takes holds markup: each screen shows it as text, before and
// after the kit is taken over, and so do the plain pages.
func TestMarkupIsText(t *testing.T) {
	kit, fields := withMarkup(t, kitfile.Save(data.DemoKit()))
	assert.Greater(t, fields, 60, "fields that take any text")
	file := filepath.Join(t.TempDir(), "markup.json")
	require.NoError(t, os.WriteFile(file, kit, 0o644))
	v := withDemo(t, "/kit")
	v.See("Ready for no signal")
	v.Upload("css:#file-restore", file)
	_ = v.page.WaitText("markup.json is whole.") // every record differs: that takes a while to list
	v.See("markup.json is whole.", "Both changed")
	v.unfold()
	v.noMarkup("the words on what merging brings")
	v.Tap("button:Restore it in place of this kit")
	v.See("Restored markup.json")

	shown := 0
	for _, path := range addresses {
		v.Go(path)
		v.unfold()
		if said := answered[path]; said != "" {
			v.See(said)
		}
		v.noMarkup(path)
		if strings.Contains(v.Text(), markup) {
			shown++
		}
	}
	t.Logf("%d fields, shown on %d of %d screens", fields, shown, len(addresses))
	assert.Greater(t, shown, len(addresses)/2)

	v.WaitPlain(plainPads)
	pages := ask[[]string](v.phone, `caches.open('trail-field-kit-plain:/').then(async (c) => Promise.all((await c.keys()).map(async (k) => (await c.match(k)).text())))`)
	assert.Greater(t, len(pages), 3)
	for _, page := range pages {
		assert.NotContains(t, page, "<img")
		assert.NotContains(t, page, "<script")
	}
	assert.Contains(t, strings.Join(pages, ""), "&lt;img src=x")
}

// noMarkup checks that no text became part of the page.
func (v *traveller) noMarkup(where string) {
	v.t.Helper()
	assert.False(v.t, ask[bool](v.phone, `Boolean(globalThis.ran || document.querySelector('img[src=x], body script'))`), "on %s", where)
}

// withMarkup adds markup to every text of a kit file that takes it, and counts the kinds
// of field that do.
func withMarkup(t *testing.T, kit []byte) (marked []byte, fields int) {
	t.Helper()
	refused, number := map[string]bool{}, regexp.MustCompile(`/\d+`)
	for range 200 {
		var doc map[string]any
		require.NoError(t, json.Unmarshal(kit, &doc))
		taken := map[string]bool{}
		var mark func(v any, field string) any
		mark = func(v any, field string) any {
			switch v := v.(type) {
			case map[string]any:
				for name := range v {
					v[name] = mark(v[name], field+"/"+name)
				}
			case []any:
				for i := range v {
					v[i] = mark(v[i], field+"/-")
				}
			case string:
				if !refused[field] {
					taken[field] = true
					return v + markup
				}
			}
			return v
		}
		mark(doc, "")
		marked, err := json.Marshal(doc)
		require.NoError(t, err)
		_, err = kitfile.Load("markup.json", marked)
		if err == nil {
			return marked, len(taken)
		}
		var found *kitfile.Problems
		require.ErrorAs(t, err, &found)
		for _, p := range found.List {
			refused[number.ReplaceAllString(p.Pointer, "/-")] = true
		}
	}
	require.Fail(t, "no kit", fmt.Sprint(refused))
	return nil, 0
}
