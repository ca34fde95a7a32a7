package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

// Lines written for editing read back as what they were made of.
func TestFiguresAndContactsAsLines(t *testing.T) {
	for _, r := range data.DemoKit().Rigs {
		figures, err := readFigures(figureLines(r.Figures), r.Figures)
		require.NoError(t, err)
		assert.Equal(t, r.Figures, figures)
		contacts, err := readContacts(contactLines(r.Contacts), r.Contacts)
		require.NoError(t, err)
		assert.Equal(t, r.Contacts, contacts)
		assert.NotEmpty(t, figures)
	}
}

func TestFigureLines(t *testing.T) {
	got, err := readFigures("tyres: on sand: 14 psi\n\n  hitch: ball 50 \n", []fieldkit.RigFigure{{Name: "hitch", Extra: fieldkit.Extra{"x": "1"}}})
	require.NoError(t, err)
	require.Len(t, got, 2)
	assert.Equal(t, "tyres: on sand", got[0].Name)
	assert.Equal(t, fieldkit.DimPressure, got[0].Value.Dim)
	assert.Equal(t, "ball 50", got[1].Value.Text)
	assert.Equal(t, fieldkit.Extra{"x": "1"}, got[1].Extra)
	for _, bad := range []string{"weight 2 t", ": 2 t", "weight:", "weight: \n"} {
		_, err := readFigures(bad, nil)
		assert.Error(t, err, bad)
	}
	none, err := readContacts("\n \n", nil)
	require.NoError(t, err)
	assert.Empty(t, none)
}
