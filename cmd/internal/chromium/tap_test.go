//go:build browser

package chromium

import (
	"context"
	"net/url"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Something moves between the last look at it and the touch: a touch that hit nothing is
// made again, one that pressed something else is an error and says so.
func TestTapOfWhatMovesAway(t *testing.T) {
	b, err := Start(context.Background(), Options{Phone: true})
	require.NoError(t, err)
	defer b.Kill()
	for name, c := range map[string]struct{ moves, pressed, fault string }{
		"it stands still":             {"", "wanted", ""},
		"it is drawn anew":            {"wanted.outerHTML = wanted.outerHTML", "wanted", ""},
		"nothing comes in its place":  {"wanted.style.top = '300px'", "wanted", ""},
		"another comes in its place":  {"wanted.style.top = '300px'; other.style.top = '0'", "other", `hit <button id="other"`},
		"it is covered by one of all": {"other.style.cssText += 'top: 0; height: 500px; z-index: 1'", "other", `hit <button id="other"`},
	} {
		t.Run(name, func(t *testing.T) {
			page, err := b.Open("data:text/html," + url.PathEscape(`<!doctype html><style>button { position: absolute; left: 0; height: 50px }</style>
				<button id="wanted" style="top: 0" onclick="document.title = 'wanted'"><b>Wanted</b></button>
				<button id="other" style="top: 100px" onclick="document.title = 'other'">Other</button>
				<script>
					const look = document.elementFromPoint;
					document.elementFromPoint = (...at) => { // the last look: only the first time something moves
						const hit = look.apply(document, at);
						document.elementFromPoint = look;
						`+c.moves+`;
						return hit;
					};
				</script>`))
			require.NoError(t, err)
			defer page.Close()
			err = page.Tap("Wanted")
			if c.fault == "" {
				require.NoError(t, err)
			} else {
				require.ErrorContains(t, err, "moved away under the touch")
				assert.ErrorContains(t, err, c.fault)
			}
			assert.NoError(t, page.WaitFor("what was pressed", "document.title === '"+c.pressed+"'"))
		})
	}
}
