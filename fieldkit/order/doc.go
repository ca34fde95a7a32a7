// Package order puts lists of records in order.
//
//	order.By(failures, func(a, b fieldkit.Failure) int { return b.On.Compare(a.On) })
//
// Records are large. slices.SortFunc moves them about while it sorts, and is
// compiled anew for every kind of record, some 25 kB of download each. By sorts
// their places, which is compiled once, and moves each record to its place at the
// end.
//
// Lists of numbers, texts and pointers are sorted with package slices.
package order
