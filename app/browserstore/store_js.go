package browserstore

import (
	"context"
	"slices"
	"syscall/js"

	"trailfieldkit/fieldkit/journal"
)

// Store is a journal.Store in one IndexedDB database.
type Store struct {
	name       string
	connection connection
	closed     bool
	channel    js.Value
	throwAway  func(ctx context.Context, name string) error
	pageHide   js.Func
}

var _ journal.Copy = (*Store)(nil)

// Open opens the database of that name, creating it if there is none. Errors are
// of kind Storage, or TooNew if a later version of the app kept it.
func Open(ctx context.Context, name string) (*Store, error) {
	return open(ctx, siteOwn, name, openChannel(name), Delete)
}

func open(ctx context.Context, where place, name string, channel js.Value, throwAway func(context.Context, string) error) (*Store, error) {
	s := &Store{name: name, connection: connection{name: name, place: where}, channel: channel, throwAway: throwAway}
	if _, err := s.connection.get(ctx); err != nil {
		closeChannel(s.channel)
		return nil, explain(err, "open the kit")
	}
	// A page put aside by the browser must not hold the database against others.
	s.pageHide = js.FuncOf(func(js.Value, []js.Value) any {
		s.connection.drop(s.connection.db)
		return nil
	})
	js.Global().Call("addEventListener", "pagehide", s.pageHide)
	return s, nil
}

// Load implements journal.Store.
func (s *Store) Load(ctx context.Context, upTo uint64) (journal.Saved, error) {
	var saved journal.Saved
	err := s.run(ctx, "read the kit", readOnly, []string{entries, snapshots, meta}, func(t *transaction) {
		saved = journal.Saved{}
		newest := keyRange("upperBound", min(upTo, maxNumber), false)
		t.then(t.store(snapshots).Call("openCursor", newest, "prev"), func(cursor js.Value) {
			from := uint64(0)
			if cursor.Truthy() {
				snapshot := readSnapshot(cursor.Get("value"))
				saved.Snapshot, from = &snapshot, snapshot.Head.Seq
			}
			t.tail(from, &saved.Tail)
		})
	})
	if err != nil {
		return journal.Saved{}, err
	}
	return saved, nil
}

// Since implements journal.Store.
func (s *Store) Since(ctx context.Context, seq uint64) (journal.Tail, error) {
	var tail journal.Tail
	err := s.run(ctx, "read the journal", readOnly, []string{entries, snapshots, meta}, func(t *transaction) {
		tail = journal.Tail{}
		t.tail(seq, &tail)
	})
	if err != nil {
		return journal.Tail{}, err
	}
	return tail, nil
}

// tail reads the records after seq, and the head.
func (t *transaction) tail(seq uint64, into *journal.Tail) {
	after := keyRange("lowerBound", min(seq, maxNumber), true)
	t.then(t.store(entries).Call("getAll", after), func(result js.Value) {
		for _, v := range list(result) {
			into.Records = append(into.Records, readRecord(v))
		}
	})
	t.head(func(head journal.Head) { into.Head = head })
}

// head finds the journal's head. Requests of a transaction are answered in order,
// so the last answer ends the search.
func (t *transaction) head(then func(journal.Head)) {
	var kept journal.Head
	var last journal.Record
	t.then(t.store(meta).Call("get", "head"), func(v js.Value) {
		if v.Truthy() {
			kept = journal.Head{Seq: number(v.Get("seq")), Hash: text(v.Get("hash"))}
		}
	})
	t.then(t.store(entries).Call("openCursor", nil, "prev"), func(cursor js.Value) {
		if cursor.Truthy() {
			last = readRecord(cursor.Get("value"))
		}
	})
	t.then(t.store(snapshots).Call("openKeyCursor", nil, "prev"), func(cursor js.Value) {
		if !cursor.Truthy() || number(cursor.Get("key")) <= max(kept.Seq, last.Seq) {
			then(journal.Latest(kept, last, journal.Snapshot{}))
			return
		}
		t.then(t.store(snapshots).Call("get", cursor.Get("key")), func(v js.Value) {
			then(journal.Latest(kept, last, readSnapshot(v)))
		})
	})
}

// Append implements journal.Store.
func (s *Store) Append(ctx context.Context, r journal.Record, photos []journal.Blob) error {
	record := object(map[string]any{"seq": r.Seq, "prev": r.Prev, "hash": r.Hash, "body": fromBytes(r.Body)})
	head := object(map[string]any{"name": "head", "seq": r.Seq, "hash": r.Hash})
	values, err := blobValues(photos)
	if err != nil {
		return err
	}
	var behind bool
	err = s.run(ctx, "write this down", readWrite, []string{entries, snapshots, meta, blobs}, func(t *transaction) {
		behind = false
		t.head(func(now journal.Head) {
			if r.Seq != now.Seq+1 || r.Prev != now.Hash {
				behind = true
				return
			}
			t.store(entries).Call("put", record)
			t.store(meta).Call("put", head)
			t.putBlobs(values)
		})
	})
	if err != nil {
		return err
	}
	if behind {
		return journal.ErrBehind
	}
	post(s.channel)
	return nil
}

// blobValues puts photos into the browser's memory, one by one.
func blobValues(photos []journal.Blob) ([]js.Value, error) {
	values := make([]js.Value, len(photos))
	for i, b := range photos {
		b, err := b.Loaded()
		if err != nil {
			return nil, err
		}
		values[i] = object(map[string]any{"hash": b.Hash, "type": b.Type, "data": fromBytes(b.Data)})
	}
	return values, nil
}

// putBlobs keeps those that are not kept yet, or are damaged, one after the other: what is
// kept is read for it, and would lie in memory all at once.
func (t *transaction) putBlobs(values []js.Value) {
	if len(values) == 0 {
		return
	}
	right := values[0]
	asked := t.store(blobs).Call("get", right.Get("hash"))
	t.then(asked, func(kept js.Value) {
		if !sameBytes(kept, right) {
			t.store(blobs).Call("put", right)
		}
		t.putBlobs(values[1:])
	})
	t.handlers.set(asked, "onerror", func(event js.Value) {
		if text(asked.Get("error").Get("name")) == "AbortError" {
			return // of the whole transaction
		}
		// What cannot be read is damaged: a browser keeps large values in files of their own.
		event.Call("preventDefault")
		event.Call("stopPropagation")
		err := try(func() {
			t.store(blobs).Call("put", right)
			t.putBlobs(values[1:])
		})
		if err != nil {
			t.end(err)
		}
	})
}

// sameBytes reports whether a photo is kept with the bytes it should have. The browser
// compares them, as keys: they need not come over into Go.
func sameBytes(kept, right js.Value) bool {
	if kept.Type() != js.TypeObject {
		return false
	}
	data := kept.Get("data")
	return data.InstanceOf(js.Global().Get("Uint8Array")) && js.Global().Get("indexedDB").Call("cmp", data, right.Get("data")).Int() == 0
}

// PutBlobs implements journal.Store.
func (s *Store) PutBlobs(ctx context.Context, photos []journal.Blob) error {
	values, err := blobValues(photos)
	if err != nil {
		return err
	}
	var empty bool
	err = s.run(ctx, "keep the photos", readWrite, []string{entries, snapshots, meta, blobs}, func(t *transaction) {
		t.head(func(now journal.Head) {
			if empty = now.Seq == 0; !empty {
				t.putBlobs(values)
			}
		})
	})
	if err == nil && empty {
		err = journal.ErrBehind
	}
	return err
}

// DropBlobs implements journal.Copy.
func (s *Store) DropBlobs(ctx context.Context, hashes []string) error {
	return s.run(ctx, "make room", readWrite, []string{blobs}, func(t *transaction) {
		for _, hash := range hashes {
			t.store(blobs).Call("delete", hash)
		}
	})
}

// PutSnapshot implements journal.Store.
func (s *Store) PutSnapshot(ctx context.Context, snapshot journal.Snapshot) error {
	value := object(map[string]any{"seq": snapshot.Head.Seq, "hash": snapshot.Head.Hash,
		"kit": fromBytes(snapshot.Kit), "sum": snapshot.Sum})
	if len(snapshot.History) > 0 {
		value.Set("history", fromBytes(snapshot.History))
	}
	return s.run(ctx, "keep a snapshot", readWrite, []string{snapshots}, func(t *transaction) {
		t.store(snapshots).Call("put", value)
		t.then(t.store(snapshots).Call("getAllKeys"), func(keys js.Value) {
			all := list(keys)
			for _, key := range all[:max(0, len(all)-journal.SnapshotsKept)] {
				t.store(snapshots).Call("delete", key)
			}
		})
	})
}

// BlobsOf implements journal.Store.
func (s *Store) BlobsOf(ctx context.Context, hashes []string) ([]journal.Blob, error) {
	found := make([]journal.Blob, len(hashes))
	err := s.run(ctx, "read the photo", readOnly, []string{blobs}, func(t *transaction) {
		photos := t.store(blobs)
		for i, hash := range hashes {
			t.then(photos.Call("get", hash), func(v js.Value) {
				if found[i] = (journal.Blob{}); v.Truthy() {
					found[i] = journal.Blob{Hash: hash, Type: text(v.Get("type")), Data: toBytes(v.Get("data"))}
				}
			})
		}
	})
	if err != nil {
		return nil, err
	}
	return found, nil
}

// Blobs implements journal.Store.
func (s *Store) Blobs(ctx context.Context) ([]string, error) {
	var hashes []string
	err := s.run(ctx, "list the photos", readOnly, []string{blobs}, func(t *transaction) {
		hashes = nil
		t.then(t.store(blobs).Call("getAllKeys"), func(keys js.Value) {
			for _, key := range list(keys) {
				hashes = append(hashes, text(key))
			}
		})
	})
	if err != nil {
		return nil, err
	}
	slices.Sort(hashes)
	return hashes, nil
}

// Delete implements journal.Store.
func (s *Store) Delete(ctx context.Context) error {
	s.Close()
	return s.throwAway(ctx, s.name)
}

// Close implements journal.Store.
func (s *Store) Close() error {
	if s.closed {
		return nil
	}
	s.closed = true
	js.Global().Call("removeEventListener", "pagehide", s.pageHide)
	s.pageHide.Release()
	s.connection.drop(s.connection.db)
	closeChannel(s.channel)
	return nil
}

func keyRange(kind string, seq uint64, open bool) js.Value {
	return js.Global().Get("IDBKeyRange").Call(kind, seq, open)
}

func readRecord(v js.Value) journal.Record {
	return journal.Record{Seq: number(v.Get("seq")), Prev: text(v.Get("prev")), Hash: text(v.Get("hash")), Body: toBytes(v.Get("body"))}
}

func readSnapshot(v js.Value) journal.Snapshot {
	return journal.Snapshot{Head: journal.Head{Seq: number(v.Get("seq")), Hash: text(v.Get("hash"))},
		Kit: toBytes(v.Get("kit")), History: toBytes(v.Get("history")), Sum: text(v.Get("sum"))}
}
