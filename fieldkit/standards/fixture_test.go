package standards_test

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"trailfieldkit/data/tables"
	"trailfieldkit/fieldkit/standards"
)

var opened = sync.OnceValues(func() (*standards.Handbook, error) { return standards.Open(embedded) })

// embedded hands over the tables the program brings along.
func embedded(name string) (standards.Table, bool) {
	t, ok := tables.TableNamed(name)
	if !ok {
		return standards.Table{}, false
	}
	columns := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		columns[i] = c.Name
	}
	return standards.Table{Columns: columns, Rows: t.Rows}, true
}

func handbook(t testing.TB) *standards.Handbook {
	t.Helper()
	h, err := opened()
	require.NoError(t, err)
	return h
}
