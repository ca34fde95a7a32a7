package data

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// syllables counts groups of vowels, the silent e at the end aside: near enough
// for a readability figure.
func syllables(word string) int {
	n, inVowel := 0, false
	for _, r := range word {
		vowel := strings.ContainsRune("aeiouy", r)
		if vowel && !inVowel {
			n++
		}
		inVowel = vowel
	}
	if strings.HasSuffix(word, "e") && !strings.HasSuffix(word, "le") && n > 1 {
		n--
	}
	return max(n, 1)
}

// grade is the Flesch-Kincaid grade level (Kincaid et al. 1975):
// 0.39·words/sentences + 11.8·syllables/words − 15.59.
func grade(text string) float64 {
	sentences := len(regexp.MustCompile(`[.!?]+(\s|$)`).FindAllString(text, -1))
	words := regexp.MustCompile(`[a-z]+`).FindAllString(strings.ToLower(text), -1)
	n := 0
	for _, w := range words {
		n += syllables(w)
	}
	return 0.39*float64(len(words))/float64(max(sentences, 1)) + 11.8*float64(n)/float64(len(words)) - 15.59
}

func TestReadingLevel(t *testing.T) {
	// Worked by hand: 6 words, 1 sentence, 6 syllables.
	assert.InDelta(t, 0.39*6+11.8-15.59, grade("The cat sat on the mat."), 1e-9)
	worst := 0.0
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		var all []string
		for _, s := range g.Steps {
			all = append(all, s.Text)
		}
		level := grade(strings.Join(all, " "))
		worst = max(worst, level)
		t.Logf("reading level of the steps: grade %.1f", level)
		assert.LessOrEqual(t, level, 7.0, "a tired person reads it at one glance")
	})
	t.Logf("hardest repair: grade %.1f", worst)
}

// The printed checklist of one repair for one rig, whole.
func TestChecklistGolden(t *testing.T) {
	g, ok := repair.Named(Guides(), "axle-shaft-rear")
	require.True(t, ok)
	rig := fieldkit.Rig{ID: "rig", Name: "Marrow", Traits: map[string]string{"rear-axle": "full-float", "drive": "part-time 4x4", "differential-lock": "none"}}
	text := g.Text(Catalog(), rig, fieldkit.Metric)
	golden := filepath.Join("testdata", "checklist_axle_shaft_rear.txt")
	if *update {
		require.NoError(t, os.MkdirAll("testdata", 0o755))
		require.NoError(t, os.WriteFile(golden, []byte(text), 0o644))
	}
	want, err := os.ReadFile(golden)
	require.NoError(t, err)
	assert.Equal(t, string(want), text)
	for n, line := range strings.Split(text, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 80, "line %d is too wide for a narrow page", n+1)
	}
}

// Every checklist prints for every repair in both systems, with every caution of
// the steps it shows.
func TestChecklistsPrint(t *testing.T) {
	eachGuide(t, func(t *testing.T, g repair.Guide) {
		for _, system := range []fieldkit.System{fieldkit.Metric, fieldkit.Inch} {
			text := g.Text(Catalog(), fieldkit.Rig{}, system)
			flat := strings.Join(strings.Fields(text), " ")
			for _, s := range g.Steps {
				assert.Contains(t, flat, s.Text)
				for _, c := range s.Cautions {
					assert.Contains(t, flat, c.Avoid)
				}
			}
			assert.NotContains(t, text, "step 0")
		}
	})
}
