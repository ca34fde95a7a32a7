//go:build browser

package browsertest

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// In hand is a bearing whose stamp can be read but for one figure: what it is, what it
// says, where the kit has one, and the row of the table it is from. Without signal.
func TestHalfReadStamp(t *testing.T) {
	v := withDemo(t, "/counter")
	v.Fill("Name, number, donor or size", "62?8-2RS")
	v.See("Axle bearing 6208-2RS", "bears 6208-2RS")
	v.Tap("link:6208-2RS ball bearing")
	v.At("/counter/designation?kind=ball+bearing&q=6208-2RS")
	v.See("What it says", "Rubber contact seal on both sides",
		"1.575 in (40 mm)", "3.15 in (80 mm)", "0.709 in (18 mm)", // ISO 15: 6208 is 40 × 80 × 18 mm
		"In your kit", "Wicket: axle bearing, left", "Source", "ISO 15")
	v.Tap("link:Its row in the table")
	v.At("/counter/table/row?designation=6208&name=ball_bearings")
	v.See("What the columns say", "Trust")
	v.Back()
	v.See("What it says")
	v.Tap("link:Axle bearing 6208-2RS")
	v.At("/counter/card?part=axle-bearing-6208")

	// A designation that no part of the kit bears is found all the same, and what is
	// none says why and what is near.
	v.Go("/counter?q=lm102949")
	v.See("inch tapered bearing", "tapered bearing set, 1-25/32 bore")
	v.Go("/counter/designation?q=35x12.50R99")
	v.See("is not a rim in inches", "Near to it")
}

// A worn cone and cup under a steel rule: fractions and a decimal in inches, worn,
// candidates with what each size is off, what to measure next, and nothing standard.
func TestMeasureAPart(t *testing.T) {
	v := withDemo(t, "/counter")
	v.Tap("link:Measure a part")
	v.See("Which kind of part")
	v.Tap("link:Tapered roller bearings")
	v.At("/counter/measure?kind=tapered")
	v.See("A · Bore", "What is it?")
	v.Tap("button:What is it?")
	v.See("Nothing is measured yet")
	v.Fill("A · Bore", "1-5/8")
	v.Fill("B · Outside diameter", "2.89 in")
	v.Tap("checkbox:The part is worn")
	v.Tap("button:What is it?")
	v.See("It may be", "LM501349/LM501310", "Measure next", "Read as", "1-5/8 in (41.28 mm)") // ABMA 19.2
	v.Fill("A · Bore", "1/2/3")
	v.Tap("button:What is it?")
	v.See("Something above is not right yet")
	v.Fill("A · Bore", "1-5/8")

	// What was typed is there again after another screen.
	v.Go("/counter/measure?kind=u-joint")
	v.See("Span")
	v.Fill("A · Cap diameter", "40 mm")
	v.Fill("B · Span", "110 mm")
	v.Tap("button:What is it?")
	v.See("Nothing standard fits", "does not fit", "1480")
	v.Tap("link:1480")
	v.At("/counter/designation?kind=universal+joint&q=1480")
	v.Go("/counter/measure?kind=tapered")
	v.See("This is what you typed earlier")
	assert.Equal(t, "1-5/8", ask[string](v.phone, `document.querySelector('[name="bore"]').value`))
}

// The tables: a list with their rows and standards, one of them page by page and
// narrowed, a row that opens what it means.
func TestBrowseTables(t *testing.T) {
	v := withDemo(t, "/counter")
	v.Tap("link:Tables of published sizes")
	v.At("/counter/tables")
	v.See("338 rows", "ISO 6194-1, DIN 3760", "Lamp bulbs")
	v.Tap("link:Ball bearings")
	v.At("/counter/table?name=ball_bearings")
	v.See("338 rows, page 1 of 17")
	v.Tap("link:More rows")
	v.See("page 2 of 17", "Rows before")
	v.Fill("Show rows with", "35 72")
	v.See("6207", "of 338 rows")
	first := ask[string](v.phone, `document.querySelector('[aria-label="Rows"] b').innerText`)
	assert.Equal(t, "6207", first)
	v.Tap("link:6207")
	v.At("/counter/designation?kind=ball+bearing&q=6207")
	v.See("What it measures")
	v.Back()
	v.See("of 338 rows")
	v.Fill("Show rows with", "zebra")
	v.See("No row holds that")
	v.Go("/counter/table?name=bulbs&q=9003")
	v.Tap("link:H4")
	v.See("9003/HB2", "P43t-38", "What the columns say")
	assert.True(t, strings.HasPrefix(ask[string](v.phone, "location.pathname"), "/counter/table/row"))
}

// Adding an interchange takes a tap for the part, one for the grade, one for how it is
// known and one to save; the counter card of the part then says what goes in its place,
// and does so after the browser was killed.
func TestAddALink(t *testing.T) {
	v := withDemo(t, "/counter/card?part=hose-pump-box")
	v.Tap("link:Add an interchange")
	v.At("/rig/link/edit?part=hose-pump-box")
	v.See("How well it fits", "How do you know")
	for _, tap := range []string{"steering hose, box to ram", "drop-in", "seen", "Save interchange"} {
		v.Tap("button:" + tap)
	}
	v.See("Saved interchange")
	v.DieAndWake("/counter/card?part=hose-pump-box")
	v.See("steering hose, box to ram", "seen")
}
