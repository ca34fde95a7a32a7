package browserstore

import (
	"context"
	"syscall/js"
	"time"

	"trailfieldkit/fieldkit/journal"
)

const (
	readOnly  = "readonly"
	readWrite = "readwrite"
)

// transaction is one transaction under way. Its callbacks run one after the other
// inside the browser's events and must not wait for anything.
type transaction struct {
	js       js.Value
	handlers callbacks
	err      error     // why we ended it, or the first request's error
	heard    time.Time // when the browser last answered a request; zero if it has not yet
}

// run does work in one transaction and returns when it is complete, or has come
// to nothing. On a connection that turns out dead it opens another and tries once
// more, so work must set its results anew each time. doing is for messages.
func (s *Store) run(ctx context.Context, doing, mode string, stores []string, work func(*transaction)) error {
	var err error
	for range 2 {
		if s.closed {
			return journal.ErrClosed
		}
		if err = ctx.Err(); err != nil {
			return err
		}
		var db js.Value
		if db, err = s.connection.get(ctx); err != nil {
			break
		}
		if err = transact(ctx, db, mode, stores, work); !lost(err) {
			break
		}
		s.connection.drop(db)
	}
	return explain(err, doing)
}

func transact(ctx context.Context, db js.Value, mode string, stores []string, work func(*transaction)) error {
	names := js.Global().Get("Array").New()
	for _, name := range stores {
		names.Call("push", name)
	}
	options := object(map[string]any{"durability": "strict"})
	t := &transaction{}
	if err := try(func() { t.js = db.Call("transaction", names, mode, options) }); err != nil {
		return err
	}
	done := make(chan error, 1)
	t.handlers.set(t.js, "oncomplete", func(js.Value) { done <- nil })
	t.handlers.set(t.js, "onabort", func(js.Value) {
		if t.err == nil {
			t.err = thrownBy(t.js.Get("error"))
		}
		done <- t.err
	})
	t.handlers.set(t.js, "onerror", func(event js.Value) { // of a request; abort follows
		if t.err == nil {
			t.err = thrownBy(event.Get("target").Get("error"))
		}
	})
	if mode == readWrite && !strict(t.js) {
		t.end(errNotDurable)
	} else if err := try(func() { work(t) }); err != nil {
		t.end(err)
	}
	cancelled, limit := ctx.Done(), time.After(answerLimit)
	for {
		select {
		case err := <-done:
			t.handlers.release()
			return err
		case <-cancelled: // what is complete by now stays and is acknowledged
			cancelled = nil
			t.end(ctx.Err())
		case <-limit:
			if rest := answerLimit - time.Since(t.heard); rest > 0 {
				limit = time.After(rest)
				continue
			}
			// Its callbacks may still come: they are not released.
			t.end(errSilent)
			return errSilent
		}
	}
}

// strict reports whether the browser means to write through to the disk. One that
// does not know the property is as strict as it ever was.
func strict(tx js.Value) bool {
	durability := tx.Get("durability")
	return durability.IsUndefined() || text(durability) == "strict"
}

// end aborts the transaction for a reason of our own.
func (t *transaction) end(why error) {
	if t.err == nil {
		t.err = why
	}
	_ = try(func() { t.js.Call("abort") }) // it may have ended by itself
}

// store gives an object store of the transaction.
func (t *transaction) store(name string) js.Value { return t.js.Call("objectStore", name) }

// then goes on with a request's result.
func (t *transaction) then(request js.Value, f func(result js.Value)) {
	t.handlers.set(request, "onsuccess", func(js.Value) {
		t.heard = time.Now()
		if err := try(func() { f(request.Get("result")) }); err != nil {
			t.end(err)
		}
	})
}
