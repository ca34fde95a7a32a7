// Package standards reads what is stamped, moulded or printed on a part: standard
// designations of bearings, seals, threads, fittings, tyres, belts, batteries and
// the like, vehicle numbers and article numbers.
//
//	h, err := standards.Open(tables)               // the published tables, checked
//	readings, err := h.Parse("6207-2rs/c3")        // all ways to understand it, best first
//	d := readings[0].Designation                   // ball bearing 6207-2RS C3
//	bore, _ := standards.DimNamed(d, "bore")       // 35 mm
//	for _, p := range d.Explain() { … }            // 2RS: rubber contact seal on both sides …
//
// What cannot be read gives a *Misread: the reason, the place, and the nearest valid
// designations. Each kind of designation stands in a file of its own with what reads
// it, String, Dims, Source and Explain in that order; grammar.go lists the kinds.
// What String prints reads back to the same designation.
//
// The tables are handed in, so that the package carries none. It searches no kit
// (package lookup), judges no fit, and knows no maker's part numbers.
package standards
