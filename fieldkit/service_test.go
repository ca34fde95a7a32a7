package fieldkit_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/fieldkit"
)

func TestServiceLast(t *testing.T) {
	day := func(m time.Month) fieldkit.Date { return fieldkit.Date{Year: 2026, Month: m, Day: 3} }
	_, ok := fieldkit.Service{}.Last()
	assert.False(t, ok)
	last, ok := fieldkit.Service{Done: []fieldkit.ServiceDone{{On: day(2)}, {On: day(7), Hours: 1}, {On: day(7), Hours: 2}, {On: day(1)}}}.Last()
	assert.True(t, ok)
	assert.Equal(t, fieldkit.ServiceDone{On: day(7), Hours: 2}, last, "of one day, what was written down last")
}

// The last day of a month stands for a day it does not have.
func TestAddMonths(t *testing.T) {
	d := func(text string) fieldkit.Date {
		parsed, err := fieldkit.ParseDate(text)
		assert.NoError(t, err)
		return parsed
	}
	for _, c := range []struct {
		from string
		n    int
		want string
	}{
		{"2026-05-14", 6, "2026-11-14"}, {"2026-08-31", 6, "2027-02-28"}, {"2027-08-31", 6, "2028-02-29"},
		{"2026-12-31", 1, "2027-01-31"}, {"2026-01-15", 0, "2026-01-15"}, {"2026-01-31", 25, "2028-02-29"},
	} {
		assert.Equal(t, d(c.want), d(c.from).AddMonths(c.n), "%s and %d", c.from, c.n)
	}
	assert.True(t, fieldkit.Date{}.AddMonths(3).IsZero())
}
