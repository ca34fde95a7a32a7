package main

import (
	"context"

	"trailfieldkit/cmd/internal/starts"
)

// countStarts breaks every file of the site in every way a download breaks, and counts
// whether the program starts afterwards or says that it is not ready. -long breaks each
// at every kind of byte; a case that came to neither is a failure.
func countStarts(ctx context.Context, o opts) (r outcome) {
	report, err := starts.Run(ctx, starts.Options{Long: o.long, Seed: 1})
	for _, row := range report.Rows {
		if row.Failed() {
			r.tests.failed++
		} else {
			r.tests.passed++
		}
	}
	r.table = report.Table()
	r.note("%d cases, %d bad", report.Cases(), report.Bad())
	if report.TooStill() {
		r.fail("the browser was silent too often when it was asked for an update")
	}
	if err != nil {
		r.fail(err.Error())
	}
	return r
}
