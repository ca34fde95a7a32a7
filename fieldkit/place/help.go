package place

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// Call is what rescuers ask first.
type Call struct {
	Who    string         // who calls, and for how many: "Oona, two people"
	Rig    string         // what to look for: "tan pickup, high, spare on the bed"
	What   string         // "front axle broken, nobody hurt"
	Number string         // where to call back
	Place  fieldkit.Place // the text is used where the device gave no position
}

// Text is a message ready to send or to read out: where first, in three notations, so
// that whoever hears only its beginning knows where to go.
func (c Call) Text() string {
	var lines []string
	line := func(format string, args ...any) { lines = append(lines, fmt.Sprintf(format, args...)) }
	line("NEED HELP.")
	if at, ok := Of(c.Place); ok {
		line("Position: %s", at.Minutes())
		line("= %s", at.Degrees())
		if u, ok := at.UTM(); ok {
			line("= MGRS %s (UTM %s)", u.MGRS(), u)
		}
		sure := ""
		if c.Place.Accuracy > 0 {
			sure = "within " + Metres(c.Place.Accuracy) + ", "
		}
		line("WGS 84, %staken %s UTC.", sure, c.Place.FixedAt.UTC().Format("2 Jan 2006 15:04"))
	}
	if c.Place.Text != "" {
		line("Place: %s", c.Place.Text)
	}
	for _, part := range []struct{ name, text string }{{"What", c.What}, {"Who", c.Who}, {"Look for", c.Rig}, {"Call back", c.Number}} {
		if part.text != "" {
			line("%s: %s", part.name, part.text)
		}
	}
	return strings.Join(lines, "\n")
}

// Metres prints how sure a position is, in both systems.
func Metres(d fieldkit.Distance) string {
	m := int64(d / fieldkit.Metre)
	return fmt.Sprintf("%d m (%d ft)", m, (m*3281+500)/1000)
}

// Spoken writes a notation the way it is read out over the radio: one character at a
// time, digits as words, letters by the international spelling alphabet (ICAO/ITU).
func Spoken(notation string) string {
	var words []string
	for _, r := range strings.ToUpper(notation) {
		switch {
		case r >= '0' && r <= '9':
			words = append(words, digitWords[r-'0'])
		case r >= 'A' && r <= 'Z':
			words = append(words, letterWords[r-'A'])
		case r == '.':
			words = append(words, "decimal")
		case r == '°':
			words = append(words, "degrees")
		case r == '′':
			words = append(words, "minutes")
		}
	}
	return strings.Join(words, " ")
}

var (
	digitWords  = [10]string{"zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"}
	letterWords = [26]string{"Alfa", "Bravo", "Charlie", "Delta", "Echo", "Foxtrot", "Golf", "Hotel", "India", "Juliett", "Kilo", "Lima",
		"Mike", "November", "Oscar", "Papa", "Quebec", "Romeo", "Sierra", "Tango", "Uniform", "Victor", "Whiskey", "X-ray", "Yankee", "Zulu"}
)
