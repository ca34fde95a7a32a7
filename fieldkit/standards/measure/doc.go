// Package measure says what a part is from what was measured on it.
//
//	kind, _ := measure.KindNamed("bearing")
//	result, err := kind.Find(handbook, measure.Query{Given: []measure.Given{
//		{Name: "bore", Text: "35"}, {Name: "od", Text: "2.835 in"},
//	}})
//	result.Candidates[0].Designation               // 6207, with its likelihood and misfits
//	result.Next                                    // what to measure next, and why
//
// Candidates come from the published tables, or for tyres and belts from the rules of
// their sizes. A reading counts for a candidate as far as the tool, the tolerance of
// new parts and, on a worn part, its wear explain the difference: these are named in
// tool.go and beside each kind. Likelihoods are those of the candidates against each
// other and against "nothing standard"; they add up to less than 1.
//
// What is measured next is the attribute that can be expected to lower the entropy of
// the candidates most.
//
// The package judges no fit: of two parts of one designation one may still be wrong
// for the job.
package measure
