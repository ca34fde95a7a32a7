package fit

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

// drawPuzzle makes a part with up to n look-alikes and checks; some showings are not
// known.
func drawPuzzle(r *rand.Rand, n, checks int, known float64) Puzzle {
	p := Puzzle{Wanted: "ours"}
	for i := range 1 + r.IntN(n) {
		p.Alikes = append(p.Alikes, fmt.Sprint("alike ", i))
	}
	for k := range 1 + r.IntN(checks) {
		c := Check{Name: fmt.Sprint("check ", k), By: Ways[r.IntN(len(Ways))]}
		for range 1 + len(p.Alikes) {
			var v fieldkit.Value
			if r.Float64() < known {
				v = fieldkit.Value{Dim: fieldkit.DimCount, Base: int64(r.IntN(3)+1) * 1_000_000}
			}
			c.Shows = append(c.Shows, v)
		}
		p.Checks = append(p.Checks, c)
	}
	return p
}

// The set of checks against trying every set: nothing smaller tells the part from as
// many look-alikes, and none needs fewer things that the person has not.
func TestSeparateAgainstBruteForce(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for trial := range 1500 {
		p := drawPuzzle(r, 6, 9, 0.7)
		have := slices.Clone(Bare)
		s := p.Separate(have)
		tells := func(list []Check, i int) bool {
			return slices.ContainsFunc(list, func(c Check) bool { return c.tells(i + 1) })
		}
		lacking := func(list []Check) (n int) {
			for _, c := range list {
				if !slices.Contains(have, c.By) {
					n++
				}
			}
			return n
		}
		for i, name := range p.Alikes {
			require.Equal(t, tells(p.Checks, i), tells(s.Checks, i), "trial %d", trial)
			require.Equal(t, !tells(p.Checks, i), slices.Contains(s.Undecided, name))
		}
		for choice := range 1 << len(p.Checks) {
			var list []Check
			for k, c := range p.Checks {
				if choice>>k&1 == 1 {
					list = append(list, c)
				}
			}
			enough := true
			for i := range p.Alikes {
				enough = enough && (tells(list, i) || !tells(p.Checks, i))
			}
			if !enough {
				continue
			}
			worse := lacking(list) > lacking(s.Checks) || lacking(list) == lacking(s.Checks) && len(list) >= len(s.Checks)
			require.True(t, worse, "trial %d: %v beats %v", trial, list, s.Checks)
		}
		require.Equal(t, s, p.Separate(have), "the same again")
	}
}

// Whatever part is in hand, true answers prove it if it is the one wanted and every
// look-alike can be told, refute it if it is one that can be told, and never the
// other way round.
func TestYardFindsTheTruth(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	ended := map[Standing]int{}
	for range 3000 {
		p := drawPuzzle(r, 6, 8, 0.8)
		truth := r.IntN(1 + len(p.Alikes))
		// What the part in hand shows where it is not known: something.
		shows := func(c Check) fieldkit.Value {
			if v := c.Shows[truth]; !v.IsZero() {
				return v
			}
			return fieldkit.Value{Dim: fieldkit.DimCount, Base: int64(r.IntN(3)+1) * 1_000_000}
		}
		var answers []Answer
		state := p.Ask(nil, Ways)
		for state.Standing == Open {
			require.Less(t, len(answers), len(p.Checks))
			require.NotEmpty(t, state.Options)
			found := shows(*state.Next)
			answers = append(answers, Answer{state.Next.Name, state.Next.By, found})
			before := len(state.Left)
			state = p.Ask(answers, Ways)
			require.LessOrEqual(t, len(state.Left), before)
		}
		ended[state.Standing]++
		if truth == 0 {
			require.NotEqual(t, Refuted, state.Standing)
			separable := len(p.Separate(Ways).Undecided) == 0
			require.Equal(t, separable, state.Standing == Proven)
			continue
		}
		require.NotEqual(t, Proven, state.Standing)
		if slices.ContainsFunc(p.Checks, func(c Check) bool { return c.tells(truth) }) {
			require.Equal(t, Refuted, state.Standing)
		}
	}
	for _, s := range []Standing{Proven, Refuted, Undecided} {
		assert.Greater(t, ended[s], 50, s)
	}
}

// The question asked is the one that leaves fewest to be expected, of those that can
// be done.
func TestNextNarrowsMost(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	for range 1500 {
		p := drawPuzzle(r, 6, 8, 1)
		state := p.Ask(nil, Bare)
		if state.Next == nil {
			continue
		}
		left := func(c Check) (sum int) {
			for i := range c.Shows {
				for j := range c.Shows {
					if c.Shows[i] == c.Shows[j] {
						sum++
					}
				}
			}
			return sum
		}
		for _, c := range p.Checks {
			if slices.Contains(Bare, c.By) && !slices.ContainsFunc(c.Shows[1:], func(v fieldkit.Value) bool { return v != c.Shows[0] }) {
				continue // it does not tell ours from any
			}
			if slices.Contains(Bare, c.By) {
				require.GreaterOrEqual(t, left(c), left(*state.Next))
			}
		}
	}
}

func TestPuzzleOf(t *testing.T) {
	s := pump(t, true)
	m := func(name, text, how string) fieldkit.Measurement {
		v, err := fieldkit.ParseValue(text)
		require.NoError(t, err)
		return fieldkit.Measurement{Name: name, Value: v, How: how}
	}
	wanted := fieldkit.Part{Name: "our pump", Measurements: []fieldkit.Measurement{m("bolts", "4", "counted"), m("spacing", "80 mm", "caliper"), m("tank", "remote", "by eye")},
		LookAlikes: []fieldkit.LookAlike{
			{Name: "the six's", Tell: "its own tank", Tells: []fieldkit.Tell{{What: "tank", By: "eye", Other: fieldkit.Value{Dim: fieldkit.DimText, Text: "integral"}}}},
			{Name: "the van's", Tell: "wider", Part: "van"},
			{Name: "the tractor's", Tell: "rattles when turned by hand"},
			{Name: "a copy", Tell: "none known", Part: "copy"},
		}}
	parts := map[string]fieldkit.Part{
		"van":  {Measurements: []fieldkit.Measurement{m("bolts", "4", "counted"), m("spacing", "95 mm", "caliper")}},
		"copy": {Measurements: []fieldkit.Measurement{m("bolts", "4", "counted")}},
	}
	find := func(id string) (fieldkit.Part, bool) { p, ok := parts[id]; return p, ok }
	p := PuzzleOf(s, wanted, find)
	sep := p.Separate(Ways)
	var names []string
	for _, c := range sep.Checks {
		names = append(names, c.Name+" by "+string(c.By))
	}
	// The one line of a look-alike is the question where nothing else tells it.
	assert.ElementsMatch(t, []string{"tank by eye", "spacing by caliper", "the tractor's by eye", "a copy by eye"}, names)
	assert.Empty(t, sep.Undecided)
	assert.Equal(t, []Way{ByCaliper}, p.Separate(Bare).Lacking)

	state := p.Ask([]Answer{{"tank", ByEye, words("remote")}, {"spacing", ByCaliper, fieldkit.Value{Dim: fieldkit.DimLength, Base: 95_000_000}}}, Ways)
	assert.Equal(t, Refuted, state.Standing)
	assert.Equal(t, fieldkit.Seen, state.Proof)
	// Something else than ours refutes it, whatever it is.
	assert.Equal(t, Refuted, p.Ask([]Answer{{"tank", ByEye, SomethingElse}}, Ways).Standing)
	// What cannot be told is not asked again.
	state = p.Ask([]Answer{{"tank", ByEye, fieldkit.Value{}}}, Ways)
	assert.Equal(t, Open, state.Standing)
	assert.NotEqual(t, "tank", state.Next.Name)
	// Without the tools it cannot be decided.
	state = p.Ask([]Answer{{"tank", ByEye, words("remote")}, {"the tractor's", ByEye, words(LikeOurs)}, {"a copy", ByEye, words(LikeOurs)}}, Bare)
	assert.Equal(t, Undecided, state.Standing)
	assert.Equal(t, []string{"the van's"}, state.Left)
	assert.Equal(t, Undecided, Puzzle{Wanted: "alone"}.Ask(nil, Ways).Standing)
}

func TestReadTell(t *testing.T) {
	tell, err := ReadTell("splines: 30, not 35, by counting", fieldkit.Metric)
	require.NoError(t, err)
	assert.Equal(t, fieldkit.Tell{What: "splines", By: "count", Wanted: fieldkit.Value{Dim: fieldkit.DimCount, Base: 30_000_000}, Other: fieldkit.Value{Dim: fieldkit.DimCount, Base: 35_000_000}}, tell)
	assert.Equal(t, "splines: 30, not 35, by count", TellLine(tell, fieldkit.Metric))
	tell, err = ReadTell("cover: not oval", fieldkit.Metric)
	require.NoError(t, err)
	assert.True(t, tell.Wanted.IsZero())
	for line, what := range map[string]string{
		"splines":                   "does not say what to look at",
		": 30, not 35":              "does not say what to look at",
		"splines: 30":               "does not say what the look-alike shows",
		"splines: 30, not 35 mm":    "cannot be compared",
		"splines: 30, not , by eye": "does not say what the look-alike shows",
		"a: 1, not 2, by magic":     "no way to check",
	} {
		_, err := ReadTell(line, fieldkit.Metric)
		assert.ErrorContains(t, err, what, line)
	}
}
