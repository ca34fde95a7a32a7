package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/backup"
	"trailfieldkit/fieldkit/merge"
	"trailfieldkit/fieldkit/passon"
)

func TestViewPass(t *testing.T) {
	k := data.DemoKit()
	const address = "https://kit.example.org/take#"
	for name, v := range map[string]passView{
		"position": viewPass(k, address, "hobnail-front-brake-pads", "", ""),
		"card":     viewPass(k, address, "", "pads-front", ""),
		"link":     viewPass(k, address, "", "", "pads-wagon-not-packsaddle"),
	} {
		require.NoError(t, v.err, name)
		assert.True(t, strings.Contains(v.drawing(), `role="img" aria-label="Code to scan: `+string(v.bundle.Kind())+" "+v.bundle.Title()))
		b, err := passon.Decode(v.code)
		require.NoError(t, err)
		assert.Equal(t, v.bundle.Title(), b.Title())
		assert.Equal(t, v.code, codeInFile(backup.InMemory([]byte(address+v.code+"\n"))))
	}
	assert.Error(t, viewPass(k, address, "nowhere", "", "").err)
	assert.Empty(t, codeInFile(backup.InMemory([]byte(`{"format":"trail-field-kit"}`))))
	assert.Empty(t, codeInFile(backup.InMemory([]byte("PK\x03\x04"))))

	// What is too long for a square says so and can still be handed over.
	p, _ := k.Part("pads-front")
	for range 80 {
		p.Note += newID() + " " // what does not repeat cannot be packed
	}
	parts, _ := fieldkit.CollectionNamed("parts")
	parts.Put(&k, p)
	v := viewPass(k, address, "", "pads-front", "")
	assert.False(t, v.square.Size > 0, "a square was drawn")
	assert.NotEmpty(t, v.code)
	assert.ErrorContains(t, v.err, "too long for a square")
	assert.ErrorContains(t, tooLong(v.err), "small file")
	_, err := passon.Decode(v.code)
	assert.NoError(t, err)
}

func TestReminder(t *testing.T) {
	day := func(text string) fieldkit.Date {
		d, err := fieldkit.ParseDate(text)
		require.NoError(t, err)
		return d
	}
	none := fieldkit.Date{}
	trips := []fieldkit.Trip{
		{Name: "Salt loop", Start: day("2026-05-10"), Days: 5}, // ends on the 14th
		{Name: "Ridge", Start: day("2026-04-01"), Days: 2},
		{Name: "to come", Start: day("2026-09-01"), Days: 3},
		{Name: "some day", Days: 3},
	}
	for name, c := range map[string]struct {
		last, today fieldkit.Date
		trips       []fieldkit.Trip
		forGood     bool
		says        string
	}{
		"none since the trip":     {none, day("2026-05-20"), trips, true, "no backup yet of what Salt loop"},
		"before the trip":         {day("2026-05-01"), day("2026-05-20"), trips, true, "older than the end of Salt loop"},
		"on the way":              {day("2026-05-12"), day("2026-05-20"), trips, true, "older than the end of Salt loop"},
		"on its last day":         {day("2026-05-14"), day("2026-05-20"), trips, true, ""},
		"trip not over":           {day("2026-05-01"), day("2026-05-14"), trips[:1], true, ""},
		"nothing to remind of":    {none, day("2026-05-20"), nil, true, ""},
		"may be cleared, none":    {none, day("2026-05-20"), nil, false, "may clear the kit, and there is no backup"},
		"may be cleared, old":     {day("2026-05-01"), day("2026-05-20"), nil, false, "19 days old"},
		"may be cleared, fresh":   {day("2026-05-15"), day("2026-05-20"), nil, false, ""},
		"a clock that went back":  {day("2027-05-15"), day("2026-05-20"), trips, false, ""},
		"the earlier trip counts": {day("2026-04-05"), day("2026-05-12"), trips, true, ""},
	} {
		got := reminder(c.last, c.trips, c.today, c.forGood)
		if c.says == "" {
			assert.Empty(t, got, name)
		} else {
			assert.Contains(t, got, c.says, name)
		}
	}
}

// A backup that was restored is one, of the day it was made, until that is taken back.
func TestARestoredBackupIsTheLastOne(t *testing.T) {
	textsInMemory = map[string]string{}
	t.Cleanup(func() { textsInMemory = nil })
	day := func(s string) fieldkit.Date { d, _ := fieldkit.ParseDate(s); return d }
	made := func(s string) (m fieldkit.Moment) {
		require.NoError(t, m.UnmarshalText([]byte(s+"T12:00:00Z")))
		return m
	}
	assert.True(t, lastBackup(day("2026-05-22")).IsZero())
	assert.Contains(t, lastBackupWords(), "No backup")

	noteRestored("entry-1", fieldkit.Moment{}, day("2026-05-20"))
	assert.True(t, lastBackup(day("2026-05-22")).IsZero(), "a kit file without its day says nothing")
	noteRestored("entry-2", made("2026-05-02"), day("2026-05-20"))
	assert.Equal(t, day("2026-05-02"), lastBackup(day("2026-05-22")))
	assert.Contains(t, lastBackupWords(), "Last backup: "+day("2026-05-02").Show())
	forgetRestored("entry-1")
	assert.Equal(t, day("2026-05-02"), lastBackup(day("2026-05-22")), "something else was taken back")
	forgetRestored("entry-2")
	assert.True(t, lastBackup(day("2026-05-22")).IsZero())

	noteRestored("entry-3", made("2031-01-01"), day("2026-05-20"))
	assert.Equal(t, day("2026-05-20"), lastBackup(day("2026-05-22")), "its clock was ahead")
	remember(backupMade, "2026-05-21")
	assert.Equal(t, day("2026-05-21"), lastBackup(day("2026-05-22")), "one made here is later")
	remember(backupMade, "2026-05-01")
	assert.Equal(t, day("2026-05-20"), lastBackup(day("2026-05-22")), "one made here is earlier")
	remember(backupMade, "2031-01-01")
	assert.False(t, backupAhead(day("2026-05-22")), "another one is known")
	assert.Equal(t, day("2026-05-20"), lastBackup(day("2026-05-22")), "noted while the clock of this phone was ahead")
	remember(backupMade, "2026-05-23")
	assert.Equal(t, day("2026-05-23"), lastBackup(day("2026-05-22")), "beyond the date line")
	remember(backupRestored, "")
	remember(backupMade, "2031-01-01")
	assert.True(t, backupAhead(day("2026-05-22")))
	assert.Contains(t, lastBackupWords(), "bears a date to come")
	remember(backupMade, "rubbish")
	assert.False(t, backupAhead(day("2026-05-22")))
}

// Every record of the demo has a title of its own, never its ID.
func TestRecordTitle(t *testing.T) {
	k := data.DemoKit()
	for _, c := range fieldkit.Collections {
		for _, r := range c.All(k) {
			title := recordTitle(k, r)
			if strings.Contains(r.Key(), "-") {
				assert.NotContains(t, title, "“"+r.Key()+"”")
			}
			assert.True(t, strings.HasPrefix(title, recordNoun[c.Name]+" “"), title)
		}
	}
}

func TestValueWords(t *testing.T) {
	k := data.DemoKit()
	part, _ := k.Part("pads-front")
	for raw, want := range map[string]string{
		``: "nothing", `null`: "nothing", `[]`: "nothing", `"as it is"`: "“as it is”", `3`: "3", `true`: "yes",
		`{"part":"pads-front","fittedAt":"12 mi"}`: "fitted at “12 mi”, part “" + part.Name + "”",
		`[{"value":"K-1","issuer":"maker"}]`:       "issuer “maker”, value “K-1”",
	} {
		assert.Equal(t, want, valueWords(k, "part", []byte(raw)))
	}
	assert.Equal(t, "lines", fieldWords("lines/spare joint"))
	assert.Equal(t, "year from", fieldWords("yearFrom"))
	lines := clashLines(k, []merge.Clash{{Field: "name", Wins: merge.Version{Value: []byte(`"A"`)}, Lost: []merge.Version{{Value: []byte(`"B"`)}}, Mine: true}})
	assert.Equal(t, []string{"kit, name: yours “A” over theirs “B”"}, lines)
}
