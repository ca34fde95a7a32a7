// Package tables holds the published tables the program brings along: what a
// standard, or the practice of the trade, says about bearings, seals, threads,
// fittings, wheels, tyres, belts, batteries and wire, row by row with its source.
//
//	t, _ := tables.TableNamed("ball_bearings")
//	row, _ := t.Row("6207")
//	bore, _ := t.Value(row, "bore_mm")
//	fmt.Println(bore.Both(fieldkit.Metric))                        // 35 mm (1.378 in)
//	fmt.Println(t.Cell(row, "confidence"), t.Cell(row, "source")) // high ISO 15; read in …
//
// Each table is a CSV file beside its description (bearings.go, seals.go,
// fasteners.go, fluids.go, drive.go, wheels.go, electrics.go) and is read when it is first
// asked for; a program that never asks does not carry the files. Tables are the
// same for all callers: treat them as read only.
//
// # How far a row can be trusted
//
// The source begins with the standard and says whether the figures were read in
// public material (bearings_sources explains the short names) or are from memory.
// The confidence sums that up:
//
//   - high: read in public material or computed by the standard's own formula, and
//     in keeping with the laws of its table;
//   - medium: from memory or put together from two readings, in keeping with the
//     same laws;
//   - low: makers differ or the size is rare, so measure before ordering.
//
// A blank cell is a figure that is not known or on which the sources differ; it
// never means nought.
//
// # What was left out, and why
//
//   - torque ratings of universal joints, inside-locked axle joints and wheel nut
//     torques: makers differ, and the maker's figure is the one to use;
//   - polarity of batteries: a drawing in the maker's list shows it, a word does not;
//   - load range letters above J: two public lists number them differently;
//   - load indices below 60 and above 150, speed symbol (Y): not on such a rig;
//   - SAE metric sizes of battery cable above 2 AWG: sources differ;
//   - retaining rings and shaft seals in inches: no list that could be checked.
//
// The package computes no fit and knows no maker's part numbers.
package tables
