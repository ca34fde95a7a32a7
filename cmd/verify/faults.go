package main

import (
	"context"

	"trailfieldkit/cmd/internal/faults"
)

// countFaults breaks the storage in every way it is known to break, and counts what was
// acknowledged and is gone, and what did not open: both must be nothing. -long kills the
// browser by the hundred and takes an hour or more; the short run takes half a minute.
func countFaults(ctx context.Context, o opts) (r outcome) {
	report, err := faults.Run(ctx, faults.Options{Long: o.long})
	for _, c := range report {
		if c.Failed() {
			r.tests.failed++
		} else {
			r.tests.passed++
		}
	}
	r.table = report.Table()
	if err != nil {
		r.fail(err.Error())
	}
	return r
}
