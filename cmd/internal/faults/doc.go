// Package faults counts what breaks: it kills the browser inside commits, lets every
// storage call fail, damages what is kept, fills the disk, turns the clock, and counts
// after each fault what was acknowledged and is gone.
//
//	report, err := faults.Run(ctx, faults.Options{Long: true, Log: os.Stderr})
//	fmt.Print(report.Table())
//	if report.Failed() { … }
//
// The classes:
//
//	a  Chromium killed, all its processes, at random instants inside commits
//	b  every storage call failing once at every position of a scripted day: by a
//	   store that injects faults, and in Chromium by IndexedDB's own interfaces; and
//	   once more through the screens of the app. A full storage, site data cleared,
//	   connections lost by that and opens that are blocked are the browser's own doing;
//	   its other errors are raised where it raises them
//	c  random damage to the stored journal and snapshots
//	d  two and three tabs editing at once; an upgrade while an old tab is open
//	e  a clock that stutters, goes back, is wildly ahead
//	f  storage full while a photo is saved
//	g  killed while a snapshot is written and older ones are removed; a snapshot that
//	   cannot be written
//
// A kill of the browser does not show whether the disk has the data: the operating
// system keeps what it was given. So every write in every browser class also reads the
// transaction's durability back, and anything but strict counts as wrong.
//
// Package diary writes the actions whose every byte is known; bench is the program
// that keeps a diary in a page. The package tests nothing but storage: the screens have
// cmd/verify/browsertest.
package faults
