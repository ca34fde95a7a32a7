package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/passon"
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

// What a file or a code holds that reads as something else is said before it is taken.
func TestDisguisesAreSaid(t *testing.T) {
	k := data.DemoKit()
	assert.NotContains(t, drawn(t, disguised(kitfile.CheckReading(k))), "not what they read like")
	p, _ := k.Part("pads-front")
	p.Name = "pads\u200b"
	parts, _ := fieldkit.CollectionNamed("parts")
	parts.Put(&k, p)
	_, disguises := lookThrough(k)
	assert.Contains(t, drawn(t, disguised(disguises)), "⟨U+200B⟩")

	card, err := passon.Card(k, p.ID)
	require.NoError(t, err)
	code, err := passon.Encode(card)
	require.NoError(t, err)
	s := &takeScreen{}
	s.open(code)
	require.NoError(t, s.err)
	assert.Contains(t, drawn(t, disguised(s.disguises)), "⟨U+200B⟩")
	s.open("")
	assert.Empty(t, s.disguises)
}
