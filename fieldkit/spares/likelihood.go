package spares

import (
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
)

// Likelihood says how likely a position is to fail on a trip, and how that is known.
type Likelihood = likelihood.Likelihood

// MaxExpected bounds the failures expected at one position.
const MaxExpected = likelihood.MaxExpected

// LikelihoodOf says how likely a position is to fail on a trip, by the best evidence
// there is (see package likelihood). A position on no rig gives the zero Likelihood.
func LikelihoodOf(kit fieldkit.Kit, cat fieldkit.Catalog, trip fieldkit.Trip, position fieldkit.Position) Likelihood {
	rig, ok := kit.RigOf(position)
	if !ok {
		return Likelihood{}
	}
	return likelihood.Look(kit, cat, trip, rig).Of(position)
}
