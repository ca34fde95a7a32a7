package interchange_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

func link(id, wanted, with string, grade fieldkit.Grade, how fieldkit.Evidence, changes ...string) fieldkit.Link {
	return fieldkit.Link{ID: id, For: wanted, With: with, Grade: grade, Evidence: how, Changes: changes}
}

func dropIn(id, wanted, with string) fieldkit.Link {
	return link(id, wanted, with, fieldkit.DropIn, fieldkit.TestFitted)
}

type answer struct {
	Part    string
	Grade   fieldkit.Grade
	Changes []string
}

func answers(list []interchange.StandIn) []answer {
	var out []answer
	for _, s := range list {
		out = append(out, answer{s.Part, s.Grade, s.Changes})
	}
	return out
}

func TestStandIns(t *testing.T) {
	changes, oneWay, no := fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit
	seen, read := fieldkit.Seen, fieldkit.NumberRead
	cases := []struct {
		name  string
		links []fieldkit.Link
		of    string
		want  []answer
	}{
		{"drop-in then drop-in is drop-in",
			[]fieldkit.Link{dropIn("1", "a", "b"), dropIn("2", "b", "c")}, "a",
			[]answer{{"b", fieldkit.DropIn, nil}, {"c", fieldkit.DropIn, nil}}},
		{"drop-in holds both ways",
			[]fieldkit.Link{dropIn("1", "b", "a")}, "a", []answer{{"b", fieldkit.DropIn, nil}}},
		{"changes add up in order, each once",
			[]fieldkit.Link{link("1", "a", "b", changes, read, "ream the arm", "longer bolts"), link("2", "b", "c", changes, read, "spacer", "ream the arm")}, "a",
			[]answer{{"b", changes, []string{"ream the arm", "longer bolts"}}, {"c", changes, []string{"ream the arm", "longer bolts", "spacer"}}}},
		{"drop-in after changes keeps the changes",
			[]fieldkit.Link{link("1", "a", "b", changes, read, "spacer"), dropIn("2", "b", "c")}, "a",
			[]answer{{"b", changes, []string{"spacer"}}, {"c", changes, []string{"spacer"}}}},
		{"one-way is followed from wanted to stand-in",
			[]fieldkit.Link{link("1", "a", "b", oneWay, read)}, "a", []answer{{"b", oneWay, nil}}},
		{"one-way is never followed backward",
			[]fieldkit.Link{link("1", "a", "b", oneWay, read)}, "b", nil},
		{"one-way makes the rest one-way and keeps changes",
			[]fieldkit.Link{link("1", "a", "b", changes, read, "spacer"), link("2", "b", "c", oneWay, read), dropIn("3", "c", "d")}, "a",
			[]answer{{"b", changes, []string{"spacer"}}, {"c", oneWay, []string{"spacer"}}, {"d", oneWay, []string{"spacer"}}}},
		{"does not fit beats its own drop-in link",
			[]fieldkit.Link{dropIn("1", "a", "b"), link("2", "b", "a", no, seen)}, "a", nil},
		{"does not fit beats a chain, whatever the evidence",
			[]fieldkit.Link{dropIn("1", "a", "b"), dropIn("2", "b", "c"), link("3", "a", "c", no, fieldkit.Hearsay)}, "a",
			[]answer{{"b", fieldkit.DropIn, nil}}},
		{"best grade wins over strength and length",
			[]fieldkit.Link{link("1", "a", "c", changes, fieldkit.TestFitted, "spacer"), link("2", "a", "b", fieldkit.DropIn, seen), link("3", "b", "c", fieldkit.DropIn, seen)}, "a",
			[]answer{{"b", fieldkit.DropIn, nil}, {"c", fieldkit.DropIn, nil}}},
		{"fewer changes win between two links",
			[]fieldkit.Link{link("1", "a", "b", changes, read, "spacer", "hose"), link("2", "b", "a", changes, read, "hose")}, "a",
			[]answer{{"b", changes, []string{"hose"}}}},
		{"a link to itself and an unknown grade say nothing",
			[]fieldkit.Link{dropIn("1", "a", "a"), link("2", "a", "b", "nearly", read)}, "a", nil},
		{"a part nobody knows has none", nil, "z", nil},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			assert.Equal(t, c.want, answers(interchange.New(nil, c.links).StandIns(c.of)))
		})
	}
}

func TestStandInsPreferStrongerThenShorterChain(t *testing.T) {
	weakDirect := link("1", "a", "c", fieldkit.DropIn, fieldkit.Hearsay)
	strong := []fieldkit.Link{weakDirect, link("2", "a", "b", fieldkit.DropIn, fieldkit.Measured), link("3", "b", "c", fieldkit.DropIn, fieldkit.Measured)}
	s, ok := interchange.New(nil, strong).Between("a", "c")
	require.True(t, ok)
	assert.Equal(t, fieldkit.Measured, s.Weakest)
	assert.Len(t, s.Chain, 2)

	equal := append([]fieldkit.Link{}, strong...)
	equal[0].Evidence = fieldkit.Measured
	s, _ = interchange.New(nil, equal).Between("a", "c")
	assert.Equal(t, []interchange.Step{{From: "a", To: "c", Link: "1", Grade: fieldkit.DropIn, Evidence: fieldkit.Measured}}, s.Chain)
}

func TestChainThroughAContradictedPairIsContestedAndLast(t *testing.T) {
	g := interchange.New(nil, []fieldkit.Link{
		dropIn("1", "a", "b"), dropIn("2", "b", "c"), dropIn("3", "c", "d"),
		link("4", "a", "c", fieldkit.DoesNotFit, fieldkit.Seen),
		link("5", "a", "e", fieldkit.OneWay, fieldkit.Hearsay),
	})
	list := g.StandIns("a")
	require.Len(t, list, 3)
	assert.Equal(t, []string{"b", "e", "d"}, []string{list[0].Part, list[1].Part, list[2].Part})
	require.Len(t, list[2].Contested, 1)
	assert.Equal(t, "4", list[2].Contested[0].ID)
	assert.Empty(t, list[0].Contested)
}

func bearing(id, kind, value string, proof fieldkit.Evidence) fieldkit.Part {
	n := fieldkit.Number{Value: value, Issuer: fieldkit.StandardNumber, From: "ISO 15"}
	if proof != "" {
		n.Proof = &fieldkit.Proof{How: proof}
	}
	return fieldkit.Part{ID: id, Kind: kind, Numbers: []fieldkit.Number{n}}
}

func TestStandardDesignationTies(t *testing.T) {
	parts := []fieldkit.Part{
		bearing("a", "ball-bearing", "6207-2RS C3", ""),
		bearing("b", "ball-bearing", "6207 2rs c3", fieldkit.NumberRead),
		bearing("c", "ball-bearing", "6207-2RS", ""),          // another clearance
		bearing("d", "clutch-release", "6207-2RS C3", ""),     // another kind
		bearing("e", "ball-bearing", "6207-2RSC3", "hearsay"), // only said to bear it
	}
	g := interchange.New(parts, nil)
	assert.Equal(t, []interchange.StandIn{
		{Part: "b", Grade: fieldkit.DropIn, Weakest: fieldkit.PublishedStandard, Chain: []interchange.Step{
			{From: "a", To: "b", Standard: "ISO 15 6207 2rs c3", Grade: fieldkit.DropIn, Evidence: fieldkit.PublishedStandard}}},
		{Part: "e", Grade: fieldkit.DropIn, Weakest: fieldkit.Hearsay, Chain: []interchange.Step{
			{From: "a", To: "e", Standard: "ISO 15 6207 2rs c3", Grade: fieldkit.DropIn, Evidence: fieldkit.Hearsay}}},
	}, g.StandIns("a"))
	assert.Empty(t, g.StandIns("c"))
	assert.Empty(t, g.StandIns("d"))

	// Another issuer's equal number is no designation of a standard.
	maker := bearing("f", "ball-bearing", "6207-2RS C3", "")
	maker.Numbers[0].Issuer = fieldkit.MakerNumber
	assert.Empty(t, interchange.New(append(parts, maker), nil).StandIns("f"))
}

func TestFoldDesignation(t *testing.T) {
	cases := map[string]string{
		"6207-2RS C3":       "62072RSC3",
		"LM501349/LM501310": "LM501349LM501310",
		"M14×1.5":           "M14X1.5",
		"M14x1,5":           "M14X1.5",
		"1/2 NPT":           "1/2NPT",
		"AS568-214":         "AS568214",
		"45 x 68 x 10":      "45X68X10",
		" - ":               "",
	}
	for value, want := range cases {
		assert.Equal(t, want, interchange.FoldDesignation(value), value)
	}
}

func TestContradictions(t *testing.T) {
	on := fieldkit.Date{Year: 2024, Month: 5, Day: 2}
	block := link("9", "c", "a", fieldkit.DoesNotFit, fieldkit.TestFitted)
	block.On, block.By = on, "Ana"
	first := link("1", "a", "b", fieldkit.OneWay, fieldkit.Hearsay)
	first.On = on.AddDays(10)
	g := interchange.New(nil, []fieldkit.Link{
		first, dropIn("2", "b", "c"), block,
		link("3", "x", "y", fieldkit.DoesNotFit, fieldkit.Seen), // nothing speaks against it
	})
	list := g.Contradictions()
	require.Len(t, list, 1)
	assert.Equal(t, "9", list[0].Block.ID)
	assert.Equal(t, "a", list[0].Wanted(), "found against the direction in which the block is written")
	assert.Equal(t, `"c!" in place of "a!": does not fit by link 9, test-fitted, 2 May 2024, Ana, yet one-way by "a!" → "b!" one-way, link 1, hearsay, 12 May 2024; "b!" → "c!" drop-in, link 2, test-fitted, date not known; find out which is wrong and remove it`,
		list[0].Say(func(id string) string { return id + "!" }))

	direct := interchange.New(nil, []fieldkit.Link{dropIn("1", "a", "b"), link("2", "a", "b", fieldkit.DoesNotFit, fieldkit.Seen)})
	require.Len(t, direct.Contradictions(), 1, "two links of one pair")

	standard := interchange.New([]fieldkit.Part{bearing("a", "k", "6207", ""), bearing("b", "k", "6207", "")},
		[]fieldkit.Link{link("2", "a", "b", fieldkit.DoesNotFit, fieldkit.Seen)})
	require.Len(t, standard.Contradictions(), 1, "a designation against a link")
	assert.Contains(t, standard.Contradictions()[0].Say(func(id string) string { return id }), "both bear ISO 15 6207")
}

func TestBetweenAndServes(t *testing.T) {
	g := interchange.New(nil, []fieldkit.Link{
		link("1", "a", "b", fieldkit.OneWay, fieldkit.Measured, "spacer"),
		dropIn("2", "c", "b"),
	})
	assert.Equal(t, []string{"c", "a"}, g.Serves("b"), "best first")
	assert.Equal(t, []string{"b"}, g.Serves("c")[:1])
	assert.Empty(t, g.Serves("a"), "nothing wants a in its place")
	s, ok := g.Between("a", "c")
	require.True(t, ok)
	assert.Equal(t, answer{"c", fieldkit.OneWay, []string{"spacer"}}, answers([]interchange.StandIn{s})[0])
	_, ok = g.Between("c", "a")
	assert.False(t, ok)
	_, ok = g.Between("a", "a")
	assert.False(t, ok)
}
