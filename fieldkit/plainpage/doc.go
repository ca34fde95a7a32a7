// Package plainpage writes pages that can be read without the program: a counter
// card, a packing list, a repair under way, what to know in an emergency, the report
// of a trip, and the list of them.
//
//	page := plainpage.Card(card, "counter/card?part=pads-front", fieldkit.Inch)
//	frame := plainpage.Frame{Base: "/", KitName: kit.Name, Night: true}
//	if mark := frame.Mark(page); mark != known {
//		keep(page.Path(), mark, frame.HTML(page, now))
//	}
//
// A page is one HTML document with its style in it, no script, no picture and no
// other file. Everything that comes from a kit is escaped. Policy is the
// Content-Security-Policy of the page, which it says itself too: nothing may run or
// be loaded, and the one style sheet is named by its hash.
//
// A page stands for an address of the program and is kept under that address below
// "plain/". What stands between <main> and </main> may be put into the program's own
// page while the program is starting: Sheet holds for it there.
//
// The package keeps nothing and reads no clock.
package plainpage
