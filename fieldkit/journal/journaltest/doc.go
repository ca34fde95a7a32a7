// Package journaltest checks that a journal.Store keeps its contract, whatever it
// is made of.
//
//	func TestMemory(t *testing.T) {
//		kept := map[string]*journal.Memory{}
//		journaltest.Run(t, func(t *testing.T, name string) journal.Store { … })
//	}
//
// It needs nothing but the store: no files, no other programs, so it also runs
// compiled to WebAssembly in a browser. It does not check durability across a
// power cut; nothing inside the program can.
package journaltest
