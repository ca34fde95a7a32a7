package spares

import "trailfieldkit/fieldkit"

// risk is one position that may fail on the trip, whether or not a spare could help.
type risk struct {
	position      fieldkit.Position
	likelihood    Likelihood
	cost          Cost
	expected      float64 // failures over the trip
	without, with Hours   // what a failure counts, see Cost.Counts
	demand        int     // of the problem, -1 for none
}
