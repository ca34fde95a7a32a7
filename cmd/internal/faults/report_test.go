package faults

import (
	"context"
	"testing"

	"github.com/stretchr/testify/require"
)

// The classes that need no browser, as verify's short run does them.
func TestNativeClasses(t *testing.T) {
	for name, run := range map[string]func(context.Context, *site, amounts) (*Class, error){
		"calls": callsNatively, "damages": damages, "snapshots": snapshotsRefused,
	} {
		c, err := run(t.Context(), nil, amounts{damages: 300, every: 29})
		require.NoError(t, err, name)
		require.False(t, c.Failed(), Report{c}.Table())
	}
	c := &Class{}
	require.NoError(t, clocksNatively(t.Context(), c, 30))
	require.False(t, c.Failed(), Report{c}.Table())
}

// Anything lost, closed or wrong makes a report fail, and so does a class that tried
// nothing.
func TestReportFails(t *testing.T) {
	fine := &Class{Cases: 1}
	require.False(t, Report{fine}.Failed())
	for _, c := range []*Class{{Cases: 1, Lost: 1}, {Cases: 1, Closed: 1}, {}} {
		require.True(t, Report{fine, c}.Failed())
	}
	wrong := &Class{Name: "x", Cases: 1}
	for range 9 {
		wrong.bad("half an action")
	}
	wrong.tell("full")
	require.True(t, Report{wrong}.Failed())
	require.Contains(t, Report{wrong}.Table(), "WRONG: half an action")
	require.Contains(t, Report{wrong}.Table(), "1 × told: full")
}
