package lookup

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestFoldNumber(t *testing.T) {
	cases := map[string]string{"K-4410 B": "k4410b", "26.017/305": "26017305", "45×68×10": "45x68x10", "ÖR-Ø1": "oro1", " -/. ": "", "44?0*": "44?0*"}
	for in, want := range cases {
		assert.Equal(t, want, foldNumber(in), in)
	}
}

func TestSingular(t *testing.T) {
	cases := map[string]string{
		"bearings": "bearing", "bushes": "bush", "batteries": "battery", "hoses": "hose", "boxes": "box", "brushes": "brush",
		"chassis": "chassis", "brass": "brass", "u": "u", "tires": "tyre", "leaves": "leaf", "LH": "LH", "lh": "left",
	}
	for in, want := range cases {
		assert.Equal(t, want, singular(in), in)
	}
}

func TestSplit(t *testing.T) {
	words := func(text string) (list []string) {
		for _, w := range split(text) {
			assert.LessOrEqual(t, w.end, len(text))
			list = append(list, w.text)
		}
		return list
	}
	assert.Equal(t, []string{"u", "joint"}, words("U-joint"))
	assert.Equal(t, []string{"drivers", "side"}, words("driver's side"))
	assert.Equal(t, []string{"1", "1", "2", "in"}, words("1½ in"))
	assert.Equal(t, []string{"k44?0b"}, words("K44?0B,"))
	assert.Empty(t, words("— ' —"))
}

// text is random over few characters, so that near pairs are common.
func text(r *rand.Rand, of string, most int) string {
	b := make([]byte, r.IntN(most+1))
	for i := range b {
		b[i] = of[r.IntN(len(of))]
	}
	return string(b)
}

func TestDistance(t *testing.T) {
	cases := []struct {
		typed, kept string
		want        int
	}{
		{"k4410b", "k4410b", 0},
		{"k441ob", "k4410b", costLookAlike},
		{"k44108", "k4410b", costLookAlike},
		{"kl410b", "k1410b", costLookAlike},
		{"k4?10b", "k4410b", 0},
		{"k4710b", "k4410b", costWrong},
		{"k410b", "k4410b", costWrong},
		{"k44410b", "k4410b", costWrong},
		{"k4140b", "k4410b", costWrong},
		{"", "ab", 2 * costWrong},
	}
	for _, c := range cases {
		assert.Equal(t, c.want, distance([]rune(c.typed), []rune(c.kept), 100), "%s as %s", c.typed, c.kept)
	}
}

func TestDistanceLaws(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 9))
	for range 3000 {
		a, b := []rune(text(r, "o0l1a", 6)), []rune(text(r, "o0l1a", 6))
		d := distance(a, b, 100)
		require.Equal(t, d, distance(b, a, 100), "reading a as b costs what reading b as a does")
		require.Equal(t, string(a) == string(b), d == 0)
		require.EqualValues(t, table(a, b)[len(a)][len(b)], d)
		for _, limit := range []int{0, costLookAlike, costWrong, 2 * costWrong} {
			if d <= limit {
				require.Equal(t, d, distance(a, b, limit))
			} else {
				require.Greater(t, distance(a, b, limit), limit)
			}
		}
		if d < costWrong {
			require.Equal(t, skeleton(string(a)), skeleton(string(b)))
		}
		require.Equal(t, d == 0, len(readings(string(a), string(b))) == 0)
	}
}

// fits is the meaning of a pattern, written as plainly as can be.
func fits(pattern, kept string) bool {
	switch {
	case pattern == "":
		return kept == ""
	case pattern[0] == '*':
		return fits(pattern[1:], kept) || kept != "" && fits(pattern, kept[1:])
	}
	return kept != "" && (pattern[0] == '?' || pattern[0] == kept[0]) && fits(pattern[1:], kept[1:])
}

func TestMatchesPattern(t *testing.T) {
	r := rand.New(rand.NewPCG(2, 9))
	for range 5000 {
		pattern, kept := text(r, "ab?*", 6), text(r, "ab", 7)
		require.Equal(t, fits(pattern, kept), matchesPattern(pattern, kept), "%s on %s", pattern, kept)
	}
}

func TestSizesOf(t *testing.T) {
	show := func(text string) (list []string) {
		for _, s := range sizesOf(text) {
			list = append(list, s.value.String())
		}
		return list
	}
	assert.Equal(t, []string{"35 mm"}, show("35 mm"))
	assert.Equal(t, []string{"1-3/8 in"}, show("1-3/8"), "a fraction alone is inches")
	assert.Equal(t, []string{"30"}, show("30 splines"))
	assert.Equal(t, []string{"35 mm", "35 in", "35"}, show("35"), "a bare number may be either")
	assert.Equal(t, []string{"12 V"}, show("12 V"))
	assert.Empty(t, show("bearing"))
	assert.Empty(t, show("0 mm"))
}
