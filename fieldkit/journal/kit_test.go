package journal_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

var ctx = context.Background()

// begin is a small kit: one rig, two places for axle U-joints, one donor, one
// part, two spares.
func begin() fieldkit.Kit {
	return fieldkit.Kit{
		Format: fieldkit.Format, Version: "1.1", ID: "test-kit", Name: "Dry Fork crew", Currency: "USD",
		Rigs:    []fieldkit.Rig{{ID: "rig", Name: "Bramble"}},
		Systems: []fieldkit.Assembly{{ID: "front-axle", Rig: "rig", Name: "front axle"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "joint-left", System: "front-axle", Name: "axle U-joint", Side: fieldkit.Left, Kind: "u-joint", Quantity: 1, Part: "joint"},
			{ID: "joint-right", System: "front-axle", Name: "axle U-joint", Side: fieldkit.Right, Kind: "u-joint", Quantity: 1, Part: "joint"},
			{ID: "seal-left", System: "front-axle", Name: "axle seal", Side: fieldkit.Left, Kind: "seal", Quantity: 1},
		}),
		Donors: []fieldkit.Donor{{ID: "donor", Make: "Orvane", Model: "Tusker", YearFrom: 1988, YearTo: 1991}},
		Parts:  fieldkit.ListOf([]fieldkit.Part{{ID: "joint", Kind: "u-joint", Name: "axle U-joint", Donor: "donor"}}),
		Spares: fieldkit.ListOf([]fieldkit.Spare{{ID: "spare-joint", Part: "joint", Count: 2}}),
	}
}

var now = fieldkit.Moment{Time: time.Date(2026, 5, 14, 18, 5, 0, 0, time.UTC)}

// counter gives IDs that no other counter gives.
func counter(prefix string) func() string {
	n := 0
	return func() string { n++; return fmt.Sprintf("%s-%d", prefix, n) }
}

func open(t *testing.T, store journal.Store) *journal.Session {
	t.Helper()
	s, report, err := journal.Open(ctx, store, begin)
	require.NoError(t, err)
	require.True(t, report.Whole(), "%s", report)
	return s
}

func failure(id, what string, photos ...string) fieldkit.Failure {
	return fieldkit.Failure{ID: id, Rig: "rig", On: fieldkit.DateOf(now.Time), At: now, Position: "joint-left",
		Part: "joint", What: what, Photos: photos}
}

// logFailure is the action a person does at camp: the note, and one spare less.
func logFailure(id, what string, photos ...string) func(*journal.Edit) error {
	return func(ed *journal.Edit) error {
		spare, _ := ed.Kit().Spares.Find("spare-joint")
		if spare.Count == 0 {
			return &fieldkit.Error{Kind: fieldkit.Conflict, What: "no spare is left"}
		}
		spare.Count--
		ed.Put(spare)
		ed.Put(failure(id, what, photos...))
		return nil
	}
}

func sameKit(t *testing.T, want, got fieldkit.Kit, about ...any) {
	t.Helper()
	require.Equal(t, string(kitfile.Save(want)), string(kitfile.Save(got)), about...)
}
