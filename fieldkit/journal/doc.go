// Package journal keeps a kit so that nothing written down is lost: an append-only
// list of entries, one for each thing a person did, each with a checksum over
// itself and its predecessor.
//
//	s, report, err := journal.Open(ctx, store, blank)   // replay what is kept
//	show(report.Damaged)                                // named, never dropped
//	e, err := s.Do(ctx, "log failure: axle U-joint, left", now, newID, func(ed *journal.Edit) error {
//		ed.Put(failure)
//		return nil
//	}, photo)
//	if err == nil { show(s.Kit()) }                     // on disk, then published
//	s.Undo(ctx, e.ID, now, newID)
//
// What holds at all times:
//
//   - An action is one entry, and one entry is one transaction of the store, its
//     photos included: it is wholly there or wholly absent.
//   - Do returns without error only when the store says the entry is durable. Until
//     then the session's kit does not change.
//   - Entry numbers rise by one. An append that is not the next number is refused
//     with ErrBehind, so two tabs never overwrite each other; the session then takes
//     in what the other one wrote and repeats the edit on top of it.
//   - Entries are the truth and are never removed; snapshots only shorten the replay
//     and may be lost.
//   - A restore is an entry too: it carries a whole kit. What was there before stays
//     in the journal, and the restore can be undone like anything else. So does a
//     merge with another phone's copy.
//   - Each entry carries the stamp of its edit; the session keeps the stamps of all
//     records and fields edited (package fieldkit/merge), writes them into snapshots
//     and gives them to backups with Replica. Clocks that go back change nothing:
//     a stamp is always later than all the journal knows.
//
// Stores are the memory of this package and IndexedDB in app/browserstore; package
// journaltest checks any of them. The package reads no clock: moments and IDs are passed in.
package journal
