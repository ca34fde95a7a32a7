//go:build browser

package browsertest

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// begun is a phone without signal on which a kit of one's own was begun, and noted beside
// the program's files.
func begun(t *testing.T) *traveller {
	t.Helper()
	v := away(t)
	v.Open("/rig")
	v.Tap("button:Begin with my rig")
	v.WaitFor("the kit", "document.querySelector('[data-phase=open]')")
	v.WaitFor("the note of it", "fieldkitPlain.noted().then((text) => text.includes('Last opened'))")
	return v
}

// entriesKept counts the entries of one's own kit among the databases of a place.
const entriesKept = `((place) => new Promise((done) => {
	const opening = place.open('trail-field-kit');
	opening.onupgradeneeded = () => opening.transaction.abort();
	opening.onerror = () => done(0);
	opening.onsuccess = () => {
		const counting = opening.result.transaction('entries').objectStore('entries').count();
		counting.onsuccess = () => { opening.result.close(); done(counting.result); };
	};
}))`

// WaitCopied waits until the second copy has all entries of the kit.
func (v *traveller) WaitCopied() {
	v.t.Helper()
	v.WaitFor("the second copy", `navigator.storageBuckets.open('second-copy').then((bucket) => Promise.all([`+
		entriesKept+`(indexedDB), `+entriesKept+`(bucket.indexedDB)])).then(([first, second]) => first > 0 && first === second)`)
}

// clearSecond throws the second copy away, as clearing the data of a site does.
func (v *traveller) clearSecond() {
	v.t.Helper()
	require.True(v.t, ask[bool](v.phone, "navigator.storageBuckets.delete('second-copy').then(() => true)"))
}

// damage spoils the browser's own files of databases while it is not running.
func (v *traveller) damage(spoil func(whole []byte) []byte, places ...string) {
	v.t.Helper()
	for _, place := range places {
		files, err := filepath.Glob(filepath.Join(v.browser.Profile(), "Default", place, "[M0-9]*"))
		require.NoError(v.t, err)
		require.NotEmpty(v.t, files, place)
		for _, file := range files {
			whole, err := os.ReadFile(file)
			require.NoError(v.t, err)
			require.NoError(v.t, os.WriteFile(file, spoil(whole), 0o600))
		}
	}
}

const (
	siteFiles   = "IndexedDB/*"
	bucketFiles = "WebStorage/*/IndexedDB/*"
)

// The browser's own files of the database are damaged on disk, as Chromium has done
// itself when it was killed in the middle of a write: it throws all of it away and begins
// an empty database, without an error for anybody. The kit comes back from its second copy, and
// that is said.
func TestKitComesBackFromItsSecondCopy(t *testing.T) {
	for name, spoil := range map[string]func(whole []byte) []byte{
		"cut short": func(whole []byte) []byte { return whole[:len(whole)/2] },
		"overwritten": func(whole []byte) []byte {
			for i := range whole {
				whole[i] = 0xA5
			}
			return whole
		},
	} {
		t.Run(name, func(t *testing.T) {
			v := begun(t)
			v.WaitCopied()
			v.Die()
			v.damage(spoil, siteFiles)
			v.Wake()
			v.Open("/rig")
			v.See("came back from its second copy", "make a backup now")
			v.SeeNot("The kit that was kept here is gone")
			v.Reload()
			v.WaitFor("the kit", "document.querySelector('[data-phase=open]')")
			assert.NotContains(t, v.Text(), "second copy", "said once")
			v.WaitPlain("/plain/emergency")

			v.Die()
			v.damage(spoil, siteFiles, bucketFiles)
			v.Wake()
			v.Open("/rig")
			v.See("The kit that was kept here is gone", "Last opened", "Restore a backup")
		})
	}
}
