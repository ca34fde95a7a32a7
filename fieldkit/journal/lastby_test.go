package journal_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// Which entries there were by a day, whatever the clock said now and then.
func TestLastBy(t *testing.T) {
	day := func(n int) fieldkit.Moment {
		return fieldkit.Moment{Time: time.Date(2026, 3, n, 12, 0, 0, 0, time.UTC)}
	}
	never := fieldkit.Moment{}
	ahead := fieldkit.Moment{Time: time.Date(2099, 1, 1, 0, 0, 0, 0, time.UTC)}
	back := fieldkit.Moment{Time: time.Date(1970, 1, 1, 0, 0, 0, 0, time.UTC)}
	for name, c := range map[string]struct {
		stamps []fieldkit.Moment
		want   uint64
	}{
		"nothing":                     {nil, 0},
		"all by then":                 {[]fieldkit.Moment{day(1), day(2)}, 2},
		"all later":                   {[]fieldkit.Moment{day(20), day(21)}, 0},
		"begun without a stamp":       {[]fieldkit.Moment{never, day(20), day(21)}, 1},
		"half":                        {[]fieldkit.Moment{day(1), day(9), day(11), day(12)}, 2},
		"the same day":                {[]fieldkit.Moment{day(10), day(10), day(11)}, 2},
		"one wildly ahead":            {[]fieldkit.Moment{day(1), ahead, day(3), day(11), day(12)}, 3},
		"one far back":                {[]fieldkit.Moment{day(1), day(2), day(11), back, day(12), day(13)}, 2},
		"a stamp missing in between":  {[]fieldkit.Moment{day(1), never, day(11)}, 2},
		"back for the last two hours": {[]fieldkit.Moment{day(1), day(11), day(12), day(13), back, back}, 1},
	} {
		t.Run(name, func(t *testing.T) {
			var entries []journal.Entry
			for i, at := range c.stamps {
				entries = append(entries, journal.Entry{Seq: uint64(i + 1), At: at})
			}
			require.Equal(t, c.want, journal.LastBy(entries, day(10)))
		})
	}
}
