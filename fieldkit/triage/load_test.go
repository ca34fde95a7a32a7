package triage_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit/triage"
)

// small is a book that keeps every rule.
func small(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("testdata/book.json")
	require.NoError(t, err)
	return string(text)
}

func TestLoad(t *testing.T) {
	book, err := triage.Load("book.json", []byte(small(t)))
	require.NoError(t, err)
	assert.Len(t, book.Stops, 6)
	s, ok := book.Symptom("creak")
	assert.True(t, ok)
	assert.Equal(t, "It creaks", s.Says)
	_, ok = book.Stop("hurt")
	assert.True(t, ok)
	_, ok = book.Stop("no such")
	assert.False(t, ok)
}

// Each rule broken is refused with its place, and nothing is half read.
func TestLoadRefuses(t *testing.T) {
	for name, c := range map[string]struct{ from, to, want string }{
		"format":             {"trail-field-kit triage", "something else", "is not the format of triage"},
		"version":            {`"1.0"`, `"2.0"`, "of version"},
		"stop sign missing":  {`"hurt"`, `"harm"`, `the stop sign "hurt" is missing`},
		"stop without what":  {`["Call for help."]`, `[]`, "does not say what to do"},
		"sense":              {`"hear"`, `"guess"`, "is not a sense"},
		"symptom of nothing": {`{"creak": 70}`, `{"drip": 70}`, `nothing begins with "creak"`},
		"unknown symptom":    {`{"creak": 70}`, `{"creak": 70, "moan": 5}`, `there is no symptom "moan"`},
		"how to look":        {`"how": "Push it."`, `"how": " "`, "nothing is written"},
		"too long":           {"Push it.", strings.Repeat("Push it. ", 40), "longer than the most"},
		"one option":         {`, {"id": "no", "answer": "No", "usual": 30}`, ``, "narrows nothing"},
		"usual shares":       {`"usual": 30`, `"usual": 31`, "make 101"},
		"never":              {`"usual": 30`, `"usual": 0`, "is never"},
		"unknown question":   {`"swing": {"yes": 80}`, `"sway": {"yes": 80}`, `there is no question "sway"`},
		"unknown option":     {`"swing": {"yes": 80}`, `"swing": {"maybe": 80}`, `there is no option "maybe"`},
		"more than all":      {`{"yes": 80}`, `{"yes": 80, "no": 21}`, "more than 100"},
		"share":              {`"share": 100`, `"share": 0`, "0 of a hundred failures"},
		"how often":          {`"besides": 5`, `"besides": 0`, "nothing says how often"},
		"ID twice":           {`"id": "drip"`, `"id": "creak"`, "is there twice"},
		"ID":                 {`"id": "drip"`, `"id": "a drip"`, "cannot be an ID"},
		"kept beginning":     {`"id": "swing"`, `"id": "rig-swing"`, "belongs to questions made from traits"},
		"unknown field":      {`"how": "Push it."`, `"how": "Push it.", "why": ""`, "why"},
	} {
		t.Run(name, func(t *testing.T) {
			text := strings.Replace(small(t), c.from, c.to, 1)
			require.NotEqual(t, small(t), text)
			book, err := triage.Load("book.json", []byte(text))
			require.ErrorContains(t, err, c.want)
			assert.Contains(t, err.Error(), "book.json, line ")
			assert.Empty(t, book)
		})
	}
}

// A file that is accepted leads to a list without a panic.
func FuzzLoad(f *testing.F) {
	f.Add(small(f))
	f.Add("{}")
	f.Fuzz(func(t *testing.T, text string) {
		if book, err := triage.Load("book.json", []byte(text)); err != nil && len(book.Causes) > 0 {
			t.Fatal("refused, and half read")
		}
	})
}
