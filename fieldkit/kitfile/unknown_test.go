package kitfile

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// Fields of a newer minor version come back as they were, at every level.
func TestUnknownFieldsSurvive(t *testing.T) {
	file := strings.Replace(sample(t), `"version": "1.1"`, `"version": "1.4", "weather": [ {"id": "w", "mm": 1.50} ]`, 1)
	file = strings.Replace(file, `"order": 2`, `"order": 2, "finish": {"colour": "sand \u00e9 <b>", "coats": 2e0}`, 1)
	file = strings.Replace(file, `"worn": true`, `"worn": true, "spread": [0.10, null]`, 1)
	file = strings.Replace(file, `"fixedAt"`, `"altitude": -12, "fixedAt"`, 1)
	kit, err := Load("kit.json", []byte(file))
	require.NoError(t, err)
	assert.Equal(t, "1.4", kit.Version)
	assert.Equal(t, fieldkit.Extra{"weather": `[{"id":"w","mm":1.50}]`}, kit.Extra)
	assert.Equal(t, fieldkit.Extra{"finish": `{"colour":"sand \u00e9 <b>","coats":2e0}`}, kit.Systems[0].Extra)
	assert.Equal(t, fieldkit.Extra{"spread": `[0.10,null]`}, kit.Parts.At(0).Measurements[0].Extra)
	assert.Equal(t, fieldkit.Extra{"altitude": `-12`}, kit.Failures.At(0).Place.Extra)

	saved := Save(kit)
	back, err := Load("kit.json", saved)
	require.NoError(t, err)
	assert.Equal(t, kit, back)
	assert.JSONEq(t, file, string(saved))
	for _, verbatim := range []string{`1.50`, `"sand \u00e9 <b>"`, `2e0`, `0.10`} {
		assert.Contains(t, string(saved), verbatim)
	}
}

// A newer minor version does not excuse a known field of the wrong type.
func TestKnownFieldsOfANewerVersionAreChecked(t *testing.T) {
	file := strings.Replace(sample(t), `"version": "1.1"`, `"version": "1.4"`, 1)
	_, err := Load("kit.json", []byte(strings.Replace(file, `"order": 2`, `"order": "second"`, 1)))
	assert.ErrorContains(t, err, `"second" is a text`)
}

// A kit of the present version that came by unknown fields, as from a journal
// that a newer program wrote, is saved so that they are read again.
func TestKeptFieldsRaiseTheVersion(t *testing.T) {
	kit, err := Load("kit.json", []byte(sample(t)))
	require.NoError(t, err)
	kit.Parts.At(0).Numbers[0].Extra = fieldkit.Extra{"batch": `"7"`}
	saved := Save(kit)
	back, err := Load("kit.json", saved)
	require.NoError(t, err)
	assert.Equal(t, "1.2", back.Version)
	assert.Equal(t, `"7"`, back.Parts.At(0).Numbers[0].Extra["batch"])
	assert.Equal(t, string(saved), string(Save(back)))
}

// A kept field that is not JSON, or has the name of a field of today, is told,
// and does not spoil the file.
func TestBadKeptFields(t *testing.T) {
	kit, err := Load("kit.json", []byte(sample(t)))
	require.NoError(t, err)
	kit.Rigs[0].Extra = fieldkit.Extra{"name": `"other"`, "horn": `{"loud": `}
	problems := Check(kit)
	require.Len(t, problems, 2)
	assert.ElementsMatch(t, []string{"/rigs/0/horn", "/rigs/0/name"}, []string{problems[0].Pointer, problems[1].Pointer})
	var anything any
	saved := Save(kit)
	require.NoError(t, json.Unmarshal(saved, &anything))
	back, err := Load("kit.json", saved)
	require.NoError(t, err)
	assert.Equal(t, "Tinker", back.Rigs[0].Name)
}
