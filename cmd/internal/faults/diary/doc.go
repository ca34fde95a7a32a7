// Package diary writes actions whose every byte follows from their number, so that
// after a fault it can be told of each whether it is wholly there, wholly absent,
// or, which must never be, there in part.
//
//	d, err := diary.Open(ctx, store)
//	err = d.Do(ctx, 17)          // nil: acknowledged
//	found := d.Look(ctx)         // found.Here holds 17; found.Wrong is empty
//	run := diary.Script(ctx, open)
//
// An action is what a person does at camp: a note on what broke, often with a
// photo, a wear reading and one spare less, all as one entry. It runs natively and
// in a page alike and reads no clock.
package diary
