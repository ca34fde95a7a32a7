//go:build browser

package browsertest

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/storage"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/faults"
)

// loseTheEnd takes the last entries out of the kit's own place, as a browser does that
// finds the end of its files torn.
const loseTheEnd = `
	const entries = tx.objectStore('entries');
	tx.objectStore('snapshots').clear();
	entries.getAll().onsuccess = (event) => {
		const all = event.target.result, last = all[all.length - 3];
		entries.delete(IDBKeyRange.lowerBound(last.seq, true));
		tx.objectStore('meta').put({ name: 'head', seq: last.seq, hash: last.hash });
	};`

// openWith opens a path in a fresh tab that runs a script before each document's own.
func (v *traveller) openWith(script, path string) {
	v.t.Helper()
	old := v.page
	v.blank(script)
	old.Close() // it has the kit open as it was
	require.NoError(v.t, v.page.Goto(v.server.URL(path)))
	v.WaitKit()
}

// What the second copy holds comes when the kit is open already: it is said then, and on
// the screen.
func TestSecondCopyComesLate(t *testing.T) {
	v := ownKitWithNotes(t)
	v.Go("/kit")
	v.See("A second copy of the kit lies apart in this browser, photos too")
	v.inDatabase("trail-field-kit", loseTheEnd)
	v.openWith(`(() => {
		const open = StorageBucketManager.prototype.open; // longer than opening waits, and not so long that it counts as silent
		StorageBucketManager.prototype.open = function (...args) {
			return new Promise((go) => setTimeout(go, 6000)).then(() => open.apply(this, args));
		};
	})()`, "/log")
	v.See("came back from its second copy", "make a backup now", "first note", "second note")
	v.WaitCopied()
}

// Somebody wrote on before the end of the kit came back: what only the copy holds is set
// aside, said, and can be opened; the copy follows the kit again.
func TestSecondCopyApartIsSetAside(t *testing.T) {
	v := ownKitWithNotes(t)
	v.WaitCopied()
	v.inDatabase("trail-field-kit", loseTheEnd)
	v.openWith(`(() => {
		const open = StorageBucketManager.prototype.open;
		StorageBucketManager.prototype.open = function (...args) {
			return globalThis.copyAnswers ? open.apply(this, args) : Promise.reject(new DOMException('later', 'UnknownError'));
		};
	})()`, "/log/failure")
	for _, words := range []string{"third note", "fourth note"} {
		v.Go("/log/failure")
		v.Fill("What broke", words)
		v.Tap("button:Save")
		v.At("/log")
		v.See(words)
		v.Run("globalThis.copyAnswers = true")
	}
	v.See("held things that are not in the kit; they were set aside")
	v.WaitCopied()
	v.Go("/kit")
	v.See("Store 2:")
	v.Tap("button:Open it in place of the one in use")
	v.Go("/log")
	v.See("first note", "second note")
	assert.NotContains(t, v.Text(), "third note")
}

// A kit whose beginning is damaged does not open; the rescue offers the whole kit that its
// second copy holds.
func TestRescueOffersTheSecondCopy(t *testing.T) {
	v := ownKitWithNotes(t)
	v.WaitCopied()
	v.cutEntries(1, 4)
	v.rescue("/log")
	v.See("Its second copy, which lies apart, holds", "2 failures", "Save the second copy's raw records")
	v.Tap("button:Go on with the second copy")
	v.WaitFor("the kit", `document.querySelector('[data-phase]')?.dataset.phase === 'open'`)
	v.DieAndWake("/log")
	v.See("first note", "second note")
	assert.NotContains(t, v.Text(), "could not be")
}

// photosKept counts the photos of one's own kit in a place, and their bytes.
const photosKept = `((place) => new Promise((done) => {
	const opening = place.open('trail-field-kit');
	opening.onsuccess = () => {
		const reading = opening.result.transaction('blobs').objectStore('blobs').getAll();
		reading.onsuccess = () => { opening.result.close(); done([reading.result.length, reading.result.reduce((sum, b) => sum + b.data.length, 0)]); };
	};
}))`

// There is room for one more photo, but not beside the second copy's photos: the photo is
// kept, the copy gives up its own, and the screen Kit says so.
func TestSecondCopyMakesRoom(t *testing.T) {
	v := ownKitWithNotes(t)
	folder := t.TempDir()
	note := func(n int, words string) {
		v.Go("/log/failure")
		v.Fill("What broke", words)
		file := filepath.Join(folder, fmt.Sprintf("photo-%d.png", n))
		require.NoError(t, faults.WriteNoise(file, uint64(n), 1200, 900))
		v.Upload("css:main input[type=file]", file)
		v.WaitFor("the photo", `document.querySelector('.photos img')?.naturalWidth > 0`)
		v.Tap("button:Save")
		v.At("/log")
		v.See(words)
	}
	note(1, "with a photo")
	v.WaitFor("the photo in the copy", `navigator.storageBuckets.open('second-copy').then((bucket) => `+photosKept+`(bucket.indexedDB)).then(([count]) => count === 1)`)
	size := ask[[]float64](v.phone, photosKept+"(indexedDB)")[1]
	require.Greater(t, size, 200_000.0)

	v.Die() // a browser that runs remembers for a while how much room there was
	v.Wake()
	v.Open("/log")
	used := ask[float64](v.phone, "navigator.storage.estimate().then((e) => e.usage)")
	room := used + size*0.7
	require.NoError(t, v.page.Do(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, storage.OverrideQuotaForOrigin, storage.OverrideQuotaForOriginParams{Origin: v.server.URL(""), QuotaSize: &room})
		return err
	}))
	note(2, "with another photo")
	assert.NotContains(t, v.Text(), "photo was not kept")
	require.Equal(t, 2.0, ask[[]float64](v.phone, photosKept+"(indexedDB)")[0])
	v.WaitCopied()
	require.Equal(t, 0.0, ask[[]float64](v.phone, `navigator.storageBuckets.open('second-copy').then((bucket) => `+photosKept+`(bucket.indexedDB))`)[0])
	v.Go("/kit")
	v.See("has all entries, but not all photos: there is no room for them")
}
