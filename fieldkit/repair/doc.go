// Package repair leads a person through a repair on this rig: what it looks
// like, whether the rig may be moved, what is needed, and one small step after
// another, with the caution in front of the step that needs it.
//
//	guides, err := repair.LoadGuides("u-joint-axle.json", file)
//	run := repair.Start(guides[0], rig, position, id, now)
//	view := repair.Current(guides[0], run, rig)         // the step to show
//	run, err = repair.Done(guides[0], run, rig, view.Step.ID)
//	run, err = repair.Answer(guides[0], run, rig, step, "locking hub")
//	draft := repair.FailureFrom(guides[0], run, kit, now, id)
//
// A guide is data; a run is a fieldkit.Run, kept in the kit after every step, so
// that a repair goes on where it was left after the phone died. Branches that the
// rig's traits decide are taken without asking, and the view says why.
//
// The package does not know better than the vehicle's maker: its figures are
// starting figures, and its steps defer to the maker's instructions, local rules
// and licensed mechanics. It does not find the cause of a symptom beyond a word
// search, and it does not choose what to carry (spares).
package repair
