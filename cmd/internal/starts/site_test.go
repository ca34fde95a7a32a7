package starts

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/web"
)

// A later edition is one that a phone would take up: else every update is refused, and
// nothing is said of how it breaks. Of the first, saidOfItself gives what web.Render did.
func TestEditionIsAWholeVersion(t *testing.T) {
	first, err := firstEdition()
	require.NoError(t, err)
	for _, site := range []web.Site{first, edition(first, 1), edition(first, 2)} {
		assert.Contains(t, string(site.Files[web.Start].Body), `"worker":"`+saidOfItself(site.Files[web.Worker].Body)+`"`)
		for name, file := range site.Files {
			assert.Equal(t, sumOf(file.Body), file.SHA256, name)
			if name != web.Worker && name != web.ShellDeep {
				assert.Contains(t, string(site.Files[web.Worker].Body), file.SHA256, name)
			}
		}
	}
	next := edition(first, 1)
	for name := range first.Files {
		assert.NotEqual(t, first.Files[name].SHA256, next.Files[name].SHA256, name)
	}
}
