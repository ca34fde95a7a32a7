package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

func TestGaps(t *testing.T) {
	k, cat := data.DemoKit(), data.Catalog()
	for _, r := range k.Rigs {
		v := viewGaps(k, cat, r.ID)
		assert.Equal(t, len(k.PositionsOf(r.ID)), v.ready+v.nearly+v.not)
		tree := viewRig(k, cat, r.ID)
		assert.Equal(t, tree.ready, v.ready, "the tree counts the same")
		for _, g := range v.gaps {
			assert.NotEmpty(t, g.what)
			assert.NotEmpty(t, g.why)
			assert.True(t, strings.HasPrefix(g.href, "/rig/part/edit?") || strings.HasPrefix(g.href, "/rig/position/edit?"), g.href)
		}
		assert.Equal(t, v.nearly+v.not > 0, len(v.gaps) > 0)
	}
	assert.Equal(t, k.Rigs[0].ID, viewGaps(k, cat, "").rig.ID)
	assert.Zero(t, viewGaps(fieldkit.Kit{}, cat, "").ready)
}

func TestGapsOpenWhereTheyAreClosed(t *testing.T) {
	cat := data.Catalog()
	k := data.BlankKit("x")
	rig := k.Rigs[0].ID
	list := k.PositionsOf(rig)
	v := viewGaps(k, cat, rig)
	require.Len(t, v.gaps, len(list), "nothing is known of any position")
	for _, g := range v.gaps {
		assert.Contains(t, g.href, "/rig/position/edit?", "the question is what sits there")
	}

	k.Parts = fieldkit.ListOf([]fieldkit.Part{{ID: "p", Kind: list[0].Kind, Name: "p", Numbers: []fieldkit.Number{{Value: "A 1", Issuer: fieldkit.MakerNumber, Proof: &fieldkit.Proof{How: fieldkit.NumberRead}}}}})
	at := list[0]
	at.Part, at.Proof = "p", &fieldkit.Proof{How: fieldkit.Hearsay}
	k.Positions = fieldkit.ListOf([]fieldkit.Position{at})
	v = viewGaps(k, cat, rig)
	require.Len(t, v.gaps, 1)
	assert.Contains(t, v.gaps[0].href, "/rig/position/edit?id="+at.ID, "it is the position that is hearsay")

	at.Proof.How = fieldkit.Seen
	k.Parts.Ref(0).Numbers = nil
	v = viewGaps(k, cat, rig)
	require.NotEmpty(t, v.gaps)
	for _, g := range v.gaps {
		assert.Contains(t, g.href, "/rig/part/edit?id=p&position="+at.ID)
	}
}
