package lookup_test

import (
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/lookup"
)

func TestFindFirst(t *testing.T) {
	cases := []struct {
		name, query, kind, id, why string
	}{
		{"number as printed", "K-4410 B", "part", "pump", "number K-4410 B, Kestrel"},
		{"number without separators", "k4410b", "part", "pump", "number K-4410 B, Kestrel"},
		{"number with other separators", "26.017/305", "part", "pump", "number 26 017 305, Orrin"},
		{"number being typed", "26 017", "part", "pump", "number 26 017 305, Orrin begins so"},
		{"letter O for zero", "K 441O B", "part", "pump", "number K-4410 B, Kestrel (O read as 0)"},
		{"zero for letter O", "HD50-1310X", "part", "joint", "number HD5O-1310X, Halden Driveline (0 read as O)"},
		{"S for five and eight for B", "K44108 pump", "part", "pump", "number K-4410 B, Kestrel (8 read as B)"},
		{"one unreadable character", "K44?0B", "part", "pump", "number K-4410 B, Kestrel (? read as 1)"},
		{"the beginning, one unreadable", "26?17", "part", "pump", "number 26 017 305, Orrin begins so (? read as 0)"},
		{"several unreadable characters", "LM50*49", "part", "outer-bearing", "LM501349, half of LM501349/LM501310 fits what can be read"},
		{"one wrong character", "K-4710B", "part", "pump", "number K-4410 B, Kestrel (7 read as 4)"},
		{"two wrong characters", "26 917 395", "part", "pump", "number 26 017 305, Orrin (9 read as 0, 9 read as 0)"},
		{"two characters swapped", "K4401B", "part", "pump", "number K-4410 B, Kestrel (01 read as 10)"},
		{"a character left out", "2601305", "part", "pump", "number 26 017 305, Orrin (7 missing)"},
		{"a character too many", "26 0177 305", "part", "pump", "number 26 017 305, Orrin (7 too many)"},
		{"the legible middle", "017305", "part", "pump", "number 26 017 305, Orrin has it inside"},
		{"designation", "lm501349 / lm501310", "part", "outer-bearing", "designation LM501349/LM501310, ABMA 19"},
		{"half a designation", "LM501310", "part", "outer-bearing", "LM501310, half of LM501349/LM501310"},
		{"VIN of a donor", "1M8GDM9AXKPO42788", "donor", "cairn", "number 1M8GDM9AXKP042788, VIN (O read as 0)"},
		{"name", "remote tank", "part", "pump", `"remote", "tank" in the name`},
		{"plural for singular", "outer wheel bearings", "part", "outer-bearing", `"outer", "wheel", "bearings" in the name`},
		{"trade name", "cross kit", "part", "joint", "also called cross kit"},
		{"trade name run together", "ujoint", "part", "joint", "a kind of U-joint"},
		{"trade name apart", "u joints", "part", "joint", "a kind of U-joint"},
		{"misspelt", "bering outer", "part", "outer-bearing", `"bering" read as "bearing"`},
		{"other spelling", "tire", "kind", "tyre", `"tire" in the name`},
		{"donor and year inside its range", "1990 packsaddle", "donor", "packsaddle", "1990 is within 1988-1991 Halden Packsaddle 4x4 dual rear wheels"},
		{"part of a donor", "packsaddle pads", "part", "pads", "from donor 1988-1991 Halden Packsaddle 4x4 dual rear wheels"},
		{"axle of the donor", "high pinion joint", "part", "joint", "from donor high-pinion front axle"},
		{"issuer", "kestrel pads", "part", "pads", "number from Kestrel"},
		{"side", "outer bearing right", "part", "outer-bearing", "fitted at front axle: outer bearing, right"},
		{"shop abbreviation of a side", "outer bearing RH", "part", "outer-bearing", "fitted at front axle: outer bearing, right"},
		{"fraction", "1-5/8 bearing", "part", "outer-bearing", "bore 1-5/8 in (41.28 mm)"},
		{"fraction in one character", "1⅝ in bearing", "part", "outer-bearing", "bore 1-5/8 in (41.28 mm)"},
		{"decimal inches", "1.625\" bearing", "part", "outer-bearing", "bore 1-5/8 in (41.28 mm)"},
		{"near in the other system", "41.3 mm bearing", "part", "outer-bearing", "bore 41.28 mm (1-5/8 in), near 41.3 mm"},
		{"count", "30 spline shaft", "part", "shaft", "splines 30"},
		{"position without a part", "drag link", "position", "tie-end", `"drag", "link" in the name`},
		{"position by its kind", "track rod end", "position", "tie-end", "also called track rod end"},
		{"tool", "lug socket", "tool", "nut-socket", `"lug", "socket" in the name`},
		{"consumable by grade", "DOT 4", "consumable", "fluid", "grade DOT 4"},
		{"where a spare is kept", "spare drawer two", "part", "joint", "kept: spare, drawer two"},
		{"idle words", "the pump for my orrin", "part", "pump", "from donor 1979 Orrin Cairn"},
		{"question mark behind a word", "pump?", "part", "pump", `"pump?" in the name`},
		{"a word that matches nothing", "xyzzy pump", "part", "pump", `nothing for "xyzzy"`},
		{"accents", "késtrel páds", "part", "pads", "number from Kestrel"},
	}
	ix := lookup.New(kit, catalog, nil)
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			hits := ix.Find(c.query, 10)
			require.NotEmpty(t, hits)
			assert.Equal(t, c.kind+" "+c.id, string(hits[0].Kind)+" "+hits[0].ID)
			assert.Contains(t, hits[0].Why, c.why)
		})
	}
}

func TestFindNothing(t *testing.T) {
	ix := lookup.New(kit, catalog, nil)
	for _, q := range []string{"", "   ", "-/.", "*", "***", "xyzzy", "99999999999", "\x00\xff"} {
		assert.Empty(t, ix.Find(q, 10), "%q", q)
	}
	assert.Nil(t, ix.Find("pump", 0))
	assert.Empty(t, lookup.New(fieldkit.Kit{}, fieldkit.Catalog{}, nil).Find("pump", 10))
}

func TestOrderOfMerit(t *testing.T) {
	part := func(id, name, kind string, numbers ...fieldkit.Number) fieldkit.Part {
		return fieldkit.Part{ID: id, Name: name, Kind: kind, Numbers: numbers}
	}
	merit := fieldkit.Kit{Parts: fieldkit.ListOf([]fieldkit.Part{
		part("fuzzy", "spindle", "", number("QX3102", fieldkit.MakerNumber, "")),
		part("synonym", "spindle", "k"),
		part("name", "sleeve QX3101", ""),
		part("designation", "spindle", "", number("QX-3101", fieldkit.StandardNumber, "")),
		part("number", "spindle", "", number("QX 3101", fieldkit.ReplacementNumber, "")),
	})}
	cat := fieldkit.Catalog{PartKinds: []fieldkit.PartKind{{ID: "k", Name: "pin", Synonyms: []string{"QX3101"}}}}
	var order []string
	for _, h := range lookup.New(merit, cat, nil).Find("qx3101", 10) {
		if h.Kind == lookup.PartHit {
			order = append(order, h.ID)
		}
	}
	assert.Equal(t, []string{"number", "designation", "name", "synonym", "fuzzy"}, order)
}

func TestPartCarriesItsPositions(t *testing.T) {
	ix := lookup.New(kit, catalog, nil)
	hits := ix.Find("outer bearing", 10)
	require.Len(t, hits, 1, "the part once, its positions not again")
	assert.Equal(t, []string{"outer-left", "outer-right"}, hits[0].Positions)
	assert.Equal(t, "outer-left", hits[0].Position)
	assert.Equal(t, "packsaddle", hits[0].Donor)
	assert.Equal(t, "front axle: outer bearing, left and 1 more place · none in stock", hits[0].Sub)

	assert.Equal(t, []string{"outer-right"}, ix.Find("outer bearing right", 10)[0].Positions, "only where the query asks")
	assert.Equal(t, []string{"outer-left"}, ix.Find("bearing wheel end", 10)[0].Positions, "the position it belongs under")
	hits = ix.Find("left shaft", 10)
	require.NotEmpty(t, hits)
	assert.Equal(t, "shaft", hits[0].ID)
	assert.Contains(t, hits[0].Why, `nothing for "left"`, "it is fitted on the right")
}

func TestWildcardsStayBounded(t *testing.T) {
	ix := lookup.New(kit, catalog, nil)
	hits := ix.Find("????", 10)
	require.Len(t, hits, 1, "numbers of four characters, 387A and 382A, both of one part")
	assert.Equal(t, "inner-bearing", hits[0].ID)
	assert.Len(t, ix.Find("?????????????????", 10), 1, "the VIN")
	assert.Equal(t, "pump", ix.Find("k* *b", 10)[0].ID)
}

func TestLongQueriesAreCut(t *testing.T) {
	ix := lookup.New(kit, catalog, nil)
	assert.NotEmpty(t, ix.Find("pump "+strings.Repeat(" ", lookup.MaxQuery)+"xyzzy", 10))
	assert.NotEmpty(t, ix.Find(strings.Repeat("pump ", 100), 10))
	assert.Empty(t, ix.Find(strings.Repeat("ü", 1000), 10))
}

func TestFindLimit(t *testing.T) {
	ix := lookup.New(kit, catalog, nil)
	all := ix.Find("halden", 100)
	require.Greater(t, len(all), 3)
	assert.Equal(t, all[:3], ix.Find("halden", 3))
}

func checkHits(t *testing.T, hits []lookup.Hit, limit int) {
	t.Helper()
	require.LessOrEqual(t, len(hits), limit)
	require.True(t, sort.SliceIsSorted(hits, func(i, j int) bool { return hits[i].Score > hits[j].Score }))
	seen := map[string]bool{}
	for _, h := range hits {
		require.NotEmpty(t, h.Why)
		require.NotEmpty(t, h.Title)
		require.NotContains(t, h.Why, "")
		what := string(h.Kind) + h.ID
		if h.Designation != nil {
			what += string(h.Designation.Kind())
		}
		require.False(t, seen[what], "shown twice")
		seen[what] = true
		require.Greater(t, h.Score, 0.0)
		require.LessOrEqual(t, h.Score, 100.0)
	}
}

func FuzzFind(f *testing.F) {
	for _, q := range []string{"K-4410 B", "k44?0b pump", "????", "*", "LM50*49 \"", "1-3/8 in bearing", "½", "1/0 mm", "u-joint's", "1990 halden", "\xff\xfe?", "35 mm 35 mm 35 mm", "O0IL1S5B8Z2G6", strings.Repeat("1/", 80), "é̈ß×"} {
		f.Add(q, 5)
	}
	for _, q := range []string{"6207-2RS C3", "62?7", "35x62x14 seal", "-214", "37x12.5?R17", "#10-24", "35 mm bearing"} {
		f.Add(q, 5)
	}
	ix := lookup.New(kit, catalog, data.Shelf())
	f.Fuzz(func(t *testing.T, q string, limit int) {
		hits := ix.Find(q, limit)
		checkHits(t, hits, max(limit, 0))
		require.Equal(t, hits, ix.Find(q, limit))
	})
}
