package kitfile

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Load(Save(k)) is k, and the saved bytes do not change from then on.
func TestRoundTrip(t *testing.T) {
	for seed := range int64(60) {
		d := roll(seed)
		d.extra = seed%2 == 1
		k := d.kit(1 + int(seed)%7)
		saved := Save(k)
		back, err := Load("kit.json", saved)
		require.NoError(t, err, "seed %d", seed)
		require.Equal(t, k, back, "seed %d", seed)
		require.Equal(t, string(saved), string(Save(back)), "seed %d", seed)
		require.Empty(t, Check(k), "seed %d", seed)
	}
}

func BenchmarkLoad(b *testing.B) {
	saved := Save(roll(1).kit(900))
	b.SetBytes(int64(len(saved)))
	b.ReportAllocs()
	for b.Loop() {
		_, err := Load("kit.json", saved)
		assert.NoError(b, err)
	}
}

func BenchmarkSave(b *testing.B) {
	k := roll(1).kit(900)
	b.SetBytes(int64(len(Save(k))))
	b.ReportAllocs()
	for b.Loop() {
		Save(k)
	}
}

// What others do meanwhile changes nothing in the file.
func TestSaveInTurnsWritesTheSame(t *testing.T) {
	kit, turns := roll(1).kit(900), 0
	assert.Equal(t, Save(kit), SaveInTurns(kit, func() { turns++ }))
	assert.Greater(t, turns, 0)
}
