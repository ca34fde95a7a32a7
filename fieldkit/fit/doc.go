// Package fit answers whether the part in hand is the one wanted: it compares them
// attribute by attribute, says what is still to measure, and tells the wanted part
// from those that look like it.
//
//	schema, _ := fit.SchemaOf(kind, specs)               // how near is near enough, from data
//	wanted := fit.Known(part)                            // what the kit knows of the part wanted
//	hand := fit.Hand{Readings: fit.Readings{"bore": r}}  // r from schema.Read
//	result := fit.Compare(schema, wanted, hand)
//	fmt.Println(result.Verdict, result.Differing(), result.Measure)
//
// A value counts as agreeing only if the tool that took it can tell; of two values
// that differ by less than their tools can say, the answer is "not sure". Where a
// wrong part is dangerous, the verdict is no better than its least proven attribute.
//
// Separate gives the smallest set of checks that tells a part from its look-alikes;
// Yard asks them one at a time.
//
// The package holds no figures: tolerances come with the schemas. It does not know
// which part is right for a rig, and it defers to the maker's figures.
package fit
