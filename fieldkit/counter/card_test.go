package counter_test

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/counter"
)

var update = flag.Bool("update", false, "write the golden files anew")

func card(t *testing.T, k fieldkit.Kit, part, position string) counter.Card {
	t.Helper()
	c, err := counter.CardFor(k, catalog, graphOf(k), part, position)
	require.NoError(t, err)
	return c
}

func TestCardText(t *testing.T) {
	cases := []struct{ name, part, position string }{
		{"joint", "joint", ""},
		{"joint at a position", "", "joint-left"},
		{"pads without donor", "", "pads-left"},
		{"nothing fitted", "", "pads-rear"},
		{"another part at a position", "joint-wagon", "joint-left"},
	}
	for _, c := range cases {
		for _, first := range []fieldkit.System{fieldkit.Inch, fieldkit.Metric} {
			t.Run(c.name+" "+string(first), func(t *testing.T) {
				text := card(t, kit(), c.part, c.position).Text(first)
				for _, line := range strings.Split(text, "\n") {
					assert.LessOrEqual(t, utf8.RuneCountInString(line), counter.TextWidth, line)
					assert.Equal(t, strings.TrimRight(line, " "), line)
				}
				file := filepath.Join("testdata", strings.ReplaceAll(c.name, " ", "-")+"-"+string(first)+".txt")
				if *update {
					require.NoError(t, os.MkdirAll("testdata", 0o755))
					require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
				}
				want, err := os.ReadFile(file)
				require.NoError(t, err)
				assert.Equal(t, string(want), text)
			})
		}
	}
}

func TestCardNamesTheDonorAndNotThePapers(t *testing.T) {
	c := card(t, kit(), "joint", "")
	assert.Equal(t, "1988-1991 Dolvarne Haulyard 350 4x4 single rear wheels", c.Donor)
	assert.Equal(t, "not for the 1984 Umberlow Hobnail 4x4 pickup outside", c.NotFor)

	own := card(t, kit(), "", "wagon-joint")
	assert.Equal(t, "1991-1995 Tarrowick Wicket", own.Donor)
	assert.Empty(t, own.NotFor, "the rig is its own donor")

	none := card(t, kit(), "", "pads-left")
	assert.Empty(t, none.Donor)
	assert.Empty(t, none.NotFor)
	assert.Contains(t, none.Missing, "The donor is not known: ask by number and measure, and do not trust the papers (1984 Umberlow Hobnail 4x4 pickup).")
}

func TestCardNumbersInOrderOfUse(t *testing.T) {
	var got []string
	for _, n := range card(t, kit(), "joint", "").Numbers {
		got = append(got, n.Value+" | "+n.Label+" | "+n.Proof)
	}
	assert.Equal(t, []string{
		"DV 88-3341 | maker's number, Dolvarne | store book",
		"QM 7-760 X | replacement number, Quernmark | number read, 6 May 2023, Desh",
		"U-1350 | standard designation, series | published standard",
		"CM 14 | casting mark, not a part number | how it is known is not written down",
	}, got)
}

func TestCardChecks(t *testing.T) {
	checks := card(t, kit(), "joint", "").Checks
	require.Len(t, checks, 5)
	assert.Equal(t, counter.Check{
		Name: "cap diameter", Value: value("1-3/16 in"), Measured: true, How: "caliper over a cap", Taken: "caliper, 6 May 2023", Must: true,
		Why: "the cap falls out or does not go in",
	}, checks[0])
	assert.True(t, checks[1].Worn, "found although written Span")
	assert.False(t, checks[3].Measured)
	assert.Equal(t, "cross body", checks[4].Name, "measured though the kind does not ask for it")
	assert.False(t, checks[4].Must)
}

func TestCardReadsTheNewRatherThanTheWorn(t *testing.T) {
	k := kit()
	k.Parts.Ref(0).Measurements = []fieldkit.Measurement{
		measured("span", "90 mm", "caliper", on(2020, 1, 1)),
		{Name: "span", Value: value("91 mm"), On: on(2024, 1, 1), Worn: true},
		measured("span", "92 mm", "caliper", on(2022, 1, 1)),
	}
	assert.Equal(t, value("92 mm"), card(t, k, "joint", "").Checks[1].Value)
}

func TestCardStandIns(t *testing.T) {
	c := card(t, kit(), "joint", "")
	require.Len(t, c.StandIns, 2)
	assert.Equal(t, counter.StandInLine{
		Part: "joint-greasable", Grade: fieldkit.DropIn, Name: "axle U-joint, greasable", Numbers: []string{"Quernmark QM 7-760 G"}, Weakest: fieldkit.TestFitted, Stock: 1,
		Chain: "test-fitted, 10 Feb 2024, Desh",
	}, c.StandIns[0])
	assert.Equal(t, "1991-1995 Tarrowick Wicket", c.StandIns[1].Donor, "another vehicle to name")
	assert.Equal(t, "axle U-joint, greasable (drop-in; test-fitted, 10 Feb 2024, Desh) → wagon joint (fits with changes; hearsay); the weakest of it is hearsay", c.StandIns[1].Chain)
	assert.Equal(t, "somebody only said so: measure before you pay", c.StandIns[1].Doubt)
	assert.Equal(t, []string{"turn the caps down by 0.2 mm in a lathe"}, c.StandIns[1].Changes)

	require.Len(t, c.DoesNotFit, 1, "recorded the other way round")
	assert.Equal(t, "Caps are 1/8 in smaller. (measured, 10 Feb 2024, Desh)", c.DoesNotFit[0].Why)

	contested := kit()
	contested.Links = contested.Links.With(fieldkit.Link{ID: "x", For: "joint-wagon", With: "joint-small", Grade: fieldkit.DropIn, Evidence: fieldkit.Seen},
		fieldkit.Link{ID: "y", For: "joint-small", With: "plate", Grade: fieldkit.DropIn, Evidence: fieldkit.Seen})
	for _, s := range card(t, contested, "joint", "").StandIns {
		assert.NotEqual(t, "joint-small", s.Part)
		if s.Part == "plate" {
			assert.Equal(t, "the records contradict each other: axle U-joint, sealed does not fit in place of axle U-joint, small (measured)", s.Doubt)
		}
	}
}

func TestCardSaysWhatIsFittedThere(t *testing.T) {
	c := card(t, kit(), "", "joint-left")
	assert.Equal(t, "axle U-joint, also called universal joint or cross kit; goes in front axle: axle joint, left and right", c.Ask)
	assert.Equal(t, []counter.Place{
		{ID: "joint-left", Title: "front axle: axle joint, left", Proof: "test-fitted, 6 May 2023"},
		{ID: "joint-right", Title: "front axle: axle joint, right", Proof: "how it is known is not written down"},
	}, c.Places)
	both := kit()
	both.Positions.Ref(6).Part = "joint"
	assert.Equal(t, "Wicket, front axle: axle joint, left", card(t, both, "joint", "").Places[2].Title, "the rig is named if there are several")
	assert.Len(t, card(t, both, "joint", "joint-left").Places, 2, "only the rig asked for")
	other := card(t, kit(), "joint-small", "joint-left")
	assert.Contains(t, other.Cautions, "This is not what sits at front axle: axle joint, left now; that is axle U-joint, sealed.")
	require.Len(t, other.Places, 1)
	assert.Empty(t, other.Places[0].Proof)
}

func TestCardForNothing(t *testing.T) {
	for name, ids := range map[string][2]string{"neither": {"", ""}, "unknown part": {"none", ""}, "unknown position": {"joint", "none"}} {
		t.Run(name, func(t *testing.T) {
			c, err := counter.CardFor(kit(), catalog, graphOf(kit()), ids[0], ids[1])
			var e *fieldkit.Error
			require.True(t, errors.As(err, &e))
			assert.Equal(t, fieldkit.NotFound, e.Kind)
			assert.Equal(t, counter.Card{}, c)
		})
	}
}

func TestCardOfABareKit(t *testing.T) {
	bare := fieldkit.Kit{Parts: fieldkit.ListOf([]fieldkit.Part{{ID: "p"}}), Positions: fieldkit.ListOf([]fieldkit.Position{{ID: "at", Name: "bolt", Part: "gone"}})}
	for _, ids := range [][2]string{{"p", ""}, {"", "at"}, {"p", "at"}} {
		c, err := counter.CardFor(bare, fieldkit.Catalog{}, nil, ids[0], ids[1])
		require.NoError(t, err)
		assert.NotEmpty(t, c.Title)
		assert.NotEmpty(t, c.Missing)
		assert.NotEmpty(t, c.Text(fieldkit.Inch))
	}
}

func TestTextBreaksLongWords(t *testing.T) {
	c := counter.Card{Title: strings.Repeat("W", 200), Ask: strings.Repeat("é", 300) + " end", Missing: []string{"a\nb"}}
	for _, line := range strings.Split(c.Text(fieldkit.Inch), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), counter.TextWidth)
	}
	assert.Contains(t, c.Text(fieldkit.Inch), " end\n")
	assert.Contains(t, c.Text(fieldkit.Inch), "- a b\n")
}
