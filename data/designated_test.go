package data

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data/tables"
)

// Every row of the tables of designations is one, and is found again by it.
func TestRowsAreDesignations(t *testing.T) {
	for name := range designated {
		table, ok := tables.TableNamed(name)
		require.True(t, ok, name)
		for row := range table.Rows {
			d, ok := DesignationOf(table, row)
			if !assert.True(t, ok, "%s row %d: %v", name, row+1, table.Rows[row]) || row%40 != 0 {
				continue
			}
			of, at, ok := RowOf(d)
			require.True(t, ok, "%s", d)
			again, _ := DesignationOf(of, at)
			assert.Equal(t, d.String(), again.String())
		}
	}
}

// Rows that are searched by their text have names of their own, a title and a source.
func TestTableRows(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range TableRows() {
		assert.False(t, seen[r.ID()], r.ID())
		seen[r.ID()] = true
		assert.NotEmpty(t, r.Title)
		assert.NotEmpty(t, r.Source)
	}
	assert.Greater(t, len(seen), 400)
}
