// Package findings answers what a crew's log says: how long parts last, what fails
// most and costs most hours, which spares were used and which only carried, how far
// worn parts are from their limits, and which services are due.
//
//	lives := findings.ByKind(kit, cat, "")             // all rigs; the shortest life first
//	fmt.Println(lives[0].Mean, lives[0].Low)           // 9 000 km, at least 4 100 km
//	worst := findings.Count(kit, findings.BySystem, "hobnail")
//	due := findings.DueOn(kit, cat, today)             // what is overdue first
//	sheet := findings.ReportOf(kit, cat, trip, today)  // a trip, to print
//
// Figures rest on the log alone: starting guesses, and how hard a trip ahead is, are
// package likelihood's. What the log does not say is left out, not guessed.
package findings
