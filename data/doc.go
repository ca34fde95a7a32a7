// Package data holds what the program brings along, and the tests that hold each
// file to its loader's rules, so that a start does not pay for it: the catalog (kinds of part, tool, consumable and store, and the
// traits rigs differ in), the repairs, the demo kit, the blank kit to fill in, and
// the JSON Schema of kit files.
//
//	cat := data.Catalog()
//	kind, _ := cat.PartKind("steering-pump")
//	for _, a := range kind.Deciding {
//		fmt.Println(a.Name, a.How)
//	}
//	kit := data.BlankKit("7f3a")
//
// Everything is embedded, loaded once and the same for all callers: treat it as
// read only. Figures in the catalog are common practice of the trade; wear limits
// and failure rates are starting guesses, and the maker's figure stands. All
// vehicles, brands, people and towns of the demo kit are invented; designations of
// published standards are real.
//
// The package keeps nothing and writes nothing.
package data
