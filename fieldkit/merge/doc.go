// Package merge brings two edited copies of one kit together.
//
//	mine := merge.Replica{Kit: kit, History: history}        // what a journal or a backup holds
//	both, report, err := merge.Join(mine, theirs)            // nothing is changed but the result
//	show(report.New, report.Gone, report.Clashes)            // what comes in, what both changed
//	session.Merge(ctx, "merged with Desh", now, newID, theirs, photos...)
//
// Joining is commutative, associative and idempotent: however often and in what
// order the phones of a crew exchange backups, those that know the same edits hold
// the same kit. For that a History keeps, beside the kit:
//
//   - of each record and each field that was edited, the Stamp of the edit. Stamps
//     are hybrid logical clocks: they follow the phone's clock, but an edit made
//     with knowledge of another is always later, even if the clock stands still,
//     goes back or was years ahead;
//   - up to which stamp it knows the edits of each line of edits (Seen), which
//     tells an edit that was overwritten from one made at the same time elsewhere;
//   - of each deleted record, that it was deleted, when, and what it said.
//
// Rules. A single field takes the value of the latest edit; if neither phone knew
// of the other's edit, the other value stays in the history until somebody edits or
// settles the field (Clashes, Take). Fields that only make sense together, such as
// the part at a position with its proof, count as one. Lines of a packing list,
// numbers and measurements of a part, traits and photos are joined one by one.
// Deleting is stronger than editing: what was deleted stays deleted until somebody
// takes the deletion back. What cannot stand without a deleted record is held back
// with it, named in the report, and comes back with it (Back), as does what the same
// action deleted: a rig with its positions. A reference that can be left out is left
// out. Records both phones have keep their order.
//
// A copy without history, as a kit file or a backup of before version 1.1, is
// taken as older than every stamped edit: its records are added, it deletes
// nothing, and a field that differs in two such copies takes the same one of the
// two values on both phones, the other being kept as if both had edited it.
//
// Recording an edit costs time by the size of the records it touches, not of the
// kit. The package reads no clock and writes nothing.
package merge
