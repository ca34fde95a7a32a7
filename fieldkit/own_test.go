package fieldkit_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func TestParseOwnSteps(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []fieldkit.OwnStep
		wrong      string
	}{
		{"one a line", "chock the wheels\n\n  loosen the clamp ", []fieldkit.OwnStep{{Text: "chock the wheels"}, {Text: "loosen the clamp"}}, ""},
		{"a caution", "! hot coolant\nopen the cap", []fieldkit.OwnStep{{Text: "open the cap", Caution: "hot coolant"}}, ""},
		{"nothing", " \n\n", nil, ""},
		{"a mark alone", "!\nopen the cap", []fieldkit.OwnStep{{Text: "open the cap"}}, ""},
		{"caution at the end", "open the cap\n!hot", nil, "line 2 is a caution with no step behind it"},
		{"two cautions", "!hot\n! under pressure\nopen the cap", nil, "line 2 is a second caution"},
		{"too long", "a\n" + strings.Repeat("é", fieldkit.MaxOwnStep+1), nil, "line 2 is longer than 240 characters"},
		{"just short enough", strings.Repeat("é", fieldkit.MaxOwnStep), []fieldkit.OwnStep{{Text: strings.Repeat("é", fieldkit.MaxOwnStep)}}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			steps, err := fieldkit.ParseOwnSteps(c.text)
			if c.wrong != "" {
				require.ErrorContains(t, err, c.wrong)
				return
			}
			require.NoError(t, err)
			assert.Equal(t, c.want, steps)
		})
	}
}

// What is read can be written and read again as the same.
func FuzzParseOwnSteps(f *testing.F) {
	f.Add("chock the wheels\n! hot\nopen the cap")
	f.Add("!!! !x\n!")
	f.Add("\u2028a\r\nb")
	f.Fuzz(func(t *testing.T, text string) {
		steps, err := fieldkit.ParseOwnSteps(text)
		if err != nil {
			return
		}
		again, err := fieldkit.ParseOwnSteps(fieldkit.ShowOwnSteps(steps))
		require.NoError(t, err)
		require.Equal(t, steps, again)
	})
}
