// Package optimum finds the best choice under limits, and proves it: what to take when
// everything weighs something, one thing needs another, and what is needed is shared.
//
//	p := &optimum.Problem{Limits: []int64{5000}, Columns: columns}
//	a := optimum.Solve(p, optimum.Options{KeepGoing: func() bool { return !stop }})
//	a.Taken, a.Value, a.Proved // or a.Gap(), if it was stopped
//
// It maximises the sum of the gains of the columns taken. Amounts are whole numbers and
// exact; gains are floating-point numbers, so that a proof holds within Tolerance.
//
// The search is branch and bound over a linear relaxation, solved by the dual simplex
// method (simplex.go) and tightened at the root by cuts (halves.go). Every bound is
// computed afresh from the prices of the rows by weak duality, so that a slip of the
// simplex can cost time and never the proof. Choices come from rounding the relaxation and
// from searching near the best one known (near.go); what the prices at the root decide,
// with all that follows from it (probe.go), is taken out for good, and what remains is
// reduced (reduce.go) and begun again (descend.go); so is what remains at a node where much
// is decided (below.go). While the best choice is poor, the search looks only for what is
// close to the bound, and lowers its sights step by step. It reads no clock:
// Options.KeepGoing ends it at any time with the best choice so far and how far it can be
// from the optimum.
//
// It does not know of trips or spares, does not take amounts below nothing, and keeps all
// open parts of its search in memory.
package optimum
