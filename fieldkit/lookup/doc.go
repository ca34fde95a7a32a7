// Package lookup answers one question from one box: which part, position, donor,
// tool or kind is meant by what somebody typed, and why.
//
//	ix := lookup.New(kit, catalog)
//	for _, hit := range ix.Find("k44?0 pump", 20) { // a half-read stamp and a word
//		fmt.Println(hit.Kind, hit.Title, hit.Sub, hit.Why)
//	}
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
// It does not know published tables, does not parse designations and does not decide
// whether a part fits.
package lookup
