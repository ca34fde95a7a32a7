package repair_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Two taps say where and how; the kit knows the rest.
func TestBroke(t *testing.T) {
	kit := farm(t)
	day := func(d int) fieldkit.Date { return fieldkit.Date{Year: 2026, Month: time.May, Day: d} }
	kit.Positions.Ref(1).Fitted = day(3)
	kit.Inspections = fieldkit.ListOf([]fieldkit.Inspection{
		{ID: "1", Position: "upper", On: day(2), Name: "play", Value: value(t, "1 mm")}, // of the hinge before
		{ID: "2", Position: "upper", On: day(9), Name: "play", Value: value(t, "3 mm")},
		{ID: "3", Position: "upper", On: day(5), Name: "play", Value: value(t, "2 mm")},
		{ID: "4", Position: "latch", On: day(10), Name: "play", Value: value(t, "9 mm")},
	})
	f := repair.Broke(kit, "rig", "upper", fieldkit.Seized, moment(9, 35), "f1")
	assert.Equal(t, fieldkit.Failure{
		ID: "f1", Rig: "rig", On: day(14), At: fieldkit.Moment{Time: time.Date(2026, time.May, 14, 9, 35, 7, 0, time.UTC)},
		Odometer: 1200 * fieldkit.Kilometre, Trip: "now", Position: "upper", Part: "hinge-a",
		What: "hinge, upper, left: seized", Mode: fieldkit.Seized, Before: value(t, "3 mm"),
	}, f)

	kit.Inspections = fieldkit.ListOf(kit.Inspections.Slice()[:1])
	assert.True(t, repair.Broke(kit, "rig", "upper", fieldkit.Seized, moment(9, 35), "f1").Before.IsZero(), "a reading of the part before says nothing")

	open := repair.Broke(kit, "rig", "gone", fieldkit.Leaking, moment(9, 35), "f2")
	assert.Equal(t, "leaking", open.What)
	assert.Empty(t, open.Position)
	assert.Equal(t, 1200*fieldkit.Kilometre, open.Odometer)
}

func TestSuspects(t *testing.T) {
	kit := farm(t)
	cat := fieldkit.Catalog{PartKinds: []fieldkit.PartKind{{ID: "latch", Per10000: 0.5}, {ID: "hinge", Per10000: 0.1}}}
	ids := func(list []fieldkit.Position) (all []string) {
		for _, p := range list {
			all = append(all, p.ID)
		}
		return all
	}
	assert.Equal(t, []string{"latch", "upper", "leaf"}, ids(repair.Suspects(kit, cat, "rig")))
	kit.Failures = fieldkit.ListOf([]fieldkit.Failure{{ID: "1", Position: "leaf"}, {ID: "2", Position: "upper"}, {ID: "3"}})
	assert.Equal(t, []string{"upper", "leaf", "latch"}, ids(repair.Suspects(kit, cat, "rig")), "what broke last comes first")
	assert.Equal(t, "leaf", kit.Positions.At(0).ID, "the kit stays as it is")
}
