// Package interchange answers what can take the place of a part: it follows the
// links between parts, adds up what each step costs, and shows the chain.
//
//	g := interchange.New(kit.Parts, kit.Links)
//	for _, s := range g.StandIns("front-outer-bearing") { // best first
//		fmt.Println(s.Part, s.Grade, s.Changes, s.Weakest, len(s.Chain))
//	}
//	for _, c := range g.Contradictions() {
//		fmt.Println(c.Say(nameOfPart))
//	}
//
// The rules: drop-in then drop-in is drop-in; one step that fits with changes makes
// the chain fit with changes, and the changes add up; a one-way link is followed one
// way only and makes the chain one-way; does not fit between two parts beats every
// chain between them. Two parts of one kind that bear the same standard designation
// are tied as drop-in without a link.
//
// It does not measure or compare dimensions, and it does not judge whether a link
// is true: it shows who said so, when, and how it was proven.
package interchange
