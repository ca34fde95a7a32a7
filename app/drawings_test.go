package app

import (
	"encoding/xml"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/standards/measure"
)

// Every kind has a drawing that shows each length that is measured on it with a
// letter of its own, in the colour of the text, without styles that the policy of the
// page forbids.
func TestDrawings(t *testing.T) {
	kinds := measure.Kinds()
	require.Len(t, drawings, len(kinds))
	for _, kind := range kinds {
		shown, ok := drawings[kind.Name]
		require.True(t, ok, kind.Name)
		for _, name := range shown.sizes {
			_, known := kind.AttributeNamed(name)
			assert.True(t, known, "%s: %s", kind.Name, name)
		}
		letters := lettersOf(kind)
		for _, a := range kind.Attributes {
			if a.Dim == fieldkit.DimLength {
				assert.NotEmpty(t, letters[a.Name], "%s: %s is not drawn", kind.Name, a.Name)
			}
		}
		svg := drawingText(kind, shown)
		for name, letter := range letters {
			assert.Equal(t, 1, strings.Count(svg, ">"+letter+"</text>"), "%s: letter of %s", kind.Name, name)
		}
		assert.Contains(t, svg, `stroke="currentColor"`)
		assert.NotContains(t, svg, "style=")
		for d := xml.NewDecoder(strings.NewReader(svg)); ; {
			_, err := d.Token()
			if err == io.EOF {
				break
			}
			require.NoError(t, err, kind.Name)
		}
	}
}
