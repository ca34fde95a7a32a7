package fieldkit

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Which trip a rig is on: its own, by day, not done before done.
func TestTripOn(t *testing.T) {
	start := Date{Year: 2026, Month: 5, Day: 10}
	kit := Kit{Trips: []Trip{
		{ID: "some day", Rigs: []string{"a"}, Days: 99},
		{ID: "over", Rigs: []string{"a"}, Start: start, Days: 3, Done: true},
		{ID: "theirs", Rigs: []string{"b"}, Start: start.AddDays(-5), Days: 10},
		{ID: "ours", Rigs: []string{"a"}, Start: start.AddDays(2), Days: 2},
		{ID: "one day", Rigs: []string{"a"}, Start: start.AddDays(20)},
	}}
	for _, c := range []struct {
		why, rig string
		day      int
		want     string
	}{
		{"another rig's trip is not ours", "a", -1, ""},
		{"a trip that is done, where no other holds the day", "a", 0, "over"},
		{"of two the one that is not done", "a", 2, "ours"},
		{"the last day", "a", 3, "ours"},
		{"the day after", "a", 4, ""},
		{"a trip that says no days is one", "a", 20, "one day"},
		{"and no more", "a", 21, ""},
		{"any rig's, the one not done first", "", 0, "theirs"},
		{"none of a rig that is not known", "c", 0, ""},
	} {
		trip, ok := kit.TripOn(c.rig, start.AddDays(c.day))
		assert.Equal(t, c.want, trip.ID, c.why)
		assert.Equal(t, c.want != "", ok, c.why)
	}
}
