package app

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// onDevice lets forms remember what is typed for the length of a test.
func onDevice(t *testing.T) {
	t.Helper()
	textsInMemory = map[string]string{}
	t.Cleanup(func() { textsInMemory = nil })
}

func TestDraftOutlivesTheForm(t *testing.T) {
	onDevice(t)
	start := map[string]string{"name": "Left drawer", "place": "in the bed"}
	f := newForm("bin/1", start)
	assert.False(t, f.restored, "nothing was typed yet")
	f.set("name", "Left drawer, upper")
	f.set("note", "half typed")

	again := newForm("bin/1", start)
	assert.True(t, again.restored)
	assert.Equal(t, "Left drawer, upper", again.get("name"))
	assert.Equal(t, "half typed", again.get("note"))
	assert.Equal(t, "in the bed", again.get("place"), "what was not typed over is as it was")

	other := newForm("bin/2", start)
	assert.False(t, other.restored, "a draft belongs to one form")
	assert.Equal(t, "Left drawer", other.get("name"))
}

func TestDraftEnds(t *testing.T) {
	start := map[string]string{"name": "Left drawer"}
	typed := func(t *testing.T) *form {
		onDevice(t)
		f := newForm("bin", start)
		f.set("name", "Right drawer")
		f.set("extra", "x")
		require.Len(t, textsInMemory, 1)
		return f
	}
	t.Run("saved", func(t *testing.T) {
		f := typed(t)
		f.done()
		assert.Empty(t, textsInMemory)
		assert.False(t, newForm("bin", start).restored)
		assert.Equal(t, "Right drawer", f.get("name"), "the screen keeps what was saved")
	})
	t.Run("started over", func(t *testing.T) {
		f := typed(t)
		f.refuse("name", badField("wrong", ""))
		f.err = badField("changed since", "start over")
		before := f.revision
		f.abandon(app.Context{})
		assert.NoError(t, f.err)
		assert.Empty(t, textsInMemory)
		assert.Equal(t, "Left drawer", f.get("name"))
		assert.Empty(t, f.get("extra"))
		assert.Empty(t, f.wrong)
		assert.Greater(t, f.revision, before, "fields on the page take their old values only under another identity")
	})
	t.Run("typed back", func(t *testing.T) {
		f := typed(t)
		f.set("name", "Left drawer")
		assert.Len(t, textsInMemory, 1, "another field is still typed in")
		delete(f.values, "extra")
		f.set("name", "Left drawer")
		assert.Empty(t, textsInMemory)
	})
	t.Run("unreadable draft", func(t *testing.T) {
		onDevice(t)
		textsInMemory[draftKey("bin")] = `{"name":`
		f := newForm("bin", start)
		assert.False(t, f.restored)
		assert.Equal(t, "Left drawer", f.get("name"))
	})
}

func TestPut(t *testing.T) {
	f := newForm("put", map[string]string{"on": "2026-05-14"})
	f.put("on", "2026-05-15")
	assert.Equal(t, "2026-05-15", f.get("on"))
	assert.Zero(t, f.revision, "a field that takes another text keeps the caret")
	f.put("on", "")
	assert.Equal(t, 1, f.revision, "only an emptied field must be drawn anew")
}

func TestRefuseSaysWhatAndWhatToDo(t *testing.T) {
	f := newForm("refuse", nil)
	assert.True(t, f.refuse("name", nil))
	assert.False(t, f.refuse("name", badField("it has no name", "write one")))
	assert.Equal(t, "It has no name: write one", f.wrong["name"])
	f.set("name", "x")
	assert.Empty(t, f.wrong, "typing takes the mark away")
}

func TestWithUnit(t *testing.T) {
	for _, c := range []struct{ typed, unit, want string }{
		{"", "mm", "mm"},
		{"34.9", "mm", "34.9 mm"},
		{"1-3/8 in", "mm", "1-3/8 mm"},
		{"55240 mi", "km", "55240 km"},
		{"2 h 30", "min", "2 h 30 min"},
		{"12.", "lb", "12. lb"},
		{"5 lb 3 oz", "oz", "5 lb 3 oz"},
		{"1.2 N·m", "lb-ft", "1.2 lb-ft"},
	} {
		assert.Equal(t, c.want, withUnit(c.typed, c.unit), "%q and the key %q", c.typed, c.unit)
	}
}

// page text of a component, as a screen reader and a browser get it.
func drawn(t *testing.T, ui app.UI) string {
	t.Helper()
	engine := app.NewTestEngine()
	require.NoError(t, engine.Load(&shell{ui: ui}))
	return app.HTMLString(ui)
}

type shell struct {
	app.Compo
	ui app.UI
}

func (s *shell) Render() app.UI { return app.Div().Body(s.ui) }

func TestFieldIsLabelledAndDescribed(t *testing.T) {
	f := newForm("trip", map[string]string{"days": "0"})
	html := drawn(t, f.whole("days", "Days", "whole days").(*field).Render())
	assert.Contains(t, html, `for="f-trip-days"`)
	assert.Contains(t, html, `id="f-trip-days"`)
	assert.Contains(t, html, `inputmode="numeric"`)
	assert.Contains(t, html, `aria-describedby="f-trip-days-said"`)
	assert.Contains(t, html, `aria-invalid="false"`)
	assert.Contains(t, html, "whole days")

	f.refuse("days", badField("no day at all", "write 1 or more"))
	html = drawn(t, f.whole("days", "Days", "whole days").(*field).Render())
	assert.NotContains(t, html, `aria-invalid="false"`)
	assert.Contains(t, html, "No day at all: write 1 or more")
	assert.NotContains(t, html, "whole days", "what is wrong takes the place of the hint")
}

func TestNumberPadOnlyWhereItsKeysAreEnough(t *testing.T) {
	f := newForm("pad", nil)
	kind := func(ui app.UI) string { return ui.(*field).Kind }
	assert.Equal(t, "decimal", kind(f.size("a", "Span", "")), "the keys - / . and the units stand beside it")
	assert.Equal(t, "decimal", kind(f.amount("b", "Weight", "", " kg", " lb")))
	assert.Empty(t, kind(f.amount("c", "Reading", "", "-", "/", " in")), "anything may be typed there: M12x1.5")
	assert.Empty(t, kind(f.text("d", "Name", "")))
}

func TestChosenNothingIsAValueOfItsOwn(t *testing.T) {
	for _, v := range []string{"", "h-drawer-left"} {
		assert.NotEmpty(t, optionValue(v), "an empty option value is dropped on the page")
		assert.Equal(t, v, chosen(optionValue(v)))
	}
}

func TestDateHintIsUnambiguous(t *testing.T) {
	day := fieldkit.Date{Year: 2026, Month: 5, Day: 4}
	f := newForm("date", map[string]string{"on": day.String()})
	html := drawn(t, f.date("on", "Date", day))
	assert.Contains(t, html, "Yesterday")
	assert.Contains(t, drawn(t, f.dateAhead("on", "First day", day)), "Tomorrow")
}

// What a kit may not keep is said at the field, whatever the field is for; the text
// stays, and what is not seen can be taken out.
func TestWhatCannotBeKept(t *testing.T) {
	for _, c := range []struct {
		name, text string
		lines      bool
		says       string
		mended     string // "" if that does not help
	}{
		{"plain", "Left drawer", false, "", ""},
		{"markup is text", `<script>alert(1)</script>`, false, "", ""},
		{"formula is text", "=1+1", false, "", ""},
		{"lines", "one\ntwo", true, "", ""},
		{"a tab in one line", "Left\tdrawer", false, "⟨tab⟩", "Left drawer"},
		{"null", "Left\x00drawer", false, "⟨U+0000⟩", "Leftdrawer"},
		{"turned writing", "Left \u202erewolf", true, "⟨U+202E⟩", "Left rewolf"},
		{"right-to-left mark", "Left\u200f drawer", false, "⟨U+200F⟩", "Left drawer"},
		{"too long", strings.Repeat("x", fieldkit.MaxString+1), true, "20000 of them fit here", ""},
		{"ten megabytes", strings.Repeat("x", 10_000_000), true, "20000 of them fit here", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			onDevice(t)
			f := newForm("bin", map[string]string{"place": "kept\u200f before"})
			name := map[bool]string{true: "note", false: "name"}[c.lines]
			f.set(name, c.text)
			require.Equal(t, c.says == "", f.short())
			assert.Equal(t, c.text, f.get(name), "the text stays")
			assert.Contains(t, f.wrong[name], c.says)
			drawn := f.field(name, "Name", "", field{})
			require.Equal(t, c.mended != "", drawn.Mend != nil)
			if drawn.Mend != nil {
				drawn.Mend(app.Context{})
				assert.Equal(t, c.mended, f.get(name))
				assert.True(t, f.short())
			}
			for _, kept := range textsInMemory {
				assert.Less(t, len(kept), 1_000_000, "a draft fits the device")
			}
		})
	}
}

// Every area of a screen is a field of several lines, and no other is.
func TestAreasHoldSeveralLines(t *testing.T) {
	files, err := filepath.Glob("*.go")
	require.NoError(t, err)
	drawn := map[string]bool{}
	for _, file := range files {
		if strings.HasSuffix(file, "_test.go") {
			continue
		}
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		for _, m := range regexp.MustCompile(`\.area\("(\w+)"`).FindAllStringSubmatch(string(text), -1) {
			drawn[m[1]] = true
		}
		assert.NotRegexp(t, `\.area\([^")]*,`, strings.ReplaceAll(string(text), "func (f *form) area(name, ", ""), "%s: an area named otherwise", file)
	}
	assert.Equal(t, drawn, severalLines)
}

// What is written on several lines, and kept on one, is kept.
func TestSeveralLinesKeptOnOne(t *testing.T) {
	k := data.DemoKit()
	own := k.OwnRepairs[0]
	f := onForm(ownRepairFields(own, true), map[string]string{"summary": "strap torn\n\n  tank hangs\n"})
	got, ok := (&ownRepairScreen{form: f, kit: k, id: own.ID}).read()
	require.True(t, ok, "%v", f.wrong)
	assert.Equal(t, "strap torn tank hangs", got.Summary)
	assert.Empty(t, kitfile.CheckRecord(k, got))
	note := k.StepNotes[0]
	note.Text = paragraph("left-hand thread\nthe 19 mm ring is too thick")
	assert.Empty(t, kitfile.CheckRecord(k, note))
}
