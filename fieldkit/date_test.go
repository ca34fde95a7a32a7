package fieldkit

import (
	"cmp"
	"fmt"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseDate(t *testing.T) {
	day := Date{2026, time.May, 14}
	for _, text := range []string{"2026-05-14", "2026/5/14", "14 May 2026", "May 14, 2026", "14 may 2026", "14.5.2026", "5/14/2026", "14/5/2026", " 2026-05-14 "} {
		got, err := ParseDate(text)
		require.NoError(t, err, text)
		assert.Equal(t, day, got, text)
	}
	leap, err := ParseDate("29 Feb 2024")
	require.NoError(t, err)
	assert.Equal(t, Date{2024, time.February, 29}, leap)
}

func TestParseDateRefuses(t *testing.T) {
	cases := []struct{ name, text, what string }{
		{"day and month could be swapped", "3/4/2026", "two ways"},
		{"with dots", "03.04.2026", "two ways"},
		{"31 February", "2026-02-31", "not a day of the calendar"},
		{"29 February of a common year", "29 Feb 2026", "not a day of the calendar"},
		{"month 13", "2026-13-01", "not a day of the calendar"},
		{"day 0", "2026-05-00", "not a day of the calendar"},
		{"year of two figures", "14/5/26", "not a date"},
		{"year too early", "1899-12-31", "not a day of the calendar"},
		{"year too late", "2200-01-01", "not a day of the calendar"},
		{"nothing", "", "not a date"},
		{"words", "last Tuesday evening", "not a date"},
		{"month twice", "May May 2026", "not a date"},
		{"short month", "14 Ma 2026", "not a date"},
		{"plus sign", "2026-05-+14", "not a date"},
		{"four parts", "2026-05-14-15", "not a date"},
		{"huge figures", "99999999999999999999-01-01", "not a date"},
		{"too long", "2026-05-14" + string(make([]byte, 100)), "too long"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := ParseDate(c.text)
			var told *Error
			require.ErrorAs(t, err, &told)
			assert.Zero(t, got)
			assert.Contains(t, told.What, c.what)
			assert.Equal(t, "write 2026-05-14 or 14 May 2026", told.Do)
		})
	}
}

func TestDatesPrintAndCount(t *testing.T) {
	d := Date{2026, time.February, 27}
	assert.Equal(t, "2026-02-27", d.String())
	assert.Equal(t, "27 Feb 2026", d.Show())
	assert.Equal(t, "", Date{}.String())
	assert.Equal(t, "date not known", Date{}.Show())
	assert.Equal(t, Date{2026, time.March, 1}, d.AddDays(2))
	assert.Equal(t, Date{2025, time.December, 31}, d.AddDays(-58))
	assert.True(t, d.Before(d.AddDays(1)))
	assert.False(t, d.Before(d))
	assert.Equal(t, d, DateOf(time.Date(2026, 2, 27, 23, 59, 0, 0, time.FixedZone("west", -8*3600))))
	r := dice(4)
	for range 300 { // counting days is undone by adding them
		n := r.Intn(40_000) - 20_000
		require.Equal(t, n, d.DaysUntil(d.AddDays(n)))
	}
}

func TestMoments(t *testing.T) {
	var m Moment
	require.NoError(t, m.UnmarshalText([]byte("2026-05-14T20:05:00.7+02:00")))
	text, _ := m.MarshalText()
	assert.Equal(t, "2026-05-14T18:05:00Z", string(text))
	for _, bad := range []string{"2026-05-14", "0000-01-01T00:00:00+01:00", "2026-02-30T00:00:00Z", "noon"} {
		assert.Error(t, m.UnmarshalText([]byte(bad)), bad)
	}
	require.NoError(t, m.UnmarshalText(nil))
	assert.True(t, m.IsZero())
	text, _ = m.MarshalText()
	assert.Empty(t, text)
}

// The days of the calendar are those of package time: 1900 has no 29 February, 2000 has.
func TestDaysOfTheCalendar(t *testing.T) {
	for _, year := range []int{1899, 1900, 2000, 2023, 2024, 2199, 2200} {
		for month := range 14 {
			for day := range 33 {
				text := fmt.Sprintf("%04d-%02d-%02d", year, month, day)
				want, err := time.Parse(time.DateOnly, text)
				got, refused := ParseDate(text)
				if err != nil || year < 1900 || year > 2199 {
					assert.Error(t, refused, text)
					continue
				}
				assert.NoError(t, refused)
				assert.Equal(t, DateOf(want), got)
				assert.Equal(t, text, got.String())
			}
		}
	}
}

func TestDatesCompare(t *testing.T) {
	sorted := []Date{{}, {1999, time.December, 31}, {2026, time.May, 14}, {2026, time.May, 15}, {2026, time.June, 1}, {2027, time.January, 1}}
	for i, a := range sorted {
		for j, b := range sorted {
			assert.Equal(t, cmp.Compare(i, j), a.Compare(b))
			assert.Equal(t, i < j, a.Before(b))
		}
	}
}
