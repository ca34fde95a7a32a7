package browserstore

import (
	"context"
	"runtime"
	"sync"
	"syscall/js"
	"time"
)

const version = 1 // of the database's object stores

const (
	entries   = "entries"
	snapshots = "snapshots"
	blobs     = "blobs"
	meta      = "meta"
)

// keyPaths says which field of a value is its key.
var keyPaths = []struct{ store, key string }{
	{entries, "seq"}, {snapshots, "seq"}, {blobs, "hash"}, {meta, "name"},
}

// openLimit is how long opening may take; a person waits in front of it.
// answerLimit is how long a transaction may be silent; a photo on a slow phone
// takes a second or two. Variables for the tests.
var (
	openLimit   = 10 * time.Second
	answerLimit = 30 * time.Second
)

// connection hands out the one connection of a store, and opens it anew whenever
// it was lost. Its fields change only between waits: WebAssembly has one thread.
type connection struct {
	name     string
	place    place
	opening  sync.Mutex // never taken inside a browser callback, which must not wait
	db       js.Value
	from     js.Value // see openDatabase
	handlers callbacks
}

// get returns the open connection, opening it if need be.
func (c *connection) get(ctx context.Context) (js.Value, error) {
	if c.db.Truthy() {
		return c.db, nil
	}
	c.opening.Lock()
	defer c.opening.Unlock()
	if c.db.Truthy() {
		return c.db, nil
	}
	db, from, err := openDatabase(ctx, c.place, c.name)
	for wait := 100 * time.Millisecond; badBacking(err) && wait < time.Second; wait *= 2 {
		select {
		case <-time.After(wait):
		case <-ctx.Done():
			return js.Undefined(), ctx.Err()
		}
		db, from, err = openDatabase(ctx, c.place, c.name)
	}
	if err != nil {
		return js.Undefined(), err
	}
	c.db, c.from = db, from
	c.handlers.set(db, "onversionchange", func(js.Value) { c.drop(db) }) // another tab deletes or upgrades
	c.handlers.set(db, "onclose", func(js.Value) { c.drop(db) })
	return db, nil
}

// drop lets go of a connection; the next get opens another. Transactions under
// way still finish.
func (c *connection) drop(db js.Value) {
	if !c.db.Truthy() || !c.db.Equal(db) {
		return
	}
	c.db = js.Undefined()
	_ = try(func() {
		db.Set("onversionchange", nil)
		db.Set("onclose", nil)
		db.Call("close")
	}) // a dead handle may throw; it is let go anyway
	c.handlers.release()
}

// place gives what hands out databases. It is asked each time: a bucket may have been
// thrown away since.
type place func(context.Context) (js.Value, error)

// siteOwn is where the site's own databases lie.
func siteOwn(context.Context) (js.Value, error) {
	if factory := global("indexedDB"); factory.Truthy() {
		return factory, nil
	}
	return js.Undefined(), errNoDatabase
}

// openDatabase opens or creates the database, within openLimit. from is what handed it
// out, and is kept as long as the database: Chromium tells of the end of a transaction by
// way of it, and of none any more once it is collected, as that of a bucket may be.
func openDatabase(ctx context.Context, where place, name string) (db, from js.Value, err error) {
	none := js.Undefined()
	if from, err = where(ctx); err != nil {
		return none, none, err
	}
	var request js.Value
	if err := try(func() { request = from.Call("open", name, version) }); err != nil {
		return none, none, err
	}
	db, err = settle(ctx, request, func(request js.Value) {
		db := request.Get("result")
		for _, s := range keyPaths {
			if !db.Get("objectStoreNames").Call("contains", s.store).Bool() {
				db.Call("createObjectStore", s.store, object(map[string]any{"keyPath": s.key}))
			}
		}
	}, func(late js.Value) { late.Call("close") })
	runtime.KeepAlive(from)
	if err != nil {
		return none, none, err
	}
	for _, s := range keyPaths {
		if !db.Get("objectStoreNames").Call("contains", s.store).Bool() {
			db.Call("close")
			return none, none, errForeign
		}
	}
	return db, from, nil
}

// deleteDatabase deletes the database, within openLimit. Other tabs are asked to
// let go of it first.
func deleteDatabase(ctx context.Context, where place, name string) error {
	factory, err := where(ctx)
	if err != nil {
		return err
	}
	var request js.Value
	if err := try(func() { request = factory.Call("deleteDatabase", name) }); err != nil {
		return err
	}
	_, err = settle(ctx, request, nil, func(js.Value) {})
	runtime.KeepAlive(factory)
	return err
}

// settle waits for an open or delete request. If it succeeds after the wait was
// given up, late gets its result.
func settle(ctx context.Context, request js.Value, upgrade, late func(js.Value)) (js.Value, error) {
	done := make(chan error, 1)
	var handlers callbacks
	givenUp := false
	finish := func(err error) {
		if !givenUp {
			done <- err
			return
		}
		if err == nil {
			_ = try(func() { late(request.Get("result")) }) // nobody waits for it any more
		}
		handlers.release()
	}
	handlers.set(request, "onsuccess", func(js.Value) { finish(nil) })
	handlers.set(request, "onerror", func(event js.Value) {
		event.Call("preventDefault")
		finish(thrownBy(request.Get("error")))
	})
	if upgrade != nil {
		handlers.set(request, "onupgradeneeded", func(js.Value) {
			if err := try(func() { upgrade(request) }); err != nil {
				_ = try(func() { request.Get("transaction").Call("abort") }) // onerror follows
			}
		})
	}
	select {
	case err := <-done:
		handlers.release()
		return request.Get("result"), err
	case <-ctx.Done():
		givenUp = true
		return js.Undefined(), ctx.Err()
	case <-time.After(openLimit):
		givenUp = true
		return js.Undefined(), errOtherTabs
	}
}
