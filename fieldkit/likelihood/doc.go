// Package likelihood answers how likely a part is to fail on a trip, and what that
// rests on.
//
//	o := likelihood.Look(kit, cat, trip, rig)     // once for a rig
//	l := o.Of(position)                           // of one place on it
//	fmt.Println(l.Probability, l.Interval)        // 0.04, from 0.02 to 0.08
//	fmt.Println(l.Evidence)                       // "wear readings: 5 in 4200 km (2610 mi)"
//	for _, line := range l.Detail { … }           // how it was reckoned, step by step
//
// The best evidence there is is used, in this order:
//
//   - Wear readings: a straight line of reading against distance (of what turns with the
//     engine against its hours, where the readings have them), and the chance that
//     a reading at the trip's end is at the limit or past it (line.go, wear.go).
//     What wear does not announce, such as a tyre cut on a rock, is added.
//   - Age: a Weibull law, given that the part has lasted so far (weibull.go, age.go).
//   - The crew's own log: failures counted in the distance driven correct the part
//     kind's rate (rate.go, history.go). It corrects age as well, where both are known.
//   - Otherwise the part kind's row of the table of starting guesses (prior.go).
//
// How hard the trip is (terrain, tyres, load, water, dust) is a matter of exposure
// (exposure.go): kilometres become kilometres of rough track on tyres of the size the
// axles were built for.
//
// It does not plan (package spares), does not know strength (package driveline does, and its
// margins count here), and
// does not say whether a rig is fit to drive: what is worn to its limit is changed
// before leaving, not carried along as a risk.
package likelihood
