// Package fieldkit holds what a crew knows about its rigs: systems, positions and
// the parts fitted there, the donors they came from, how parts interchange, the
// spares, tools and trips, and the log of what broke.
//
//	kit, err := kitfile.Load("kit.json", file)      // read and check a kit file
//	p, _ := kit.Position("front-left-outer-bearing")
//	part, _ := kit.Part(p.Part)                     // what is really fitted
//	donor, _ := kit.Donor(part.Donor)               // what to ask for at the counter
//	fmt.Println(donor.Title(), part.Measurements[0].Value.Both(fieldkit.Inch))
//
// The package is pure: it reads no clock, no file and no randomness, and knows
// nothing of browsers. Quantities are typed whole numbers (Length, Mass, Money …)
// and print in both systems.
//
// It does not search (lookup), plan (spares), guide (repair) or store (journal);
// those packages build on it.
package fieldkit
