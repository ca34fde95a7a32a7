//go:build browser

package browsertest

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// What the phone around the page does: downloads, its disk.

// SaveTo lets the phone save what it downloads into a folder.
func (v *traveller) SaveTo(folder string) {
	v.t.Helper()
	require.NoError(v.t, v.page.Do(func(ctx context.Context, target *chromedp.Target) error {
		_, err := cdp.Call(ctx, target, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
			Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder})
		return err
	}))
}

// Saved taps something and returns the file that is saved by it.
func (v *traveller) Saved(what string) (name string, content []byte) {
	v.t.Helper()
	folder := v.t.TempDir()
	v.SaveTo(folder)
	v.Tap(what)
	var file string
	soon(v.t, "the download", func() bool {
		all, err := os.ReadDir(folder)
		if err != nil || len(all) != 1 || strings.HasPrefix(all[0].Name(), ".") || strings.HasSuffix(all[0].Name(), ".crdownload") {
			return false // nothing yet, or under way
		}
		file = filepath.Join(folder, all[0].Name())
		return true
	})
	content, err := os.ReadFile(file)
	require.NoError(v.t, err)
	return filepath.Base(file), content
}

// OnDisk is the checksum of everything a database of the app holds.
func (v *traveller) OnDisk(database string) string {
	v.t.Helper()
	return ask[string](v.phone, fmt.Sprintf(`new Promise((done, fail) => {
		const opening = indexedDB.open(%q);
		opening.onerror = () => fail(opening.error);
		opening.onsuccess = () => {
			const db = opening.result, all = {};
			const reading = db.transaction(Array.from(db.objectStoreNames), 'readonly');
			for (const name of db.objectStoreNames) {
				reading.objectStore(name).getAll().onsuccess = (e) => { all[name] = e.target.result; };
			}
			reading.oncomplete = () => {
				db.close();
				const text = JSON.stringify(all, (key, value) => value instanceof Uint8Array ? value.join() : value);
				crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)).then((sum) => done(new Uint8Array(sum).join()));
			};
		};
	})`, database))
}

// Rest is the moment a person's hand rests: what was typed is on disk by its end.
func (v *traveller) Rest() {
	v.t.Helper()
	v.WaitFor("what was typed to be on disk", fmt.Sprintf(`new Promise((done) => {
		const opening = indexedDB.open(%q);
		opening.onsuccess = () => {
			const db = opening.result;
			const reading = db.transaction('meta').objectStore('meta').get('fieldkit.turn');
			reading.onsuccess = () => {
				db.close();
				done(reading.result?.text === localStorage.getItem('fieldkit.turn'));
			};
		};
	})`, deviceDatabase))
}

const (
	deviceDatabase = "trail-field-kit-device"
	ownDatabase    = "trail-field-kit"
	demoDatabase   = "trail-field-kit-demo"
)
