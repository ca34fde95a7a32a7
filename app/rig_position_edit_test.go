package app

import (
	"strings"
	"testing"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// fittedPosition is a position of the demonstration with a part fitted.
func fittedPosition(t *testing.T, k fieldkit.Kit) fieldkit.Position {
	t.Helper()
	for _, p := range k.Positions.All() {
		if p.Part != "" && p.Proof != nil {
			return p
		}
	}
	t.Fatal("no position with a part")
	return fieldkit.Position{}
}

func TestPositionFormWithNothingTypedGivesTheSamePosition(t *testing.T) {
	k := data.DemoKit()
	for _, p := range k.Positions.All() {
		for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
			f := onForm(positionFields(p, true, first), nil)
			got, ok := readPosition(f, p, k, first, testDay)
			require.True(t, ok, "%v", f.wrong)
			assert.Equal(t, p, got)
		}
	}
}

func TestPositionFormWritesOverNothingChangedMeanwhile(t *testing.T) {
	k := data.DemoKit()
	p := fittedPosition(t, k)
	begun := p
	begun.Part, begun.Proof = "", nil // as it was when the draft was typed
	start := positionFields(begun, true, fieldkit.Inch)

	t.Run("a part fitted since", func(t *testing.T) {
		onDevice(t)
		newForm("position", start).set("note", "half typed")
		f := newForm("position", positionFields(p, true, fieldkit.Inch)) // days later
		require.True(t, f.restored)
		got, ok := readPosition(f, p, k, fieldkit.Inch, testDay)
		require.True(t, ok, "%v", f.wrong)
		after, err := edited(t, k, func(e *journal.Edit) error { return savePosition(e, f.get(baseField), got) })
		assert.ErrorContains(t, err, "changed since you began typing")
		now, _ := after.Position(p.ID)
		assert.Equal(t, p, now, "the part stays fitted")
		f.startOver()
		got, ok = readPosition(f, p, k, fieldkit.Inch, testDay)
		require.True(t, ok)
		assert.Equal(t, p, got, "starting over shows what is fitted by now")
	})
	t.Run("deleted since", func(t *testing.T) {
		gone := p
		gone.ID = "gone"
		_, err := edited(t, k, func(e *journal.Edit) error { return savePosition(e, start[baseField], gone) })
		assert.ErrorContains(t, err, "deleted since you began typing")
	})
	t.Run("moved since", func(t *testing.T) {
		f := onForm(positionFields(p, true, fieldkit.Inch), map[string]string{"note": "greased"})
		got, ok := readPosition(f, p, k, fieldkit.Inch, testDay)
		require.True(t, ok)
		after, err := edited(t, k, func(e *journal.Edit) error {
			moved := p
			moved.Order = 77
			e.Put(moved)
			return savePosition(e, f.get(baseField), got)
		})
		require.NoError(t, err)
		now, _ := after.Position(p.ID)
		assert.Equal(t, "greased", now.Note)
		assert.Equal(t, 77, now.Order, "where it was moved to stays")
	})
}

func TestSavingANewPositionTwiceAddsOne(t *testing.T) {
	onDevice(t)
	k := data.DemoKit()
	f := newForm("position", positionFields(fieldkit.Position{}, false, fieldkit.Inch))
	f.set("name", "idler arm")
	f.set("system", k.Systems[0].ID)
	f.set("kind", k.Positions.At(0).Kind)
	after, err := edited(t, k, func(e *journal.Edit) error {
		for range 2 {
			p, ok := readPosition(f, fieldkit.Position{ID: f.recordID(), Order: k.Positions.Len()}, k, fieldkit.Inch, testDay)
			require.True(t, ok, "%v", f.wrong)
			if err := savePosition(e, f.get(baseField), p); err != nil {
				return err
			}
		}
		return nil
	})
	require.NoError(t, err)
	assert.Len(t, after.Positions.Slice(), k.Positions.Len()+1)
}

func TestPositionFormRefusesBesideTheField(t *testing.T) {
	k := data.DemoKit()
	p := fittedPosition(t, k)
	for _, c := range []struct{ name, value string }{
		{"name", " \t"}, {"system", "gone"}, {"kind", ""}, {"quantity", "0"}, {"part", "gone"},
		{"fitted", "3/4/2026"}, {"fitted", "2026-05-15"}, {"fittedAt", "-5 mi"},
	} {
		name := c.name
		f := onForm(positionFields(p, true, fieldkit.Inch), map[string]string{name: c.value})
		_, ok := readPosition(f, p, k, fieldkit.Inch, testDay)
		assert.False(t, ok, name)
		assert.Len(t, f.wrong, 1, name)
		assert.NotEmpty(t, f.wrong[name], name)
	}
	f := onForm(positionFields(p, true, fieldkit.Inch), map[string]string{
		"name": " steering pump ", "by": " Wren ", "note": "\n", "quantity": " 2 ", "fitted": " 2026-05-01 ", "fittedAt": " ",
	})
	got, ok := readPosition(f, p, k, fieldkit.Inch, testDay)
	require.True(t, ok, "%v", f.wrong)
	assert.Equal(t, "steering pump", got.Name)
	assert.Equal(t, "Wren", got.Proof.By)
	assert.Empty(t, got.Note)
	assert.Equal(t, 2, got.Quantity)
	assert.Equal(t, fieldkit.Date{Year: 2026, Month: 5, Day: 1}, got.Fitted)
	assert.Zero(t, got.FittedAt)
}

func TestPastDate(t *testing.T) {
	for text, refused := range map[string]bool{"": false, "2026-05-13": false, "2026-05-14": false, "2026-05-15": true, "2062-05-14": true} {
		d, err := pastDate(text, testDay)
		if refused {
			assert.ErrorContains(t, err, "still to come", text)
			assert.Zero(t, d, text)
			continue
		}
		require.NoError(t, err, text)
		assert.Equal(t, text, d.String())
	}
	_, err := pastDate("soon", testDay)
	assert.Error(t, err)
	f := onForm(map[string]string{"on": "2026-05-15"}, nil)
	_, err = f.pastDate("on", testDay)
	assert.NoError(t, err, "written down on a device whose clock was right")
}

func TestWhatIsFittedStandsFirstWhenAsked(t *testing.T) {
	k := data.DemoKit()
	p := fittedPosition(t, k)
	form := func(p fieldkit.Position, asked bool) string {
		k := data.DemoKit()
		k.Positions = fieldkit.ListOf([]fieldkit.Position{p})
		s := &positionEditScreen{kit: k, cat: data.Catalog(), id: p.ID, fitted: asked, form: onForm(positionFields(p, true, fieldkit.Inch), nil)}
		first, second := s.questions()
		return drawn(t, app.Div().Body(first, second))
	}
	const writeDown = "A part not written down yet<"
	empty := p
	empty.Part, empty.Proof, empty.Parent = "", nil, ""
	html := form(empty, true)
	require.Contains(t, html, "<h2>Where")
	assert.Less(t, strings.Index(html, "<h2>What is fitted"), strings.Index(html, "<h2>Where"))
	assert.Contains(t, html, writeDown)
	assert.Contains(t, html, "/rig/part/edit?position="+p.ID)
	html = form(empty, false)
	assert.Greater(t, strings.Index(html, "<h2>What is fitted"), strings.Index(html, "<h2>Where"))
	assert.NotContains(t, form(p, true), writeDown, "a part is fitted: another takes its place only by choosing it")
}
