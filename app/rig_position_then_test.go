package app

import (
	"context"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// What a position looked like in March: the part, what was known of it, and what is
// otherwise today; every change of it or of its part is listed.
func TestPositionInMarch(t *testing.T) {
	ctx := context.Background()
	day := func(month, n int) fieldkit.Moment {
		return fieldkit.Moment{Time: time.Date(2026, time.Month(month), n, 12, 0, 0, 0, time.UTC)}
	}
	s, _, err := journal.Open(ctx, journal.NewMemory(), func() fieldkit.Kit {
		return fieldkit.Kit{Format: fieldkit.Format, Version: "1.0", ID: "k", Name: "Crew", Currency: "USD",
			Rigs:      []fieldkit.Rig{{ID: "rig", Name: "Bramble"}},
			Systems:   []fieldkit.Assembly{{ID: "brakes", Rig: "rig", Name: "brakes"}},
			Positions: fieldkit.ListOf([]fieldkit.Position{{ID: "pads", System: "brakes", Name: "brake pads", Side: fieldkit.Left, Kind: "brake-pads", Quantity: 2}})}
	})
	require.NoError(t, err)
	do := func(at fieldkit.Moment, what string, records ...fieldkit.Record) {
		_, err := s.Do(ctx, what, at, newID, func(e *journal.Edit) error {
			for _, r := range records {
				e.Put(r)
			}
			return nil
		})
		require.NoError(t, err)
	}
	place, _ := s.Kit().Position("pads")
	place.Part = "old"
	do(day(2, 3), "fitted the old pads", fieldkit.Part{ID: "old", Kind: "brake-pads", Name: "ceramic pads",
		Numbers: []fieldkit.Number{{Value: "K-4410", Issuer: fieldkit.MakerNumber}}}, place)
	do(day(3, 1), "another matter", fieldkit.Tool{ID: "tool", Kind: "hammer", Name: "hammer"})
	old, _ := s.Kit().Part("old")
	old.Note = "squeal"
	do(day(3, 20), "they squeal", old)
	place.Part, place.Note = "new", "bedded in"
	do(day(5, 2), "fitted the new pads", fieldkit.Part{ID: "new", Kind: "brake-pads", Name: "semi-metallic pads"}, place)

	v, err := lookBack(ctx, s, "pads", fieldkit.Date{Year: 2026, Month: 3, Day: 10}, 0, fieldkit.Metric)
	require.NoError(t, err)
	assert.True(t, v.found)
	assert.Equal(t, "ceramic pads", v.part)
	assert.Equal(t, "K-4410", valueOf(v.facts, "Number 1"))
	assert.Empty(t, valueOf(v.facts, "About the part"))
	assert.Contains(t, v.differs, "fitted is semi-metallic pads")
	assert.Contains(t, v.differs, "note: bedded in")
	assert.Contains(t, v.differs, "number 1: nothing")
	assert.False(t, v.early)
	var said []string
	for _, row := range v.changes {
		said = append(said, row.what)
	}
	assert.Equal(t, []string{"Fitted the new pads", "They squeal", "Fitted the old pads", "Kit begun"}, said)

	v, err = lookBack(ctx, s, "pads", fieldkit.Date{Year: 2026, Month: 3, Day: 25}, 0, fieldkit.Metric)
	require.NoError(t, err)
	assert.Equal(t, "squeal", valueOf(v.facts, "About the part"))

	v, err = lookBack(ctx, s, "pads", fieldkit.Date{Year: 2025, Month: 1, Day: 1}, 0, fieldkit.Metric)
	require.NoError(t, err)
	assert.Equal(t, "nothing known", v.part)

	v, err = lookBack(ctx, s, "pads", fieldkit.Date{}, s.Seq(), fieldkit.Metric)
	require.NoError(t, err)
	assert.Contains(t, v.when, "Fitted the new pads")
	assert.Empty(t, v.differs)

	v, err = lookBack(ctx, s, "never", fieldkit.Date{Year: 2026, Month: 3, Day: 10}, 0, fieldkit.Metric)
	require.NoError(t, err)
	assert.False(t, v.found)
}

func valueOf(list []fact, name string) string {
	for _, f := range list {
		if f.name == name {
			return f.value
		}
	}
	return ""
}

// The rescue says what is left, names what is not, and does not offer to go on with
// nothing.
func TestViewRescue(t *testing.T) {
	v := viewRescue(salvaged{})
	assert.Equal(t, "0 entries, 0 snapshots, 0 photos.", v.counts)
	assert.False(t, v.anything)
	assert.Empty(t, v.kit)

	raw := journal.Salvage{Records: make([]journal.Record, 3), Photos: []string{"a"}, Unread: []string{"entry 4: gone"}}
	report := journal.Report{BaseLost: true, Replayed: 2, LostSnapshots: 1, Damaged: []journal.Damage{{Seq: 1, Last: 1, Why: "missing"}}}
	v = viewRescue(salvaged{raw: raw, report: report})
	assert.Contains(t, v.counts, "3 entries")
	assert.NotEmpty(t, v.kit)
	assert.Equal(t, []string{"entry 4: gone", "the beginning of the journal cannot be read", "entry 1: missing",
		"1 snapshot not whole; nothing is lost by that alone"}, v.lost)

	report.Replayed = 0
	assert.Empty(t, viewRescue(salvaged{raw: raw, report: report}).kit, "nothing of it could be used")

	v = viewRescue(salvaged{raw: raw, none: errBeginningLost})
	assert.True(t, v.anything)
	assert.Empty(t, v.kit)

	second := salvaged{at: storeAt{ownKit, 1, true}, raw: raw, report: journal.Report{Replayed: 3}}
	v = viewRescue(salvaged{none: errBeginningLost, second: &second})
	assert.Contains(t, v.second, "holds 3 entries and 1 photo")
	second.none = errBeginningLost
	assert.Empty(t, viewRescue(salvaged{second: &second}).second, "nothing to go on with")

	for range 60 {
		raw.Unread = append(raw.Unread, "entry: gone")
	}
	v = viewRescue(salvaged{raw: raw})
	assert.Len(t, v.lost, lostShown+1)
	assert.Contains(t, v.lost[lostShown], "more")
}
