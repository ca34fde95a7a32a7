//go:build browser

package browsertest

import (
	"archive/zip"
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inDatabase runs a script over a raw connection to a database and waits for its
// transaction.
func (v *traveller) inDatabase(name, script string) {
	v.t.Helper()
	require.True(v.t, ask[bool](v.phone, `new Promise((done, failed) => {
		const request = indexedDB.open('`+name+`');
		request.onerror = () => failed(request.error);
		request.onsuccess = () => {
			const db = request.result;
			const tx = db.transaction([...db.objectStoreNames], 'readwrite', { durability: 'strict' });
			tx.oncomplete = () => { db.close(); done(true); };
			tx.onabort = () => failed(tx.error);
			`+script+`
		};
	})`))
}

// cutEntries cuts entries of one's own kit short, and takes away the snapshots, which
// could stand in for them.
func (v *traveller) cutEntries(numbers ...int) {
	v.t.Helper()
	numbered, err := json.Marshal(numbers)
	require.NoError(v.t, err)
	v.inDatabase("trail-field-kit", `
		const store = tx.objectStore('entries');
		for (const seq of `+string(numbered)+`) store.get(seq).onsuccess = (event) => {
			const value = event.target.result;
			value.body = value.body.slice(0, 100);
			store.put(value);
		};
		tx.objectStore('snapshots').clear();`)
}

// ownKitWithNotes is a traveller with a kit of their own, a rig and two failures.
func ownKitWithNotes(t *testing.T) *traveller {
	v := away(t)
	v.Open("/rig")
	v.Tap("button:Begin with my rig")
	v.WaitFor("the own kit", `document.querySelector('[data-phase]').dataset.phase === 'open'`)
	v.Go("/kit")
	v.Fill("Name of the kit", "Ridge crew")
	v.Tap("button:Save name and currency")
	v.See("Named the kit Ridge crew")
	v.Go("/rig/edit")
	v.Fill("Name", "Bramble")
	v.Tap("button:Save")
	v.WaitFor("the rig", `location.pathname === '/rig'`)
	for _, what := range []string{"first note", "second note"} {
		v.Go("/log/failure")
		v.Fill("What broke", what)
		v.Tap("button:Save")
		v.At("/log")
		v.See(what)
	}
	return v
}

// One damaged record: the kit opens with all the rest, what is lost is named at every
// start, and going on is the person's decision.
func TestDamagedEntryIsNamed(t *testing.T) {
	v := ownKitWithNotes(t)
	v.inDatabase("trail-field-kit", `
		const store = tx.objectStore('entries');
		store.openCursor(null, 'prev').onsuccess = (event) => {
			const value = event.target.result.value;
			value.body[40] ^= 1;
			store.put(value);
		};`)
	for range 2 {
		v.Open("/log")
		v.See("first note", "some entries could not be read", "its checksum does not match")
	}
	v.Tap("What was set aside")
	v.See("What cannot be read", "its checksum does not match", "I have seen it")
	v.Tap("I have seen it: go on with what is here")
	v.See("Went on without what was set aside")
	v.Open("/log")
	v.See("first note")
	assert.NotContains(t, v.Text(), "could not be read")
}

// The beginning of the journal is damaged: the app does not pass off the rest as a
// kit. It says what is left, hands out every record, and goes on in a new store while
// the old one stays as it is.
func TestRescueGoesOn(t *testing.T) {
	v := ownKitWithNotes(t)
	v.cutEntries(1)
	v.rescue("/log")
	v.See("the beginning of this kit cannot be read", "entry 1", "Put together, that is Ridge crew", "2 failures")

	damaged := v.OnDisk("trail-field-kit")
	_, raw := v.Saved("button:Save the raw records")
	z, err := zip.NewReader(bytes.NewReader(raw), int64(len(raw)))
	require.NoError(t, err)
	names := ""
	for _, f := range z.File {
		names += f.Name + "\n"
	}
	assert.Contains(t, names, "entries/000001-1.json")
	assert.Contains(t, names, "unread.txt")

	v.Tap("button:Go on with what could be read")
	v.WaitFor("the kit", `document.querySelector('[data-phase]')?.dataset.phase === 'open'`)
	v.DieAndWake("/log")
	v.See("first note", "second note")
	assert.NotContains(t, v.Text(), "could not be")
	assert.Equal(t, damaged, v.OnDisk("trail-field-kit"), "the old store stays as it is")

	// The raw records can be read back into a store of their own, here or elsewhere.
	v.openBackup("raw.zip", raw)
	v.See("raw.zip holds raw records", "What cannot be read", "Ridge crew")
	v.Tap("button:Go on with it in a store of its own")
	v.See("Store 2: 1 entry")
	v.Go("/log")
	v.See("first note", "second note")

	// The stores beside it are thrown away one by one, in two steps; that in use stays.
	v.Go("/kit")
	for _, store := range []string{"Store 1:", "Store 2:"} {
		v.See(store)
		v.press("Throw this store away …")
		v.See("For good:", "Nobody can bring it back")
		v.press("Throw it away for good")
		v.SeeNot(store)
	}
	v.DieAndWake("/log")
	v.See("first note", "second note")
	v.Go("/kit")
	v.See("Ridge crew")
	assert.NotContains(t, v.Text(), "Other stores")
}

// A kit that does not open can be thrown away by the person's word, said twice; then
// there is none, and nothing speaks of one that is gone.
func TestThrowAwayWhatDoesNotOpen(t *testing.T) {
	v := ownKitWithNotes(t)
	v.cutEntries(1)
	damaged := v.OnDisk("trail-field-kit")
	v.rescue("/log")
	v.See("Throw this store away")
	v.press("Throw this store away …")
	v.See("For good:")
	v.press("Leave it")
	v.SeeNot("For good:")
	assert.Equal(t, damaged, v.OnDisk("trail-field-kit"), "nothing goes by one tap")
	v.press("Throw this store away …")
	v.See("For good:")
	v.press("Throw it away for good")
	v.See("Begin with my rig")
	v.DieAndWake("/rig")
	v.See("Begin with my rig")
	assert.NotContains(t, v.Text(), "is gone")
	v.Tap("button:Begin with my rig")
	v.See("My rig")
	v.Go("/log")
	assert.NotContains(t, v.Text(), "first note")
}

// rescue opens a path of a kit that does not open.
func (v *traveller) rescue(path string) {
	v.t.Helper()
	require.NoError(v.t, v.page.Goto(v.server.URL(path)))
	v.WaitRunning()
	v.See("Your kit could not be opened. Nothing in it was changed.", "Ways on")
}
