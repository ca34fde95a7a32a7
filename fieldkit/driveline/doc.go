// Package driveline answers which shaft or joint of a rig breaks first, and which one
// would be next if it were made stronger.
//
//	r := driveline.Check(kit, rig)
//	fmt.Println(r.Weakest.Title, r.Weakest.Margin)  // "axle shaft, rear, left", 0.9
//	fmt.Println(r.Next.Title)                       // once that one is upgraded
//	for _, l := range r.Open { … l.Missing … }      // what is not known, and so not said
//
// The torque at each part is the lesser of what the engine can put there in the lowest
// gear and what the tyres can hold on to before they slip (torque.go). The strength of
// a shaft is that of a solid round bar at which its surface begins to yield in torsion
// (strength.go); a joint's is the rating somebody read in its maker's book. Both are
// static: shock, worn splines and joints at full lock take more away, so a margin of 1
// is no margin, and a margin is for comparing parts of one rig, not a promise.
//
// It does not guess what it cannot reckon: without a diameter, a material or a rating
// a part stays open. It says nothing of gears, housings and bearings.
package driveline
