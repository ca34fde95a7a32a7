// Package lookup answers one question from one box: which part, position, donor,
// tool or kind is meant by what somebody typed, and why.
//
//	shelf := lookup.NewShelf(handbook, rows)         // the published tables, once
//	ix := lookup.New(kit, catalog, shelf)
//	for _, hit := range ix.Find("k44?0 pump", 20) { // a half-read stamp and a word
//		fmt.Println(hit.Kind, hit.Title, hit.Sub, hit.Why)
//	}
//	ix = ix.Following(edited)                        // after an edit of the kit
//
// Every word must be accounted for: as part of a number (spaces, dashes, slashes and
// points do not matter; "?" is one character that cannot be read, "*" several; O for
// 0 and its like count little, one or two wrong characters more), as a word of a
// name, trade name, system, side, donor or issuer (the beginning of a word is
// enough), as a year within a donor's range, or as a measurement near enough. Only
// when nothing accounts for all words are parts shown that miss some.
//
// An exact number comes first, then an exact designation, names, trade names, and
// last what had to be guessed. Each hit says why it matched.
//
// The published tables are searched together with the kit, by the same rules; besides,
// a query that reads as a standard designation from end to end (6207-2RS C3, -214,
// 35x62x14 seal), or would but for look-alikes or one unreadable character, is found
// although no table lists it. A designation comes with what its standard says and with
// the parts of the kit that bear it.
//
// It reads designations with package standards and does not decide whether a part
// fits.
package lookup
