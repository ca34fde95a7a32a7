// Package passon takes a few records out of one kit and puts them into another.
//
//	b := passon.Position(kit, id)          // or Card, Link, Rigs: a kit of its own
//	code, err := passon.Encode(b)          // short enough for the square of dots of a QR code
//
//	b, err := passon.Decode(code)          // checked like a kit file, with limits
//	put := passon.Into(kit, b, where, newID) // records to put, as one edit
//
// A bundle is a small kit: the records passed on and what they refer to, nothing
// else. It holds no log, no photos, no prices and no stock, except that a rig takes
// its spares and bins along. In the other kit everything gets IDs of its own, so
// that nothing of what is there is touched; parts, donors and links that are there
// already, word for word, are used as they are. A friend's rig gets the same IDs
// whenever it is added, so that adding it again brings it up to date.
//
// A code is text of capital letters and digits: a version, a checksum and the kit
// file packed with a dictionary of its own words.
package passon
