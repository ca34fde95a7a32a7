package triage_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/triage"
)

// view weighs a talk about the demo kit, or another, with the book of the program.
func view(kit fieldkit.Kit, talk triage.Talk) triage.View {
	return triage.Open(data.Triage(), data.Guides(), kit, data.Catalog(), talk).View()
}

// rigsOfEveryKind are random rigs: any option of any trait, or none said.
func rigsOfEveryKind(random *rand.Rand, n int) (rigs []fieldkit.Rig) {
	for i := range n {
		rig := fieldkit.Rig{ID: "rig" + strconv.Itoa(i), Traits: map[string]string{}}
		for _, t := range data.Catalog().Traits {
			if k := random.IntN(len(t.Options) + 1); k < len(t.Options) {
				rig.Traits[t.ID] = t.Options[k]
			}
		}
		rigs = append(rigs, rig)
	}
	return rigs
}

// Whatever is answered, there are at most six questions, none twice, none for another
// kind of rig; the list is never empty, sorted, its probabilities below one in sum,
// and holds nothing that the rig cannot have.
func TestLawsOnAnyRig(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 1))
	book := data.Triage()
	aboutTheRig := 0
	for _, rig := range rigsOfEveryKind(random, 60) {
		kit := fieldkit.Kit{Rigs: []fieldkit.Rig{rig}}
		talk := triage.Talk{Rig: rig.ID, Sign: book.Symptoms[random.IntN(len(book.Symptoms))].ID}
		for {
			look := triage.Open(book, data.Guides(), kit, data.Catalog(), talk)
			v := look.View()
			require.NotEmpty(t, v.Ranked)
			require.Len(t, v.Said, len(talk.Answers))
			sum := 0.0
			for i, f := range v.Ranked {
				sum += f.Probability
				assert.False(t, math.IsNaN(f.Probability))
				assert.True(t, i == 0 || f.Probability <= v.Ranked[i-1].Probability)
				assert.NotEqual(t, repair.Fails, f.Guide.Suits.On(rig), "%s on %v", f.Guide.ID, rig.Traits)
				k := slices.IndexFunc(book.Causes, func(c triage.Cause) bool { return c.ID == f.Cause })
				assert.NotEqual(t, repair.Fails, book.Causes[k].Suits.On(rig), "%s on %v", f.Cause, rig.Traits)
				never := book.Causes[k].Never
				assert.False(t, len(never) > 0 && never.On(rig) == repair.Holds, "%s on %v", f.Cause, rig.Traits)
			}
			assert.LessOrEqual(t, sum, 1+1e-9)
			if v.Done {
				break
			}
			require.Less(t, len(talk.Answers), triage.MostQuestions)
			q := v.Question
			assert.NotEqual(t, repair.Fails, q.Only.On(rig), q.ID)
			assert.False(t, slices.ContainsFunc(talk.Answers, func(a triage.Answer) bool { return a.Question == q.ID }), q.ID)
			if strings.HasPrefix(q.ID, "rig-") {
				aboutTheRig++
				assert.Empty(t, rig.Traits[strings.TrimPrefix(q.ID, "rig-")], "what is known is not asked")
			}
			answer := triage.Answer{Question: q.ID}
			if k := random.IntN(len(q.Options) + 1); k < len(q.Options) {
				answer.Option = q.Options[k].ID
			}
			talk.Answers = append(talk.Answers, answer)
		}
	}
	assert.Positive(t, aboutTheRig, "how a rig is built is asked where it is not known and decides")
}

// What a rig has decides, by rules of the trade: no tapered bearing between unit
// bearings and semi-float shafts, no caliper between drums, no ram without one.
func TestWhatARigCannotHave(t *testing.T) {
	for cause, traits := range map[string]map[string]string{
		"wheel-bearing-front":  {"front-wheel-bearings": "unit bearing"},
		"wheel-bearing-rear":   {"rear-axle": "semi-float"},
		"unit-bearing":         {"front-wheel-bearings": "tapered set"},
		"axle-shaft-rear-full": {"rear-axle": "semi-float"},
		"axle-shaft-rear-semi": {"rear-axle": "full-float"},
		"brake-caliper":        {"front-brakes": "drum", "rear-brakes": "drum"},
		"wheel-cylinder":       {"rear-brakes": "disc"},
		"steering-ram":         {"steering-assist": "pump and box"},
		"steering-pump":        {"steering-assist": "none"},
		"fan-electric":         {"fan": "viscous clutch"},
		"fan-clutch":           {"fan": "electric"},
		"locking-hub":          {"front-hub": "drive flange"},
		"drive-flange":         {"front-hub": "locking hub"},
		"clutch-hydraulics":    {"gearbox": "automatic"},
		"u-joint-axle":         {"front-axle": "independent"},
		"transfer-linkage":     {"drive": "rear drive"},
	} {
		book := data.Triage()
		k := slices.IndexFunc(book.Causes, func(c triage.Cause) bool { return c.ID == cause })
		require.GreaterOrEqual(t, k, 0, cause)
		most := ""
		for _, s := range book.Symptoms {
			if most == "" || book.Causes[k].Signs[s.ID] > book.Causes[k].Signs[most] {
				most = s.ID
			}
		}
		listed := func(traits map[string]string) bool {
			_, ok := stands(view(fieldkit.Kit{Rigs: []fieldkit.Rig{{ID: "r", Traits: traits}}}, triage.Talk{Rig: "r", Sign: most}), cause)
			return ok
		}
		assert.True(t, listed(nil), "%s of a rig of which nothing is known", cause)
		assert.False(t, listed(traits), "%s on %v", cause, traits)
	}
}

// Who knows nothing at all still gets a list, from every symptom and every position.
func TestDoNotKnowToEverything(t *testing.T) {
	kit := data.DemoKit()
	talks := []triage.Talk{{Rig: "hobnail"}, {Rig: "no such rig"}}
	for _, s := range data.Triage().Symptoms {
		talks = append(talks, triage.Talk{Rig: "wicket", Sign: s.ID})
	}
	for i, p := range kit.Positions.All() {
		if i%5 == 0 {
			talks = append(talks, triage.Talk{Position: p.ID})
		}
	}
	for _, talk := range talks {
		first := view(kit, talk)
		v := first
		for !v.Done {
			talk.Answers = append(talk.Answers, triage.Answer{Question: v.Question.ID})
			require.LessOrEqual(t, len(talk.Answers), triage.MostQuestions)
			v = view(kit, talk)
		}
		require.GreaterOrEqual(t, len(v.Ranked), 3)
		for i, f := range v.Ranked {
			assert.Equal(t, first.Ranked[i].Cause, f.Cause, "'I don't know' changes nothing")
			assert.Equal(t, first.Ranked[i].Probability, f.Probability)
			assert.Empty(t, f.Against)
		}
	}
}

// The order of the answers does not matter, to the last digit.
func TestOrderOfAnswersDoesNotMatter(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 1))
	kit, book := data.DemoKit(), data.Triage()
	for range 60 {
		talk := triage.Talk{Rig: []string{"hobnail", "wicket"}[random.IntN(2)], Sign: book.Symptoms[random.IntN(len(book.Symptoms))].ID}
		for _, i := range random.Perm(len(book.Questions))[:triage.MostQuestions] {
			q := book.Questions[i]
			talk.Answers = append(talk.Answers, triage.Answer{Question: q.ID, Option: q.Options[random.IntN(len(q.Options))].ID})
		}
		want := view(kit, talk).Ranked
		random.Shuffle(len(talk.Answers), func(i, j int) { talk.Answers[i], talk.Answers[j] = talk.Answers[j], talk.Answers[i] })
		got := view(kit, talk).Ranked
		require.Len(t, got, len(want))
		for i := range want {
			assert.Equal(t, want[i].Cause, got[i].Cause)
			assert.Equal(t, want[i].Probability, got[i].Probability)
		}
	}
}

// stands is the probability of a cause, 0 if it is not listed.
func stands(v triage.View, cause string) (triage.Found, bool) {
	i := slices.IndexFunc(v.Ranked, func(f triage.Found) bool { return f.Cause == cause })
	if i < 0 {
		return triage.Found{}, false
	}
	return v.Ranked[i], true
}

// pumpRig is a rig with a steering pump and a hose, driven 10 000 km on trips.
func pumpRig(pumpAt fieldkit.Distance, failures int) fieldkit.Kit {
	kit := fieldkit.Kit{
		Rigs:    []fieldkit.Rig{{ID: "r", Odometer: 120_000 * fieldkit.Kilometre, Traits: map[string]string{"steering-assist": "pump and box"}}},
		Systems: []fieldkit.Assembly{{ID: "s", Rig: "r"}},
		Positions: fieldkit.ListOf([]fieldkit.Position{
			{ID: "pump", System: "s", Kind: "steering-pump", Quantity: 1, FittedAt: pumpAt},
			{ID: "hose", System: "s", Kind: "steering-hose", Quantity: 1},
		}),
		Trips: []fieldkit.Trip{{ID: "t", Rigs: []string{"r"}, Distance: 10_000 * fieldkit.Kilometre, Terrain: fieldkit.RoughTrack, Done: true}},
	}
	for i := range failures {
		kit.Failures = kit.Failures.With(fieldkit.Failure{ID: "f" + strconv.Itoa(i), Rig: "r", Trip: "t", Position: "pump"})
	}
	return kit
}

// Each failure in the log lifts its part's cause, and the cause says so.
func TestTheLogLiftsACause(t *testing.T) {
	talk := triage.Talk{Rig: "r", Sign: "heavy"}
	last := 0.0
	for n := range 5 {
		f, ok := stands(view(pumpRig(60_000*fieldkit.Kilometre, n), talk), "steering-pump")
		require.True(t, ok)
		assert.Greater(t, f.Probability, last, "%d failures", n)
		last = f.Probability
		said := []string{"", "failed once in your log", "failed twice in your log", "failed 3 times in your log", "failed 4 times in your log"}[n]
		if n > 0 {
			assert.Contains(t, f.For, said)
		}
		assert.Equal(t, "pump", f.Position.ID)
	}
}

// What failed on the trip under way counts before that is over.
func TestTheTripUnderWayCounts(t *testing.T) {
	talk := triage.Talk{Rig: "r", Sign: "heavy"}
	kit := pumpRig(60_000*fieldkit.Kilometre, 1)
	before, _ := stands(view(kit, talk), "steering-pump")
	kit.Trips = append(kit.Trips, fieldkit.Trip{ID: "now", Rigs: []string{"r"}, Distance: 100 * fieldkit.Kilometre})
	kit.Failures = kit.Failures.With(fieldkit.Failure{ID: "again", Rig: "r", Trip: "now", Position: "pump"})
	after, _ := stands(view(kit, talk), "steering-pump")
	assert.Greater(t, after.Probability, before.Probability)
	assert.Contains(t, after.For, "failed twice in your log")

	// One that names no trip belongs to the trip of its day.
	day := fieldkit.Date{Year: 2026, Month: 5, Day: 2}
	kit.Trips[1].Start, kit.Trips[1].Days = day, 3
	kit.Failures = kit.Failures.With(fieldkit.Failure{ID: "once more", Rig: "r", On: day.AddDays(1), Position: "pump"})
	after, _ = stands(view(kit, talk), "steering-pump")
	assert.Contains(t, after.For, "failed 3 times in your log")
}

// The older a part that ages, the likelier it is the cause.
func TestAgeLiftsACause(t *testing.T) {
	last := 0.0
	for _, at := range []fieldkit.Distance{119_000, 100_000, 60_000, 20_000, 1_000} {
		f, ok := stands(view(pumpRig(at*fieldkit.Kilometre, 0), triage.Talk{Rig: "r", Sign: "heavy"}), "steering-pump")
		require.True(t, ok)
		assert.Greater(t, f.Probability, last, "fitted at %d km", at)
		last = f.Probability
		assert.Regexp(t, `age: \d+ km since it was fitted`, f.For[len(f.For)-1])
	}
}

// From a position: what replaces its part comes first, at that position.
func TestFromAPosition(t *testing.T) {
	v := view(data.DemoKit(), triage.Talk{Position: "hobnail-axle-u-joint-right"})
	require.NotEmpty(t, v.Ranked)
	assert.Contains(t, []string{"u-joint-axle", "axle-shaft-front"}, v.Ranked[0].Guide.ID)
	assert.Equal(t, "hobnail-axle-u-joint-right", v.Ranked[0].Position.ID)
	assert.Contains(t, v.Ranked[0].For, "it sits where you look")
}

// The posterior by hand: two causes, one question. Bayes' rule on a sheet of paper.
func TestBayesByHand(t *testing.T) {
	book := triage.Book{
		Symptoms:  []triage.Symptom{{ID: "s", Sense: "hear", Says: "s"}},
		Questions: []triage.Question{{ID: "q", Options: []triage.Option{{ID: "yes", Usual: 50}, {ID: "no", Usual: 50}}}},
		Causes: []triage.Cause{
			{ID: "one", Repair: "winch", Besides: 300, Signs: map[string]int{"s": 100}, Answers: map[string]map[string]int{"q": {"yes": 90}}},
			{ID: "two", Repair: "winch", Besides: 100, Signs: map[string]int{"s": 100}},
		},
	}
	look := triage.Open(book, data.Guides(), fieldkit.Kit{}, data.Catalog(), triage.Talk{Sign: "s", Answers: []triage.Answer{{Question: "q", Option: "no"}}})
	// 3 to 1 before; "no" is answered in 0.94 × 10 % + 0.06 / 2 = 12.4 % of the first
	// and 0.94 × 50 % + 3 % = 50 % of the second: 0.372 to 0.5.
	ranked := look.View().Ranked
	assert.Equal(t, "two", ranked[0].Cause)
	assert.InDelta(t, 0.5/(0.5+0.372), ranked[0].Probability, 1e-12)
}
