package export

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/findings"
)

// Event is one all-day entry of a calendar.
type Event struct {
	UID   string // unique in the world, and the same whenever the entry is written again
	On    fieldkit.Date
	Title string
	Text  string // may have several lines
}

// product names the program in calendars, as RFC 5545, 3.7.3, asks.
const product = "-//Trail Field Kit//Due//EN"

// DueCalendar writes what is due as a calendar: an entry a day-long for each thing that
// has a day. stamp is the moment of writing. Entries that are written again later
// replace the earlier ones, for their UID says the kit, the rig and what is due.
func DueCalendar(kit fieldkit.Kit, list []findings.Due, stamp fieldkit.Moment, first fieldkit.System) []byte {
	var events []Event
	for _, d := range list {
		if d.By.IsZero() {
			continue
		}
		text := string(d.State) + "\n" + d.Words(first)
		if d.Reckoned {
			text += "\nThe day is reckoned from how much the rig is driven."
		}
		events = append(events, Event{
			UID: joined("-", kit.ID, d.Rig, d.Service, d.Position) + "@trail-field-kit.invalid", On: d.By,
			Title: d.RigName + ": " + d.Name, Text: text,
		})
	}
	return Calendar(events, stamp)
}

// Calendar writes events as an iCalendar object (RFC 5545): lines end with CR LF and are
// folded at 75 octets (3.1), texts are escaped (3.3.11), days are DATE values without a
// time zone (3.3.4), and nobody is busy for them (TRANSP, 3.8.2.7). A kit's texts cannot
// begin a line of their own: line breaks in them are written as \n, other characters
// that are not seen are dropped.
func Calendar(events []Event, stamp fieldkit.Moment) []byte {
	var b strings.Builder
	line := func(name, value string) { fold(&b, name+":"+value) }
	line("BEGIN", "VCALENDAR")
	line("VERSION", "2.0")
	line("PRODID", product)
	line("CALSCALE", "GREGORIAN")
	for _, e := range events {
		line("BEGIN", "VEVENT")
		line("UID", escapedText(e.UID))
		line("DTSTAMP", stamp.UTC().Format("20060102T150405Z"))
		line("DTSTART;VALUE=DATE", day(e.On))
		line("DTEND;VALUE=DATE", day(e.On.AddDays(1))) // the day after: 3.6.1
		line("SUMMARY", escapedText(e.Title))
		if e.Text != "" {
			line("DESCRIPTION", escapedText(e.Text))
		}
		line("TRANSP", "TRANSPARENT")
		line("END", "VEVENT")
	}
	line("END", "VCALENDAR")
	return []byte(b.String())
}

func day(d fieldkit.Date) string { return fmt.Sprintf("%04d%02d%02d", d.Year, int(d.Month), d.Day) }

// escapedText makes a text fit for a TEXT value (RFC 5545, 3.3.11): no control
// characters but the line break, which is written as \n.
func escapedText(text string) string {
	text = strings.Map(func(r rune) rune {
		if r == '\t' {
			return ' '
		}
		if r == 0x7f || r < ' ' && r != '\n' {
			return -1
		}
		return r
	}, clean(text))
	return strings.NewReplacer(`\`, `\\`, ";", `\;`, ",", `\,`, "\n", `\n`).Replace(text)
}

// lineOctets is the longest a line may be without its break (RFC 5545, 3.1).
const lineOctets = 75

// fold writes a content line, broken where it is too long, between characters.
func fold(b *strings.Builder, line string) {
	for room := lineOctets; len(line) > room; room = lineOctets - 1 { // the blank counts
		cut := room
		for !utf8.RuneStart(line[cut]) {
			cut--
		}
		b.WriteString(line[:cut] + "\r\n ")
		line = line[cut:]
	}
	b.WriteString(line + "\r\n")
}
