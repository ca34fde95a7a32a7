package app

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// A file that names kinds the catalog has not is not taken without a word.
func TestUnknownKindsAreSaid(t *testing.T) {
	k := data.DemoKit()
	assert.NotContains(t, drawn(t, unknownKinds(kitfile.CheckAgainst(k, data.Catalog()))), "does not know")
	parts := k.Parts.Slice()
	for i := range 8 {
		parts[i].Kind = "flux-coil"
	}
	k.Parts = fieldkit.ListOf(parts)
	said := drawn(t, unknownKinds(kitfile.CheckAgainst(k, data.Catalog())))
	assert.Contains(t, said, "does not know")
	assert.Contains(t, said, "flux-coil")
	assert.Contains(t, said, "and 3 more")
}
