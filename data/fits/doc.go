// Package fits holds how near is near enough: for every kind of part of the catalog,
// how each attribute of the part in hand is compared with that of the one wanted, and
// on what that rests.
//
//	kind, _ := data.Catalog().PartKind("wheel-bearing")
//	schema, ok := fits.For(kind)
//	result := fit.Compare(schema, wanted, hand)
//
// Standards that the tables of this program do not hold are named from memory; what is
// not set by any is common practice and says so. Makers' figures stand before all of
// them. The files are read when first asked for; the tests hold them to the loader's
// rules, so that a start does not pay for it.
package fits
