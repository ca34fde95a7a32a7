package browserstore

import (
	"context"
	"fmt"
	"syscall/js"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Wreck reads a database that does not open as a kit: of any version, with stores
// missing, with values the browser cannot give out. It never writes.
type Wreck struct{ db js.Value }

var errNoWreck = &fieldkit.Error{Kind: fieldkit.NotFound, What: "nothing is kept under this name", Do: "restore a backup"}

// OpenWreck opens a database as it is. Error of kind NotFound if there is none: it is
// not created; otherwise as for Open.
func OpenWreck(ctx context.Context, name string) (*Wreck, error) {
	return openWreck(ctx, siteOwn, name)
}

func openWreck(ctx context.Context, where place, name string) (*Wreck, error) {
	factory, err := where(ctx)
	if err != nil {
		return nil, explain(err, "open what is left of the kit")
	}
	var request js.Value
	if err := try(func() { request = factory.Call("open", name) }); err != nil { // of whatever version it is
		return nil, explain(err, "open what is left of the kit")
	}
	missing := false
	db, err := settle(ctx, request, func(request js.Value) {
		missing = true // it would only now be made
		request.Get("transaction").Call("abort")
	}, func(late js.Value) { late.Call("close") })
	if missing {
		return nil, errNoWreck
	}
	if err != nil {
		return nil, explain(err, "open what is left of the kit")
	}
	w := &Wreck{db}
	db.Set("onversionchange", js.FuncOf(func(js.Value, []js.Value) any { w.Close(); return nil }))
	return w, nil
}

// Close lets go of the database.
func (w *Wreck) Close() { _ = try(func() { w.db.Call("close") }) } // it may be closed already

// Salvage reads all it can get: a store at a time, and where that fails each value by
// itself. What the browser does not give out is named.
func (w *Wreck) Salvage(ctx context.Context) journal.Salvage {
	var s journal.Salvage
	unread := func(what string, err error) {
		s.Unread = append(s.Unread, fmt.Sprintf("%s: %v", what, explain(err, "read it")))
	}
	w.each(ctx, entries, "entry", unread, func(v js.Value) { s.Records = append(s.Records, readRecord(v)) })
	w.each(ctx, snapshots, "snapshot", unread, func(v js.Value) { s.Snapshots = append(s.Snapshots, readSnapshot(v)) })
	w.each(ctx, meta, "note", unread, func(v js.Value) {
		if text(v.Get("name")) == "head" {
			s.Head = journal.Head{Seq: number(v.Get("seq")), Hash: text(v.Get("hash"))}
		}
	})
	keys, err := w.read(ctx, blobs, "getAllKeys")
	if err != nil {
		unread("the list of photos", err)
	}
	for _, key := range list(keys) {
		s.Photos = append(s.Photos, text(key))
	}
	return s
}

// each hands on every value of a store that can be read.
func (w *Wreck) each(ctx context.Context, store, noun string, unread func(string, error), take func(js.Value)) {
	all, err := w.read(ctx, store, "getAll")
	if err == nil {
		for _, v := range list(all) {
			take(v)
		}
		return
	}
	keys, err := w.read(ctx, store, "getAllKeys")
	if err != nil {
		unread("all of "+store, err)
		return
	}
	for _, key := range list(keys) {
		v, err := w.read(ctx, store, "get", key)
		if err != nil {
			unread(noun+" "+js.Global().Call("String", key).String(), err)
		} else if v.Type() == js.TypeObject {
			take(v)
		}
	}
}

// read makes one request in a transaction of its own.
func (w *Wreck) read(ctx context.Context, store, method string, args ...any) (result js.Value, err error) {
	result = js.Undefined()
	if !w.db.Get("objectStoreNames").Call("contains", store).Bool() {
		return result, nil
	}
	err = transact(ctx, w.db, readOnly, []string{store}, func(t *transaction) {
		t.then(t.store(store).Call(method, args...), func(v js.Value) { result = v })
	})
	return result, err
}

// Photo reads one photo's bytes, without checking them.
func (w *Wreck) Photo(ctx context.Context, hash string) (journal.Blob, error) {
	v, err := w.read(ctx, blobs, "get", hash)
	if err != nil {
		return journal.Blob{}, explain(err, "read the photo")
	}
	if v.Type() != js.TypeObject {
		return journal.Blob{}, journal.NoBlob(hash)
	}
	return journal.Blob{Hash: hash, Type: text(v.Get("type")), Data: toBytes(v.Get("data"))}, nil
}
