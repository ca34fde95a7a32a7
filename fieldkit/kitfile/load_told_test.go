package kitfile

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// All problems of a file are told at once, in file order.
func TestEveryProblemIsTold(t *testing.T) {
	file := sample(t)
	for _, b := range brokenFiles {
		if b.name == "unknown side" || b.name == "no reading" || b.name == "part of no donor" || b.name == "trip of no days" || b.name == "inspection of no position" {
			file = strings.Replace(file, b.old, b.new, 1)
		}
	}
	_, err := Load("kit.json", []byte(file))
	var found *Problems
	require.ErrorAs(t, err, &found)
	golden(t, "five_problems.golden", []byte(err.Error()+"\n"))
	require.Len(t, found.List, 5)
	for i := 1; i < 5; i++ {
		assert.Less(t, found.List[i-1].Line, found.List[i].Line)
	}
}

// The messages of all broken files, for a person to read through.
func TestMessagesOfBrokenFiles(t *testing.T) {
	var all strings.Builder
	for _, b := range brokenFiles {
		_, err := Load("kit.json", []byte(b.file(t)))
		if err != nil {
			all.WriteString("# " + b.name + "\n" + err.Error() + "\n\n")
		}
	}
	golden(t, "messages.golden", []byte(all.String()))
}

// A record whose own ID is unreadable does not make every reference to it a
// problem.
func TestNoProblemsFromProblems(t *testing.T) {
	for _, change := range [][2]string{
		{`"id": "torrack-30"`, `"id": 30`},
		{`"donors": [`, `"donors": 7, "notes": [`},
	} {
		_, err := Load("kit.json", []byte(strings.Replace(sample(t), change[0], change[1], 1)))
		var found *Problems
		require.ErrorAs(t, err, &found)
		for _, p := range found.List {
			assert.NotContains(t, p.What, "no donor", change[1])
		}
	}
}

func TestKindsOfErrors(t *testing.T) {
	kind := func(file string) fieldkit.ErrorKind {
		_, err := Load("kit.json", []byte(file))
		var told *fieldkit.Error
		require.True(t, errors.As(err, &told))
		return told.Kind
	}
	assert.Equal(t, fieldkit.TooNew, kind(`{"format": "trail-field-kit", "version": "2.0", "whatever": []}`))
	assert.Equal(t, fieldkit.TooBig, kind(strings.Replace(sample(t), "Front axle", strings.Repeat("x", 30_000), 1)))
	assert.Equal(t, fieldkit.BadInput, kind(`{}`))
	assert.Equal(t, fieldkit.TooBig, kind(strings.Repeat(" ", fieldkit.MaxFileSize+1)))
}

// A file with a problem in each of very many records gives a bounded list that
// counts the rest.
func TestManyProblemsAreCounted(t *testing.T) {
	file := `{"format": "trail-field-kit", "version": "1.1", "id": "k", "name": "k", "currency": "USD", "parts": [` +
		strings.TrimSuffix(strings.Repeat(`{"id": "p", "kind": "k", "name": 7},`, 3000), ",") + `]}`
	_, err := Load("kit.json", []byte(file))
	var found *Problems
	require.ErrorAs(t, err, &found)
	assert.Len(t, found.List, maxProblems)
	assert.Equal(t, 3000, len(found.List)+found.More)
	assert.Equal(t, maxPrinted+1, len(strings.Split(err.Error(), "\n")))
	assert.True(t, strings.HasSuffix(err.Error(), "more problems"))
}

func TestTooManyRecords(t *testing.T) {
	file := `{"format": "trail-field-kit", "version": "1.1", "id": "k", "name": "k", "currency": "USD", "parts": [` +
		strings.Repeat(`0,`, fieldkit.MaxRecords) + `0]}`
	_, err := Load("kit.json", []byte(file))
	var found *Problems
	require.ErrorAs(t, err, &found)
	_, ok := problemAt(found, "/parts", "more than 200000 entries")
	assert.True(t, ok)
}

// Very many small values in short lists would fill the memory; reading stops.
func TestTooManyValues(t *testing.T) {
	found := &faults{}
	p := &parser{src: "[1, 2]", found: found, count: maxValues - 2}
	assert.False(t, p.value(&node{}, 0))
	require.Len(t, found.list, 1)
	assert.Contains(t, found.list[0].What, "more than 4000000 values")
	assert.Equal(t, "/1", found.list[0].Pointer)
}

func TestTooManyFields(t *testing.T) {
	var file strings.Builder
	for i := range fieldkit.MaxList + 1 {
		fmt.Fprintf(&file, `,"f%d":1`, i)
	}
	_, err := Load("kit.json", []byte("{"+file.String()[1:]+"}"))
	assert.ErrorContains(t, err, "more than 10000 fields")
}
