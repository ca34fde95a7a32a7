package app

import (
	"context"
	"errors"
	"maps"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
)

// testDay is the day on which tests write things down.
var testDay = fieldkit.Date{Year: 2026, Month: time.May, Day: 14}

// openTest opens a kit in memory.
func openTest(t *testing.T, kit fieldkit.Kit) *journal.Session {
	t.Helper()
	session, _, err := journal.Open(context.Background(), journal.NewMemory(), func() fieldkit.Kit { return kit })
	require.NoError(t, err)
	return session
}

var testMoment = fieldkit.Moment{Time: time.Date(2026, 5, 14, 12, 0, 0, 0, time.UTC)}

func testIDs() func() string {
	n := 0
	return func() string { n++; return "entry-" + strconv.Itoa(n) }
}

// edited carries out one action on a kit and gives the kit after it, which must be
// whole.
func edited(t *testing.T, kit fieldkit.Kit, edit func(*journal.Edit) error) (fieldkit.Kit, error) {
	t.Helper()
	session := openTest(t, kit)
	_, err := session.Do(context.Background(), "test", testMoment, testIDs(), edit)
	assert.Empty(t, kitfile.Check(session.Kit()))
	return session.Kit(), err
}

// onForm makes a form as a screen opens it, with some of it typed over.
func onForm(start map[string]string, typed map[string]string) *form {
	f := newForm("test", start)
	maps.Copy(f.values, typed)
	return f
}

func TestAmountTextReadsBackExactly(t *testing.T) {
	for _, text := range []string{"3.8 kg", "12 oz", "0.123456 kg", "5 lb 3 oz", "1 g"} {
		for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
			m, err := fieldkit.ParseMass(text, first)
			require.NoError(t, err)
			back, err := fieldkit.ParseMass(amountText(m, first, fieldkit.ParseMass), first)
			require.NoError(t, err)
			assert.Equal(t, m, back, "%s, %s first", text, first)
		}
	}
	assert.Empty(t, amountText(fieldkit.Mass(0), fieldkit.Inch, fieldkit.ParseMass))
}

func TestOptionalAmount(t *testing.T) {
	m, err := optionalAmount("  ", fieldkit.Inch, fieldkit.ParseMass)
	assert.NoError(t, err)
	assert.Zero(t, m)
	_, err = optionalAmount("-2 kg", fieldkit.Inch, fieldkit.ParseMass)
	assert.ErrorContains(t, err, "less than nothing")
	_, err = optionalAmount("two", fieldkit.Inch, fieldkit.ParseMass)
	assert.Error(t, err)
}

func TestOptionalLimit(t *testing.T) {
	for text, want := range map[string]fieldkit.Mass{"": 0, " ": 0, "5 kg": 5 * fieldkit.Kilogram} {
		m, err := optionalLimit(text, fieldkit.Inch, fieldkit.ParseMass)
		assert.NoError(t, err)
		assert.Equal(t, want, m)
	}
	for _, text := range []string{"0", "0 kg", "0.0"} {
		_, err := optionalLimit(text, fieldkit.Inch, fieldkit.ParseMass)
		assert.ErrorContains(t, err, "no room for anything", text)
	}
}

func TestOptionalMoney(t *testing.T) {
	m, err := optionalMoney("", "USD")
	assert.NoError(t, err)
	assert.Nil(t, m)
	m, err = optionalMoney("12.50", "USD")
	require.NoError(t, err)
	assert.Equal(t, fieldkit.Money{Cents: 1250, Currency: "USD"}, *m)
	_, err = optionalMoney("12.50 EUR", "USD")
	assert.ErrorContains(t, err, "USD")
	_, err = optionalMoney("cheap", "USD")
	assert.Error(t, err)
}

func TestRows(t *testing.T) {
	f := newForm("rows", map[string]string{"number": "0 1", "number/0/value": "A", "number/1/value": "B"})
	first := f.addRow("number")
	second := f.addRow("number")
	assert.Equal(t, []string{"0", "1", "n1", "n2"}, f.rows("number"))
	assert.True(t, isAdded(first))
	f.set(cell("number", second, "value"), "C")
	f.dropRow("number", "0")
	f.dropRow("number", first)
	assert.Equal(t, []string{"1", second}, f.rows("number"))
	assert.Empty(t, f.get("number/0/value"))
	assert.Equal(t, "C", f.get(cell("number", second, "value")))
	assert.Equal(t, "n1", f.addRow("number"))
	f.startOver()
	assert.Equal(t, []string{"0", "1"}, f.rows("number"))
	assert.Equal(t, "A", f.get("number/0/value"))
}

func TestFollowTakesUpAChangeOnlyWhereNothingIsTyped(t *testing.T) {
	untouched := newForm("a", map[string]string{"name": "old"})
	follow(untouched, map[string]string{"name": "new"})
	assert.Equal(t, "new", untouched.get("name"))

	typing := newForm("b", map[string]string{"name": "old"})
	typing.set("name", "mine")
	follow(typing, map[string]string{"name": "new"})
	assert.Equal(t, "mine", typing.get("name"))
	typing.startOver()
	assert.Equal(t, "new", typing.get("name"))
}

func TestUnchangedRefusesToWriteOverAnother(t *testing.T) {
	donor := fieldkit.Donor{ID: "d", Make: "Garrund", Model: "Stonecrop"}
	changed := donor
	changed.Note = "from another tab"
	mine := donor
	mine.Engine = "V8"
	assert.NoError(t, unchanged(baseOf(donor), donor, true, mine))
	assert.NoError(t, unchanged("", fieldkit.Donor{}, false, mine), "a new record")
	assert.NoError(t, unchanged("", mine, true, mine), "a new record whose first answer was lost")
	assert.ErrorContains(t, unchanged(baseOf(donor), changed, true, mine), "changed since")
	assert.ErrorContains(t, unchanged(baseOf(donor), fieldkit.Donor{}, false, mine), "deleted since")
}

// A form whose record was changed meanwhile says so above its fields, keeps what was
// typed, and starts over by one button only.
func TestOutdatedFormSaysSo(t *testing.T) {
	donor := fieldkit.Donor{ID: "d", Make: "Kestrel", Model: "Torrack"}
	assert.ErrorAs(t, unchanged("another state", donor, true, fieldkit.Donor{ID: "d"}), new(outdated))
	assert.False(t, errors.As(badField("too long", "shorten it"), new(outdated)), "whatever else is wrong is none of it")

	const says = "What this form is about was changed meanwhile. What you typed is not saved."
	f := onForm(map[string]string{"make": "Kestrel"}, map[string]string{"make": "Kestrell"})
	html := func() string {
		return app.HTMLString(app.Div().Body(f.restoredNotice(), f.saving("Save donor", func(app.Context) {})))
	}
	assert.NotContains(t, html(), says)
	f.outdated = true
	assert.Contains(t, html(), says)
	assert.Equal(t, 1, strings.Count(html(), "Start over"))
	assert.Equal(t, "Kestrell", f.get("make"))
	f.abandon(app.Context{})
	assert.NotContains(t, html(), says)
	assert.Equal(t, "Kestrel", f.get("make"))
}

func TestStillUsedNamesWhatUsesIt(t *testing.T) {
	k := data.DemoKit()
	uses := donorUses(k, "garrund-stonecrop")
	require.Greater(t, len(uses), 3)
	err := stillUsed("1989 Garrund", uses)
	assert.ErrorContains(t, err, "part steering pump, V8")
	assert.ErrorContains(t, err, strconv.Itoa(len(uses)-3)+" more")
}
