package main

import (
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data/tables"
)

// Every table is listed with its rows and sources, and printed as its file is.
func TestTables(t *testing.T) {
	list, faults, status := say("table")
	require.Equal(t, done, status)
	require.Empty(t, faults)
	text, _, status := say("table", "-json")
	require.Equal(t, done, status)
	var all struct {
		Tables []struct {
			Name    string
			Rows    int
			Columns []struct{ Name string }
			Sources []struct {
				Source string
				Rows   int
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(text), &all))
	require.Len(t, all.Tables, len(tables.Names()))
	for i, listed := range all.Tables {
		assert.Equal(t, tables.Names()[i], listed.Name)
		assert.Contains(t, "\n"+list, "\n"+listed.Name+" ")
		require.NotEmpty(t, listed.Sources, listed.Name)
		for _, s := range listed.Sources {
			assert.True(t, s.Rows >= 1 && s.Rows <= listed.Rows, "%s: %s", listed.Name, s.Source)
			assert.Contains(t, list, s.Source)
		}

		file, err := os.ReadFile("../../data/tables/" + listed.Name + ".csv")
		require.NoError(t, err)
		printed, faults, status := say("table", listed.Name)
		assert.Equal(t, done, status)
		assert.Empty(t, faults)
		assert.True(t, printed == string(file), "%s is not printed as it is embedded", listed.Name)
		assert.Equal(t, listed.Rows, strings.Count(printed, "\n")-1, listed.Name)

		whole, _, status := say("table", listed.Name, "-json")
		assert.Equal(t, done, status)
		var one struct{ Rows []map[string]string }
		require.NoError(t, json.Unmarshal([]byte(whole), &one))
		require.Len(t, one.Rows, listed.Rows)
		for _, row := range one.Rows {
			require.Len(t, row, len(listed.Columns))
			require.NotEmpty(t, row["source"])
		}
	}
}

func TestNearestTables(t *testing.T) {
	for typed, want := range map[string]string{
		"bearing":       "ball_bearings",
		"ball-bearings": "ball_bearings",
		"ball_bearing":  "ball_bearings",
		"threads":       "lug_threads",
		"fuse":          "fuses",
		"seal":          "radial_shaft_seals",
		"tyre":          "load_index", // a word of its title
		"orings.csv":    "orings_as568",
	} {
		near := nearestTables(typed)
		require.NotEmpty(t, near, typed)
		assert.Equal(t, want, near[0], typed)
		assert.LessOrEqual(t, len(near), 3)
	}
	assert.Empty(t, nearestTables("xyzzy"))
}

func TestChanges(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"belt", "", 4}, {"belt", "belts", 1}, {"belt", "bolt", 1}, {"fuses", "bulbs", 3}} {
		assert.Equal(t, c.want, changes(c.a, c.b), "%s to %s", c.a, c.b)
		assert.Equal(t, c.want, changes(c.b, c.a), "%s to %s", c.b, c.a)
	}
}
