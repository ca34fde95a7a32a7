//go:build browser

package browsertest

import (
	"context"
	"net/http"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

// busyOld is a phone on which the change to a new version waits for the old one, which
// mends itself and gets no answer until release is called.
func busyOld(t *testing.T) (s *server, p *phone, release func()) {
	t.Helper()
	s, p, old := versionWaits(t)
	p.Tap("link:Log")
	const lost = "wasm_exec.js" // differs between the two: it cannot be taken from the new one
	hold, release := held()
	t.Cleanup(release)
	asked := make(chan struct{})
	tell := sync.OnceFunc(func() { close(asked) })
	s.Break(lost, func(w http.ResponseWriter, r *http.Request, file web.File) bool {
		tell()
		return hold(w, r, file)
	})
	p.Run("caches.open('trail-field-kit:/:" + old + "').then((cache) => cache.delete('" + lost + "')).then(() => { fieldkitOfflineReady(true); })")
	select { // the old version mends itself, and waits for an answer
	case <-asked:
	case <-time.After(30 * time.Second):
		require.Fail(t, "nobody asked for "+lost)
	}
	p.Tap("button:Use it now")
	p.See("Changing to the new version …")
	return s, p, release
}

// The old version ends what it is doing before the new one takes over. However long that
// lasts, the word holds, and the page does not start again in the old one.
func TestUpdateWhileTheOldVersionIsBusy(t *testing.T) {
	s, p, release := busyOld(t)
	old := p.Version()
	p.WaitFor("a while to pass", "new Promise((passed) => setTimeout(() => passed(true), 7000))")
	p.See("Changing to the new version …")
	assert.Equal(t, old, p.Version())
	release()
	p.WaitVersion(s.Version())
	p.See("Demo kit, all invented")
	p.SeeNot("Changing to the new version …")
}

// A version that goes away while it is being changed to is offered no more.
func TestVersionThatGoesAwayIsOfferedNoMore(t *testing.T) {
	t.Run("a broken one came in its place", func(t *testing.T) {
		s, p, _ := busyOld(t)
		s.Break("worker.js", func(w http.ResponseWriter, _ *http.Request, file web.File) bool {
			w.Header().Set("Content-Type", file.Type) // and nothing more
			return true
		})
		p.Run("goappTryUpdate()")
		p.SeeNot("Changing to the new version …")
		p.SeeNot("A new version is here")
		p.See("the new version arrived broken")
	})
	t.Run("the browser's data was cleared", func(t *testing.T) {
		s, p, release := busyOld(t)
		require.NoError(t, p.page.Do(func(ctx context.Context, t *chromedp.Target) error {
			_, err := cdp.Call(ctx, t, storage.ClearDataForOrigin, storage.ClearDataForOriginParams{Origin: "http://" + p.server.address, StorageTypes: "service_workers"})
			return err
		}))
		p.SeeNot("Changing to the new version …")
		p.SeeNot("A new version is here")
		p.See("Not ready for no signal")
		release()
		s.Mend()
		p.Run("dispatchEvent(new Event('online'))")
		p.WaitStored()
		p.SeeNot("Not ready for no signal")
		p.SeeNot("A new version is here")
	})
}
