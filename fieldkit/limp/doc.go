// Package limp answers what still drives, stops and steers: from how the rig is built
// and what is broken on it, whether it may be moved, and within which limits.
//
//	answer := limp.Assess(limp.Facts{Traits: rig.Traits}, limp.Damage{Broken: []limp.Fault{limp.RearShaft}})
//	answer.Verdict // with limits
//	answer.Axles   // front only
//	answer.PerHour // 40 km in one hour
//	answer.Lines   // each with what it says, and whether it was computed or is common practice
//
// Several faults together are no safer than the worst of them: the lowest limit of
// each kind holds, and one refusal refuses. What is not known of the rig counts as the
// worse case, and is asked for.
//
// It judges what it is told. It cannot see a crack, and it never says that a rig may
// go on a public road: that is for local rules and a licensed mechanic.
package limp
