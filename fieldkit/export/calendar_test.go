package export_test

import (
	"bytes"
	"strings"
	"testing"
	"time"

	arran "github.com/arran4/golang-ical"
	emersion "github.com/emersion/go-ical"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/export"
	"trailfieldkit/fieldkit/findings"
)

var stamp = fieldkit.Moment{Time: time.Date(2026, 11, 26, 7, 8, 9, 0, time.UTC)}

// dueKit is logKit with services of every kind of interval.
func dueKit() fieldkit.Kit {
	kit := logKit()
	r := &kit.Rigs[0]
	r.Odometer, r.OdometerOn, r.EngineHours, r.EngineHoursOn = 40_600*fieldkit.Mile, date("2026-06-14"), 1200, date("2026-06-14")
	done := func(on string, miles fieldkit.Distance, hours int) []fieldkit.ServiceDone {
		return []fieldkit.ServiceDone{{On: date(on), Odometer: miles * fieldkit.Mile, Hours: hours}}
	}
	r.Services = []fieldkit.Service{
		{ID: "oil", Name: "engine oil; filter, 6 L", Every: 5000 * fieldkit.Mile, Hours: 250, Months: 12, Done: done("2026-01-05", 38_000, 1000)},
		{ID: "hubs", Name: "hubs\nBEGIN:VEVENT", Crossings: 1},
		{ID: "air", Name: `air filter — c:\dust`, Months: 6, Done: done("2026-02-01", 0, 0)},
	}
	return kit
}

func date(text string) fieldkit.Date {
	d, err := fieldkit.ParseDate(text)
	if err != nil {
		panic(err)
	}
	return d
}

func dueICS() []byte {
	kit := dueKit()
	return export.DueCalendar(kit, findings.DueOn(kit, fieldkit.Catalog{}, date("2026-06-20")), stamp, fieldkit.Inch)
}

func TestGoldenCalendar(t *testing.T) { golden(t, "due.ics", dueICS()) }

// Two general-purpose calendar libraries read the entries back.
func TestCalendarIsReadByOthers(t *testing.T) {
	cal, err := emersion.NewDecoder(bytes.NewReader(dueICS())).Decode()
	require.NoError(t, err)
	var sink bytes.Buffer
	require.NoError(t, emersion.NewEncoder(&sink).Encode(cal), "it has what RFC 5545 asks for")
	events := cal.Events()
	require.Len(t, events, 3)
	titles := map[string]emersion.Event{}
	for _, e := range events {
		title, err := e.Props.Text(emersion.PropSummary)
		require.NoError(t, err)
		titles[title] = e
	}
	oil, ok := titles["Bramble: engine oil; filter, 6 L"]
	require.True(t, ok, "%v", titles)
	start, err := oil.DateTimeStart(time.UTC)
	require.NoError(t, err)
	end, err := oil.DateTimeEnd(time.UTC)
	require.NoError(t, err)
	assert.Equal(t, 24*time.Hour, end.Sub(start), "all day")
	written, err := oil.Props.DateTime(emersion.PropDateTimeStamp, time.UTC)
	require.NoError(t, err)
	assert.True(t, written.Equal(stamp.Time))
	assert.Contains(t, titles, "Bramble: hubs\nBEGIN:VEVENT", "a line break stays inside its text")
	assert.Contains(t, titles, `Bramble: air filter — c:\dust`)

	second, err := arran.ParseCalendar(bytes.NewReader(dueICS()))
	require.NoError(t, err)
	require.Len(t, second.Events(), 3)
	for _, e := range second.Events() {
		title := arran.FromText(e.GetProperty(arran.ComponentPropertySummary).Value)
		first, ok := titles[title]
		require.True(t, ok, title)
		uid, _ := first.Props.Text(emersion.PropUID)
		assert.Equal(t, uid, e.Id())
		day, err := e.GetAllDayStartAt()
		require.NoError(t, err)
		want, _ := first.DateTimeStart(time.UTC)
		assert.Equal(t, want.Format(time.DateOnly), day.Format(time.DateOnly))
	}
}

// RFC 5545, 3.3.11: a text with a line break, a comma, and the escapes that it shows;
// 3.1: no line is longer than 75 octets, and a folded line unfolds to what it was.
func TestCalendarByTheBook(t *testing.T) {
	text := "Project XYZ Final Review\nConference Room - 3B\nCome Prepared."
	long := strings.Repeat("naïve, 中文 and ½ of 🛻; ", 20)
	raw := string(export.Calendar([]export.Event{{UID: "u", On: date("1997-12-31"), Title: long, Text: text}}, stamp))
	assert.Contains(t, raw, `DESCRIPTION:Project XYZ Final Review\nConference Room - 3B\nCome Prepared.`+"\r\n")
	assert.Contains(t, raw, "DTSTART;VALUE=DATE:19971231\r\nDTEND;VALUE=DATE:19980101\r\n")
	for _, line := range strings.Split(raw, "\r\n") {
		assert.LessOrEqual(t, len(line), 75, line)
		assert.NotContains(t, line, "\n")
	}
	unfolded := strings.ReplaceAll(raw, "\r\n ", "")
	assert.Contains(t, unfolded, strings.NewReplacer(",", `\,`, ";", `\;`).Replace("SUMMARY:"+long))
	assert.True(t, strings.HasSuffix(raw, "END:VCALENDAR\r\n"))
}

// Whatever a kit's texts hold, a calendar has as many entries as were written, and each
// gives its title back but for what is not seen.
func FuzzCalendar(f *testing.F) {
	f.Add("oil\r\nBEGIN:VEVENT\r\nSUMMARY:x", "a\\n;,:\"")
	f.Add("\x00\x07\u2028 ", strings.Repeat("é", 200))
	f.Fuzz(func(t *testing.T, title, text string) {
		events := []export.Event{{UID: "a" + text, On: date("2026-11-26"), Title: "t" + title, Text: text}, {UID: "b", On: date("2026-11-27"), Title: "second"}}
		raw := export.Calendar(events, stamp)
		for _, line := range bytes.Split(raw, []byte("\r\n")) {
			if len(line) > 75 || bytes.ContainsAny(line, "\r\n\x00") {
				t.Fatalf("line %q", line)
			}
		}
		cal, err := emersion.NewDecoder(bytes.NewReader(raw)).Decode()
		if err != nil {
			t.Fatal(err)
		}
		if got := cal.Events(); len(got) != 2 {
			t.Fatalf("%d entries", len(got))
		}
		got, err := cal.Events()[0].Props.Text(emersion.PropSummary)
		if err != nil {
			t.Fatal(err)
		}
		if want := seen("t" + title); got != want {
			t.Fatalf("%q read as %q", want, got)
		}
	})
}

// seen is a text as a calendar keeps it.
func seen(text string) string {
	text = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.ToValidUTF8(text, "\ufffd"))
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case r == '\n':
			return r
		case r < ' ' || r == 0x7f || r == 0xfffe || r == 0xffff:
			return -1
		}
		return r
	}, text)
}
