package findings_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

func TestReportOfTheDemo(t *testing.T) {
	kit := data.DemoKit()
	trip, ok := kit.Trip("2024-05-widows-rib")
	require.True(t, ok)
	r := findings.ReportOf(kit, data.Catalog(), trip, day("2026-11-26"), fieldkit.Inch)
	assert.Equal(t, []string{"Hobnail", "Wicket"}, r.Rigs)
	assert.Equal(t, "17 May 2024 to 19 May 2024", r.Days())
	require.Len(t, r.Failures, 3)
	assert.Equal(t, fieldkit.Minutes(210+90+50), r.Lost)
	assert.Equal(t, "Hobnail: steering pump", r.Failures[0].At)
	assert.Contains(t, r.Failures[0].Lines, "Time lost: 3 h 30 min")
	used := map[string]int{}
	for _, n := range r.Restock {
		used[n.Ref.Item] = n.Used
	}
	assert.Equal(t, 2, used["steering-fluid"])
	assert.Equal(t, 1, used["hub-lockout"])
	for _, d := range r.Due {
		assert.NotEqual(t, findings.Later, d.State)
	}
	assert.Equal(t, "3 days", findings.Report{Trip: fieldkit.Trip{Days: 3}}.Days())
	assert.Equal(t, "1 Jan 2026", findings.Report{Trip: fieldkit.Trip{Start: day("2026-01-01"), Days: 1}}.Days())
}
