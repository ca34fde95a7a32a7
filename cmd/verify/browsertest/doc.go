// Package browsertest drives the whole program in Chromium as a phone would, with a
// server that can be stopped, broken and updated.
//
//	go test -tags browser ./cmd/verify/browsertest
//
//	func TestPartIsFoundOffline(t *testing.T) {
//		server := serve(t)
//		phone := visited(t, server) // every file is kept and checked
//		server.Stop()               // no signal from here on
//		phone.Open("/counter")      // a fresh tab
//		phone.Fill("Search", "front brake pads")
//		phone.Tap("Front brake pads")
//		phone.See("Ask for")
//		phone.Die()                 // the battery
//		phone.Wake()                // the same phone, started again
//	}
//
// Each test has a server and a phone of its own, with an empty profile; the tests of
// a day without signal (flow_*) begin with a copy of one phone that visited once. With
// -screens the pictures in README.md are taken anew. A failed
// test leaves a picture of the screen and says where. Everything carries the build
// tag browser, because it takes minutes and needs Chromium.
package browsertest
