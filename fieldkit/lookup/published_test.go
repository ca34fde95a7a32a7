package lookup_test

import (
	_ "embed"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/standards"
)

//go:embed testdata/published_parts.csv
var publishedFile string

// What is asked for as it stands in a catalog or handbook is found first, with the
// figures printed there. None of the sources is one that the tables were taken from.
func TestPublishedParts(t *testing.T) {
	rows, err := csv.NewReader(strings.NewReader(publishedFile)).ReadAll()
	require.NoError(t, err)
	ix := lookup.New(fieldkit.Kit{}, fieldkit.Catalog{}, data.Shelf())
	for _, r := range rows[1:] {
		query, kind, figure, source := r[0], standards.Kind(r[1]), r[2], r[5]
		t.Run(query+" "+figure, func(t *testing.T) {
			require.NotEmpty(t, source)
			hits := ix.Find(query, 1)
			require.NotEmpty(t, hits)
			d := hits[0].Designation
			require.NotNil(t, d)
			require.Equal(t, kind, d.Kind())
			got, ok := standards.DimNamed(d, figure)
			require.True(t, ok, "%s says nothing of its %s", d, figure)
			want, err := fieldkit.ParseValueAs(r[3], got.Dim, fieldkit.Metric)
			require.NoError(t, err)
			tolerance, err := fieldkit.ParseValueAs(r[4], got.Dim, fieldkit.Metric)
			require.NoError(t, err)
			assert.InDelta(t, want.Base, got.Base, float64(tolerance.Base), "%s, by %s", got, source)
		})
	}
	require.Greater(t, len(rows), 40)
}
