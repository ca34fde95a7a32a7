package fieldkit

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestHidden(t *testing.T) {
	for _, c := range []struct {
		name, text, shown, without string
		lines                      bool
	}{
		{"plain", "Front axle, 1-3/8 × 2″, größer, Ω, 前, 👩‍🔧", "", "Front axle, 1-3/8 × 2″, größer, Ω, 前, 👩‍🔧", false},
		{"Persian with a joiner it needs", "می\u200cروم", "", "می\u200cروم", false},
		{"lines in a note", "a\n\tb", "", "a\n\tb", true},
		{"a tab in one line", "a\tb", "a⟨tab⟩ b", "a b", false},
		{"a line break in one line", "a\nb", "a⟨line break⟩ b", "a b", false},
		{"carriage return in a note", "a\r\nb", "a⟨U+000D⟩ b", "a\nb", true},
		{"bell", "a\ab", "a⟨U+0007⟩b", "ab", true},
		{"null", "\x00", "⟨U+0000⟩", "", false},
		{"delete", "a\x7f", "a⟨U+007F⟩", "a", false},
		{"next line, a C1 control", "a\u0085b", "a⟨U+0085⟩b", "ab", false},
		{"right-to-left override", "Front \u202eelxa", "Front ⟨U+202E⟩elxa", "Front elxa", false},
		{"right-to-left mark", "\u200fK-4410", "⟨U+200F⟩K-4410", "K-4410", false},
		{"Arabic letter mark", "K\u061c", "K⟨U+061C⟩", "K", true},
		{"isolate", "a\u2068b\u2069", "a⟨U+2068⟩b", "ab", true},
		{"zero width space", "K-44\u200b10", "K-44⟨U+200B⟩10", "K-4410", false},
		{"byte order mark", "\ufeffK", "⟨U+FEFF⟩K", "K", false},
		{"tag", "K\U000e0041", "K⟨U+E0041⟩", "K", false},
		{"no character", "K\uffff", "K⟨U+FFFF⟩", "K", false},
		{"no UTF-8", "K\xff4", "K⟨U+FFFD⟩4", "K4", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			err := ShowHidden(c.text, c.lines)
			if c.shown == "" {
				require.NoError(t, err)
			} else {
				require.Error(t, err)
				assert.Contains(t, err.Error(), "here: "+c.shown+";")
			}
			without := WithoutHidden(c.text, c.lines)
			assert.Equal(t, c.without, without)
			assert.NoError(t, ShowHidden(without, c.lines))
		})
	}
}

func TestMixedScript(t *testing.T) {
	for _, good := range []string{"", "K-4410 B", "LM501349", "К-4410", "前4410", "Ω", "12ß"} {
		assert.NoError(t, MixedScript(good), good)
	}
	for bad, script := range map[string]string{"К-4410 B": "Latin", "LM5\u039f1349": "Greek", "Ｋ-44A": "Latin", "K-44\U0001D400": "mathematical"} {
		assert.ErrorContains(t, MixedScript(bad), `is `+script, bad)
	}
}

// FuzzHidden holds that a text of which the hidden is taken out hides nothing, and
// that one that hides nothing stays as it is.
func FuzzHidden(f *testing.F) {
	for _, s := range []string{"", "Front axle", "a\u202eb", "a\x00b", "\xff", "a\n\tb", "К-4410 B", strings.Repeat("\u200b", 50), "👩‍🔧"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, text string, lines bool) {
		without := WithoutHidden(text, lines)
		require.True(t, utf8.ValidString(without))
		require.NoError(t, ShowHidden(without, lines))
		err := ShowHidden(text, lines)
		require.Equal(t, text == without, err == nil)
		if err != nil {
			require.NoError(t, ShowHidden(strings.NewReplacer("⟨", "", "⟩", "").Replace(err.Error()), false), "the message itself hides nothing")
		}
		_ = MixedScript(text)
	})
}
