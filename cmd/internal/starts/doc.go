// Package starts breaks the download of the program in every way a download breaks,
// and counts what the phone does afterwards: whether it starts with no signal, in the
// old or the new version, each whole, or says that it is not ready for no signal.
//
//	report, err := starts.Run(ctx, starts.Options{Long: true})
//	fmt.Print(report.Table())
//
// A case is one file of the site, one way of breaking it and one byte at which it
// breaks, during the first visit, during an update, or after a first visit has loaded the
// program and while it is being kept. The page, the start script and
// the worker are those of the program; the program itself is a stand-in of a few
// kilobytes that says which edition it is, so that thousands of cases are possible.
// Every visit of a first visit's case is a fresh origin.
//
// The browser tests do the same with the program itself, for a few files.
package starts
