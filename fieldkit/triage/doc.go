// Package triage leads from what a person hears, sees, smells or feels, or from a
// place on the rig, through at most six plain questions to a ranked list of causes,
// each with the repair that mends it.
//
//	book, err := triage.Load("triage.json", file)
//	asked := triage.Talk{Rig: "hobnail", Sign: "howl"}
//	look := triage.Open(book, guides, kit, cat, asked)
//	view := look.View()                       // view.Question is the next to ask
//	asked.Answers = append(asked.Answers, triage.Answer{Question: view.Question.ID, Option: "front-wheel"})
//	for _, found := range view.Ranked { … }   // the causes, the likeliest first, and why
//
// The ranking is Bayes' rule. What a cause weighs before anything is said is how
// often its parts fail on this rig (package likelihood: age, wear readings and the
// crew's log, or else a starting guess). Each answer multiplies that by how often the
// answer is given where the cause is the right one; those weights are starting
// guesses, not measured. "I don't know" changes nothing, and no single answer rules a
// cause out, since people err. What cannot be on this rig, by its traits, is never
// listed. The next question is the one whose answer narrows most: the largest
// expected drop in entropy.
//
// The stop signs come before all of it: what to do at once.
//
// The package does not mend (package repair), does not say whether the rig may be
// moved (package limp), and finds only causes that the book knows.
package triage
