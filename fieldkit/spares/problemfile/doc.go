// Package problemfile reads a bare planning problem, so that the planner can be checked
// and compared from outside, solves it, and lays the answer out.
//
//	task, err := problemfile.Read(text)
//	answer := task.Solve(optimum.Options{})
//
// A file is one JSON object. Fields that are not named here are ignored.
//
//	"limits": {NAME: amount, …}   one to ten, of any name but those of the fields of items, or groups
//
// It has one of two forms. In the linear form a position fails at most once, and one
// carried copy covers every position it fits, without being used up: the value is the
// sum of p × loss over the positions that some carried item fits and whose tools are
// all carried. A second copy of an item is worth nothing.
//
//	"positions": [{"id", "p", "loss", "tools": [tool ids]}]
//	"items":     [{"id", NAME: amount, …, "copies", "fits": [position ids]}]
//	"tools":     [{"id", NAME: amount, …}]
//
// In the pooled form the demand of a group is Poisson: k copies with all its tools save
// loss × E[min(N, k)] = loss × Σ P(N > j), j = 0 … k−1.
//
//	"groups": [{"id", "position_rates": […] or "lambda", "loss", NAME: amount, …, "copies", "tools"}]
//	"tools":  as above
//
// Whatever is carried takes its amounts once a copy, a tool once; together they stay at
// or below each limit. A missing amount is 0, missing copies are 1, missing tools none.
// Amounts are decimal numbers and are taken exactly, to 15 digits; beyond that they are
// rounded so that no limit is ever exceeded.
package problemfile
