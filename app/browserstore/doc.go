// Package browserstore keeps journals in the browser's IndexedDB, one database a
// kit. It builds for js/wasm only.
//
//	store, err := browserstore.Open(ctx, "trail-field-kit")
//	session, report, err := journal.Open(ctx, store, blank)
//	stop := browserstore.Watch("trail-field-kit", func() { … session.Refresh(ctx) … })
//	kept, err := browserstore.Persist(ctx)
//
// A write is one transaction with strict durability, which is read back, and is
// acknowledged when the transaction is complete: a request that succeeded may
// still be undone by a full disk. Values are built before the transaction opens,
// and nothing but requests of the transaction happens inside it, because browsers
// end a transaction that idles.
//
// Browsers cut connections of pages in the background. One function hands out the
// connection; a handle that turns out dead is opened anew and the work tried once
// more. A write tried again after it was complete comes back as
// journal.ErrBehind, and the session recognises its own entry.
//
// The database has four object stores: entries (key seq), snapshots (key seq),
// blobs (key hash, bytes as Uint8Array, never Blob or File, which WebKit fails to
// keep) and meta (the record "head").
package browserstore
