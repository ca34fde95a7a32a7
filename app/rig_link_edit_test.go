package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// linkScreen opens the form of a link as the address would.
func linkScreen(k fieldkit.Kit, part, id string, typed map[string]string) *linkEditScreen {
	s := &linkEditScreen{kit: k, cat: data.Catalog(), id: id}
	l, known := k.Links.Find(id)
	s.part, s.found = k.Part(part)
	s.form = onForm(linkFields(l, known, part, testDay), typed)
	return s
}

func TestLinkFormWithNothingTypedGivesTheSameLink(t *testing.T) {
	k := data.DemoKit()
	for _, l := range k.Links.All() {
		for _, part := range []string{l.For, l.With} {
			s := linkScreen(k, part, l.ID, nil)
			got, added, ok := s.read()
			require.True(t, ok, "%s: %v", l.ID, s.form.wrong)
			assert.Nil(t, added)
			assert.Equal(t, l, got, "%s seen from %s", l.ID, part)
		}
	}
}

func TestLinkFormWithANewPart(t *testing.T) {
	k := data.DemoKit()
	s := linkScreen(k, "pump-garrund", "", map[string]string{
		"other": newPart, "newName": "steering pump, farm", "newNumber": "GR 118", "newBrand": "Quernmark",
		"grade": "one-way", "direction": otherTakesPlace, "evidence": "hearsay", "changes": "longer belt\n",
	})
	l, added, ok := s.read()
	require.True(t, ok, "%v", s.form.wrong)
	require.NotNil(t, added)
	assert.Equal(t, "steering-pump", added.Kind, "of the same kind")
	assert.Equal(t, "GR 118", added.Numbers[0].Value)
	assert.Equal(t, "pump-garrund", l.For)
	assert.Equal(t, added.ID, l.With)
	assert.Equal(t, []string{"longer belt"}, l.Changes)
	assert.Equal(t, testDay, l.On)

	l.ID = s.form.recordID()
	after, err := edited(t, k, func(e *journal.Edit) error {
		e.Put(*added)
		e.Put(l)
		return nil
	})
	require.NoError(t, err)
	assert.Len(t, linksOf(after, added.ID), 1)

	s = linkScreen(k, "pump-garrund", "", map[string]string{
		"other": newPart, "newName": "x", "grade": "one-way", "direction": thisTakesPlace, "evidence": "hearsay"})
	l, added, ok = s.read()
	require.True(t, ok)
	assert.Equal(t, added.ID, l.For)
	assert.Equal(t, "pump-garrund", l.With)
}

func TestLinkFormMarksWhatIsWrong(t *testing.T) {
	k := data.DemoKit()
	good := map[string]string{"other": "pump-dunmarl", "grade": "fits with changes", "changes": "bracket", "evidence": "measured"}
	cases := []struct{ name, field, value, wrong string }{
		{"no part", "other", "", "other"},
		{"a part deleted meanwhile", "other", "gone", "other"},
		{"a new part without a name", "other", newPart, "newName"},
		{"no grade", "grade", "", "grade"},
		{"changes not said", "changes", " ", "changes"},
		{"no evidence", "evidence", "", "evidence"},
		{"a date in two ways", "on", "3/4/2026", "on"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := linkScreen(k, "pump-garrund", "", good)
			s.form.set(c.field, c.value)
			_, _, ok := s.read()
			assert.False(t, ok)
			assert.Len(t, s.form.wrong, 1)
			assert.NotEmpty(t, s.form.wrong[c.wrong])
		})
	}
	_, _, ok := linkScreen(k, "pump-garrund", "", good).read()
	assert.True(t, ok)
}

func TestLinkSaysBothDirections(t *testing.T) {
	name := strings.ToUpper
	says := map[fieldkit.Grade]string{
		fieldkit.DropIn:      "“B” goes in place of “A” as it is, and the other way round.",
		fieldkit.WithChanges: "“B” goes in place of “A” with the changes below, and the other way round.",
		fieldkit.OneWay:      "“B” goes in place of “A”. The other way round it does not.",
		fieldkit.DoesNotFit:  "“B” and “A” do not go in place of each other, whatever other interchange says.",
		"":                   "Choose how well it fits.",
	}
	for grade, want := range says {
		assert.Equal(t, want, linkSays(fieldkit.Link{For: "a", With: "b", Grade: grade}, name))
	}
}

func TestLinkWarnings(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	warn := func(wanted, with string, g fieldkit.Grade) string {
		return strings.Join(linkWarnings(k, cat, fieldkit.Link{For: wanted, With: with, Grade: g, Evidence: fieldkit.Seen}), "\n")
	}
	assert.Contains(t, warn("pump-garrund", "pads-front", fieldkit.DropIn), "two kinds of part")
	assert.NotContains(t, warn("pump-garrund", "pads-front", fieldkit.DoesNotFit), "two kinds")
	assert.Contains(t, warn("pump-garrund", "pump-rebuilt", fieldkit.DropIn), "already")
	assert.Contains(t, warn("pump-rebuilt", "pump-garrund", fieldkit.DropIn), "already", "either way round")
	assert.Contains(t, warn("pump-garrund", "pump-dunmarl", fieldkit.DoesNotFit), "Contradiction: “steering pump, new” does not fit in place of “steering pump, V8” (seen). Yet", "a chain over the wagon's pump says it fits")
	assert.Contains(t, warn("pads-front", "pads-wicket", fieldkit.DropIn), "Contradiction: “front brake pads, wagon” does not fit", "a link says it does not")
	assert.Empty(t, warn("pump-garrund", "", fieldkit.DropIn), "nothing chosen yet")

	known, _ := k.Links.Find("pump-rebuilt-for-garrund")
	assert.Empty(t, linkWarnings(k, cat, known), "a saved link does not warn of itself")
}

func TestLinksOfSaysWhichWay(t *testing.T) {
	k := data.DemoKit()
	assert.Contains(t, linksOf(k, "stub-88")[0].says, "it takes the place of this one")
	assert.Contains(t, linksOf(k, "stub-90")[0].says, "this one takes its place")
	assert.Empty(t, linksOf(k, "no-such-part"))
}
