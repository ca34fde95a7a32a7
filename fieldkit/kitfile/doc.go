// Package kitfile reads and writes the kit file: one JSON document that holds
// everything a crew keeps.
//
//	kit, err := kitfile.Load("kit.json", data)
//	var found *kitfile.Problems
//	if errors.As(err, &found) {
//		for _, p := range found.List {
//			fmt.Println(p.Line, p.Pointer, p.What, p.Do)
//		}
//	}
//	data = kitfile.Save(kit)
//
// A file is read whole or not at all: every problem is listed with its line,
// its JSON pointer and what to do about it, and the kit is empty when there is
// one. Fields of a newer minor version are kept and written back; a newer major
// version is refused; older versions are brought up to date on the way in.
// Save is deterministic, and Load(Save(k)) gives k again.
//
// The package does not know the catalog: whether a part kind exists is asked
// with CheckAgainst. It opens no files and keeps no photos (see backup).
package kitfile
