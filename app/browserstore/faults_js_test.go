package browserstore

import (
	"context"
	"errors"
	"syscall/js"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// script runs JavaScript that breaks the browser's interfaces in some way and
// returns what puts them right again.
func script(t *testing.T, source string) (undo func()) {
	t.Helper()
	back := js.Global().Get("Function").New(source).Invoke()
	done := false
	undo = func() {
		if !done {
			done = true
			back.Invoke()
		}
	}
	t.Cleanup(undo)
	return undo
}

// onPut lets the first few puts into a store do something else.
func onPut(store string, times string, does string) string {
	return `
		const real = IDBObjectStore.prototype.put;
		let left = ` + times + `;
		IDBObjectStore.prototype.put = function (...args) {
			if (this.name !== "` + store + `" || left-- <= 0) return real.apply(this, args);
			` + does + `
		};
		return () => { IDBObjectStore.prototype.put = real; };`
}

func TestEveryWriteIsStrict(t *testing.T) {
	s := openStore(t, t.Name())
	undo := script(t, `
		const real = IDBDatabase.prototype.transaction;
		globalThis.askedDurability = [];
		IDBDatabase.prototype.transaction = function (...args) {
			const tx = real.apply(this, args);
			if (args[1] === "readwrite") askedDurability.push(tx.durability);
			return tx;
		};
		return () => { IDBDatabase.prototype.transaction = real; };`)
	fill(t, s, 2)
	require.NoError(t, s.PutSnapshot(ctx, journal.NewSnapshot(head(t, s), []byte("{}"))))
	undo()
	for _, v := range list(js.Global().Get("askedDurability")) {
		require.Equal(t, "strict", v.String())
	}
	require.Equal(t, 3, js.Global().Get("askedDurability").Length())
}

func TestRefusesABrowserThatIsNotStrict(t *testing.T) {
	s := openStore(t, t.Name())
	fill(t, s, 1)
	undo := script(t, `
		const real = Object.getOwnPropertyDescriptor(IDBTransaction.prototype, "durability");
		Object.defineProperty(IDBTransaction.prototype, "durability", { configurable: true, get: () => "relaxed" });
		return () => { Object.defineProperty(IDBTransaction.prototype, "durability", real); };`)
	isStorage(t, s.Append(ctx, next(t, head(t, s)), nil), "when power fails")
	isStorage(t, s.PutSnapshot(ctx, journal.NewSnapshot(head(t, s), nil)), "when power fails")
	undo()
	require.Equal(t, uint64(1), head(t, s).Seq)
	fill(t, s, 2)
}

// Whatever goes wrong with one of the writes of an entry, nothing of the entry is
// there and the message says what to do.
func TestWriteThatFails(t *testing.T) {
	photo := journal.NewBlob("image/jpeg", []byte("photo"))
	for name, c := range map[string]struct{ store, does, says string }{
		"disk full when asked":      {entries, `throw new DOMException("full", "QuotaExceededError");`, "storage is full"},
		"disk full for the photo":   {blobs, `throw new DOMException("full", "QuotaExceededError");`, "storage is full"},
		"disk full for the head":    {meta, `throw new DOMException("full", "QuotaExceededError");`, "storage is full"},
		"aborted each time":         {meta, `const r = real.apply(this, args); this.transaction.abort(); return r;`, "cut the connection"},
		"aborted after the photo":   {blobs, `const r = real.apply(this, args); this.transaction.abort(); return r;`, "cut the connection"},
		"the value cannot be kept":  {entries, `return real.call(this, { ...args[0], f: () => 1 });`, "DataCloneError"},
		"a request fails":           {meta, `real.apply(this, args); return this.add(args[0]);`, "ConstraintError"},
		"the connection is closing": {entries, `throw new DOMException("the connection is closing", "UnknownError");`, "cut the connection"},
	} {
		t.Run(name, func(t *testing.T) {
			s := openStore(t, t.Name())
			fill(t, s, 3)
			before := head(t, s)
			undo := script(t, onPut(c.store, "Infinity", c.does))
			isStorage(t, s.Append(ctx, next(t, before), []journal.Blob{photo}), c.says)
			undo()
			require.Equal(t, before, head(t, s))
			hashes, err := s.Blobs(ctx)
			require.NoError(t, err)
			require.Empty(t, hashes)
			require.NoError(t, s.Append(ctx, next(t, before), []journal.Blob{photo}))
		})
	}
}

// What a dead connection may look like: the write is tried once more on a new one
// and kept.
func TestConnectionOpenedAnew(t *testing.T) {
	for name, c := range map[string]struct {
		script string
		before func(s *Store)
	}{
		"closed under us":       {before: func(s *Store) { s.connection.db.Call("close") }},
		"aborted by the system": {script: onPut(meta, "1", `const r = real.apply(this, args); this.transaction.abort(); return r;`)},
		"connection lost":       {script: onPut(entries, "1", `throw new DOMException("Connection to Indexed Database server lost. Refresh the page to try again", "UnknownError");`)},
		"connection is closing": {script: onPut(entries, "1", `throw new DOMException("The database connection is closing.", "InvalidStateError");`)},
		"no running transaction": {script: onPut(entries, "1",
			`throw new DOMException("Attempt to put a record in the database without an in-progress transaction", "UnknownError");`)},
		"the system closes it": {before: func(s *Store) {
			s.connection.db.Call("dispatchEvent", js.Global().Get("Event").New("close"))
		}},
		"the page was put aside": {before: func(*Store) {
			js.Global().Call("dispatchEvent", js.Global().Get("Event").New("pagehide"))
		}},
	} {
		t.Run(name, func(t *testing.T) {
			s := openStore(t, t.Name())
			fill(t, s, 2)
			if c.before != nil {
				c.before(s)
			}
			if c.script != "" {
				script(t, c.script)
			}
			photo := journal.NewBlob("image/jpeg", []byte("photo"))
			require.NoError(t, s.Append(ctx, next(t, head(t, s)), []journal.Blob{photo}))
			require.Equal(t, uint64(3), head(t, s).Seq)
			back, err := s.BlobsOf(ctx, []string{photo.Hash})
			require.NoError(t, err)
			require.Equal(t, []journal.Blob{photo}, back)
		})
	}
}

// Another tab with a newer program upgrades the database: this one lets go of it
// at once, and says from then on that it is too old.
func TestNewerVersion(t *testing.T) {
	s := openStore(t, t.Name())
	fill(t, s, 1)
	request := js.Global().Get("indexedDB").Call("open", t.Name(), version+1)
	db, err := settle(ctx, request, func(js.Value) {}, nil)
	require.NoError(t, err)
	_, err = s.Since(ctx, 0)
	var e *fieldkit.Error
	require.True(t, errors.As(err, &e), "%v", err)
	require.Equal(t, fieldkit.TooNew, e.Kind)
	db.Call("close")
}

func TestOpenWithinALimit(t *testing.T) {
	needDatabase(t)
	openLimit = 50 * time.Millisecond
	defer func() { openLimit = 10 * time.Second }()
	t.Run("hanging", func(t *testing.T) {
		script(t, `
			const real = IDBFactory.prototype.open;
			IDBFactory.prototype.open = () => ({});
			return () => { IDBFactory.prototype.open = real; };`)
		_, err := Open(ctx, t.Name())
		isStorage(t, err, "close the app's other tabs")
	})
	t.Run("blocked by a tab that does not let go", func(t *testing.T) {
		request := js.Global().Get("indexedDB").Call("open", t.Name(), version)
		db, err := settle(ctx, request, func(js.Value) {}, nil)
		require.NoError(t, err)
		isStorage(t, Delete(ctx, t.Name()), "close the app's other tabs")
		db.Call("close")
		openLimit = 10 * time.Second
		require.NoError(t, Delete(ctx, t.Name()))
	})
	t.Run("cancelled", func(t *testing.T) {
		soon, cancel := context.WithTimeout(ctx, time.Millisecond)
		defer cancel()
		openLimit = 10 * time.Second
		script(t, `
			const real = IDBFactory.prototype.open;
			IDBFactory.prototype.open = () => ({});
			return () => { IDBFactory.prototype.open = real; };`)
		_, err := Open(soon, t.Name())
		require.ErrorIs(t, err, context.DeadlineExceeded)
	})
	t.Run("a result that comes too late is closed again", func(t *testing.T) {
		s := openStore(t, t.Name())
		require.NoError(t, s.Close())
		openLimit = 0
		_, err := Open(ctx, t.Name())
		isStorage(t, err, "close the app's other tabs")
		openLimit = 10 * time.Second // if the late connection stayed open, Cleanup could not delete
	})
}

func TestOpenRefused(t *testing.T) {
	needDatabase(t)
	failing := func(times, name, message string) string {
		return `
			const real = IDBFactory.prototype.open;
			let left = ` + times + `;
			IDBFactory.prototype.open = function (...args) {
				if (left-- <= 0) return real.apply(this, args);
				const request = { error: new DOMException("` + message + `", "` + name + `") };
				setTimeout(() => request.onerror({ preventDefault() {} }));
				return request;
			};
			return () => { IDBFactory.prototype.open = real; };`
	}
	const backing = "Internal error opening backing store for indexedDB.open."
	t.Run("trouble with its files that passes", func(t *testing.T) {
		undo := script(t, failing("2", "UnknownError", backing))
		s := openStore(t, t.Name())
		fill(t, s, 1)
		undo()
	})
	t.Run("trouble with its files that stays", func(t *testing.T) {
		script(t, failing("Infinity", "UnknownError", backing))
		_, err := Open(ctx, t.Name())
		isStorage(t, err, "nothing kept was touched")
	})
	t.Run("not allowed", func(t *testing.T) {
		script(t, `
			const real = IDBFactory.prototype.open;
			IDBFactory.prototype.open = () => { throw new DOMException("denied", "SecurityError"); };
			return () => { IDBFactory.prototype.open = real; };`)
		_, err := Open(ctx, t.Name())
		isStorage(t, err, "SecurityError")
	})
	t.Run("no database at all", func(t *testing.T) {
		script(t, `
			const real = Object.getOwnPropertyDescriptor(globalThis, "indexedDB");
			Object.defineProperty(globalThis, "indexedDB", { configurable: true, get() { throw new DOMException("denied", "SecurityError"); } });
			return () => { Object.defineProperty(globalThis, "indexedDB", real); };`)
		_, err := Open(ctx, t.Name())
		isStorage(t, err, "private mode")
	})
	t.Run("a database of something else", func(t *testing.T) {
		request := js.Global().Get("indexedDB").Call("open", t.Name(), version)
		db, err := settle(ctx, request, func(js.Value) {}, nil)
		require.NoError(t, err)
		db.Call("close")
		_, err = Open(ctx, t.Name())
		isStorage(t, err, "does not look as the app made it")
		require.NoError(t, Delete(ctx, t.Name()))
	})
}

// A photo of which the browser has lost the file is damaged, and is replaced like any other.
func TestPhotoThatCannotBeRead(t *testing.T) {
	s := openStore(t, t.Name())
	fill(t, s, 1)
	photo, other := journal.NewBlob("image/jpeg", []byte("the joint")), journal.NewBlob("image/png", []byte("the pump"))
	damaged := photo
	damaged.Data = []byte("the joist")
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{damaged}))
	undo := script(t, `
		const real = IDBObjectStore.prototype.get;
		IDBObjectStore.prototype.get = function (key) {
			if (this.name !== "blobs") return real.call(this, key);
			IDBObjectStore.prototype.get = real;
			return this.add({ hash: key, type: "", data: new Uint8Array() }); // an error of a true request
		};
		return () => { IDBObjectStore.prototype.get = real; };`)
	require.NoError(t, s.PutBlobs(ctx, []journal.Blob{photo, other}))
	undo()
	found, err := s.BlobsOf(ctx, []string{photo.Hash, other.Hash})
	require.NoError(t, err)
	require.Equal(t, []journal.Blob{photo, other}, found)
}

// A transaction that gives no answer at all does not hold the person up for ever.
func TestSilentTransaction(t *testing.T) {
	s := openStore(t, t.Name())
	fill(t, s, 1)
	before := head(t, s)
	answerLimit = 50 * time.Millisecond
	defer func() { answerLimit = 30 * time.Second }()
	undo := script(t, `
		const real = IDBDatabase.prototype.transaction;
		IDBDatabase.prototype.transaction = function (...args) {
			const tx = real.apply(this, args);
			return { durability: "strict", objectStore: (name) => tx.objectStore(name), abort: () => tx.abort() };
		};
		return () => { IDBDatabase.prototype.transaction = real; };`)
	isStorage(t, s.Append(ctx, next(t, before), nil), "does not answer")
	undo()
	answerLimit = 30 * time.Second
	fill(t, s, 3)
}

// Values of the wrong type are read as damaged records, not as a crash.
func TestForeignValues(t *testing.T) {
	s := openStore(t, t.Name())
	fill(t, s, 2)
	err := s.run(ctx, "spoil", readWrite, []string{entries, snapshots, meta, blobs}, func(tx *transaction) {
		tx.store(entries).Call("put", object(map[string]any{"seq": 2, "prev": 7, "hash": nil, "body": "text"}))
		tx.store(snapshots).Call("put", object(map[string]any{"seq": 1, "kit": 5}))
		tx.store(meta).Call("put", object(map[string]any{"name": "head", "seq": "two", "hash": 3}))
		tx.store(blobs).Call("put", object(map[string]any{"hash": "abc", "data": "text"}))
	})
	require.NoError(t, err)
	saved, err := s.Load(ctx, maxNumber)
	require.NoError(t, err)
	require.False(t, saved.Snapshot.Whole())
	require.Len(t, saved.Records, 1)
	require.Equal(t, journal.Record{Seq: 2}, saved.Records[0])
	_, err = saved.Records[0].Entry()
	require.Error(t, err)
	b, err := s.BlobsOf(ctx, []string{"abc"})
	require.NoError(t, err)
	require.Empty(t, b[0].Data)
	session, report, err := journal.Open(ctx, s, func() fieldkit.Kit { return fieldkit.Kit{} })
	require.NoError(t, err)
	require.False(t, report.Whole())
	require.Equal(t, uint64(2), session.Seq())
}

func isStorage(t *testing.T, err error, says string) {
	t.Helper()
	var e *fieldkit.Error
	require.True(t, errors.As(err, &e), "%v", err)
	require.Equal(t, fieldkit.Storage, e.Kind)
	require.Contains(t, err.Error(), says)
	require.NotEmpty(t, e.Do)
}
