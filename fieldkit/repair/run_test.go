package repair_test

import (
	"encoding/json"
	"errors"
	"math/rand"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

func TestWays(t *testing.T) {
	g := gate(t)
	for name, c := range map[string]struct {
		rig  fieldkit.Rig
		way  [][2]string
		next string // where it stands then
	}{
		"starts at the first step":             {unknown, nil, "prop"},
		"asks what it does not know":           {unknown, [][2]string{{"prop"}}, "post"},
		"takes the wooden branch silently":     {wooden, [][2]string{{"prop"}}, "saw"},
		"takes the steel branch silently":      {steel, [][2]string{{"prop"}}, "spare"},
		"asks when the option is not foreseen": {stone, [][2]string{{"prop"}}, "post"},
		"an answer leads where it says":        {unknown, [][2]string{{"prop"}, {"post", "a wooden post"}}, "saw"},
		"not knowing leads somewhere safe":     {unknown, [][2]string{{"prop"}, {"post", "I cannot tell"}}, "spare"},
		"an answer without next goes on":       {steel, [][2]string{{"prop"}, {"spare", "No"}}, "tie"},
		"a step jumps":                         {steel, [][2]string{{"prop"}, {"spare", "No"}, {"tie"}}, "swing"},
		"a step for other rigs is passed by":   {wooden, [][2]string{{"prop"}, {"saw"}, {"spare", "Yes"}, {"oil"}, {"screw"}}, "swing"},
		"a step for this rig is shown":         {steel, [][2]string{{"prop"}, {"spare", "Yes"}, {"oil"}, {"screw"}}, "paint"},
		"the last step ends it":                {steel, [][2]string{{"prop"}, {"spare", "No"}, {"tie"}, {"swing"}}, repair.End},
	} {
		t.Run(name, func(t *testing.T) {
			run := follow(t, g, c.rig, c.way...)
			assert.Equal(t, c.next, run.Step)
			assert.Len(t, run.Path, len(c.way))
			v := repair.Current(g, run, c.rig)
			assert.Equal(t, c.next == repair.End, v.Ended)
			if !v.Ended {
				assert.Equal(t, c.next, v.Step.ID)
			}
		})
	}
}

func TestViewSaysWhy(t *testing.T) {
	g := gate(t)
	v := repair.Current(g, follow(t, g, wooden, [2]string{"prop"}), wooden)
	require.Len(t, v.Because, 1)
	assert.Equal(t, "this rig: a wooden post", v.Because[0].Text())
	assert.Equal(t, []string{"post"}, v.Because[0].Traits)
	assert.Equal(t, 2, v.Number)

	v = repair.Current(g, follow(t, g, unknown, [2]string{"prop"}), unknown)
	assert.Empty(t, v.Because, "it was asked, so there is nothing to explain")
	assert.True(t, v.Step.Asks())

	run := follow(t, g, unknown, [2]string{"prop"}, [2]string{"post", "I cannot tell"}, [2]string{"spare", "Yes"}, [2]string{"oil"}, [2]string{"screw"})
	assert.Equal(t, "post: steel", repair.Current(g, run, unknown).OnlyFor)
	assert.Empty(t, repair.Current(g, fieldkit.Run{Guide: g.ID, Step: "paint"}, steel).OnlyFor)

	// The reason is found again after the phone died, from what is kept.
	run = follow(t, g, steel, [2]string{"prop"})
	kept, err := json.Marshal(run)
	require.NoError(t, err)
	var again fieldkit.Run
	require.NoError(t, json.Unmarshal(kept, &again))
	assert.Equal(t, repair.Current(g, run, steel), repair.Current(g, again, steel))
}

func TestRefusals(t *testing.T) {
	g := gate(t)
	run := follow(t, g, unknown, [2]string{"prop"})
	other := g
	other.ID = "another"
	finished := repair.Finish(run, moment(9, 0))
	for name, c := range map[string]struct {
		act  func() (fieldkit.Run, error)
		kind fieldkit.ErrorKind
	}{
		"a second tap":             {func() (fieldkit.Run, error) { return repair.Done(g, run, unknown, "prop") }, fieldkit.Conflict},
		"a step that is not there": {func() (fieldkit.Run, error) { return repair.Done(g, run, unknown, "swim") }, fieldkit.Conflict},
		"a question is not done":   {func() (fieldkit.Run, error) { return repair.Done(g, run, unknown, "post") }, fieldkit.BadInput},
		"an answer not offered":    {func() (fieldkit.Run, error) { return repair.Answer(g, run, unknown, "post", "a hedge") }, fieldkit.BadInput},
		"another repair":           {func() (fieldkit.Run, error) { return repair.Done(other, run, unknown, "post") }, fieldkit.Conflict},
		"a finished repair":        {func() (fieldkit.Run, error) { return repair.Answer(g, finished, unknown, "post", "a steel post") }, fieldkit.Conflict},
		"an answer to a plain step": {func() (fieldkit.Run, error) {
			return repair.Answer(g, repair.Start(g, unknown, "", "r", moment(8, 0)), unknown, "prop", "Yes")
		}, fieldkit.BadInput},
		"the end": {func() (fieldkit.Run, error) {
			return repair.Done(g, fieldkit.Run{Guide: g.ID, Step: repair.End}, unknown, repair.End)
		}, fieldkit.Conflict},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := c.act()
			var told *fieldkit.Error
			require.True(t, errors.As(err, &told), "%v", err)
			assert.Equal(t, c.kind, told.Kind)
			assert.NotEmpty(t, told.Do)
		})
	}
}

func TestFinishAndLeave(t *testing.T) {
	g := gate(t)
	run := follow(t, g, unknown)
	assert.True(t, repair.Open(run))
	done := repair.Finish(run, moment(9, 30))
	assert.False(t, repair.Open(done))
	assert.False(t, done.Left)
	assert.Equal(t, "2026-05-14T09:30:07Z", string(must(done.Finished.MarshalText())))
	left := repair.Leave(run, moment(9, 30))
	assert.False(t, repair.Open(left))
	assert.True(t, left.Left)
	assert.Equal(t, done, repair.Leave(done, moment(10, 0)), "what is closed stays as it was")
	assert.Equal(t, done, repair.Back(g, done))
}

func must(b []byte, err error) []byte {
	if err != nil {
		panic(err)
	}
	return b
}

// rewritten is the guide after an update of the program took steps out; what led
// to them goes on to the next in the list.
func rewritten(g repair.Guide, gone ...string) repair.Guide {
	unless := func(next string) string {
		if slices.Contains(gone, next) {
			return ""
		}
		return next
	}
	var steps []repair.Step
	for _, s := range g.Steps {
		if slices.Contains(gone, s.ID) {
			continue
		}
		s.Next = unless(s.Next)
		s.Options = slices.Clone(s.Options)
		for i := range s.Options {
			s.Options[i].Next = unless(s.Options[i].Next)
		}
		steps = append(steps, s)
	}
	g.Steps = steps
	return g
}

func TestResumeAfterTheGuideChanged(t *testing.T) {
	g := gate(t)
	run := follow(t, g, steel, [2]string{"prop"}, [2]string{"spare", "Yes"}, [2]string{"oil"})
	require.Equal(t, "screw", run.Step)

	v := repair.Current(rewritten(g, "screw"), run, steel)
	assert.Equal(t, "oil", v.Step.ID, "the last step done that is still there")
	assert.Contains(t, v.Moved, "rewritten")
	assert.Equal(t, 3, v.Number)

	v = repair.Current(rewritten(g, "screw", "oil"), run, steel)
	assert.Equal(t, "spare", v.Step.ID)

	small := rewritten(g, "screw", "oil", "spare", "prop")
	v = repair.Current(small, run, steel)
	assert.Equal(t, "saw", v.Step.ID, "the first step this rig is shown")
	assert.Contains(t, v.Moved, "first step")
	assert.Equal(t, 1, v.Number)

	// Going on from there keeps only the steps that exist.
	next, err := repair.Done(rewritten(g, "screw"), run, steel, "oil")
	require.NoError(t, err)
	assert.Equal(t, []string{"prop", "spare", "oil"}, next.Path)
	assert.Equal(t, "paint", next.Step)
	assert.Empty(t, repair.Current(rewritten(g, "screw"), next, steel).Moved)

	// A step that is still there is where it goes on, whatever went before it.
	assert.Equal(t, "screw", repair.Current(rewritten(g, "oil"), run, steel).Step.ID)
	assert.Equal(t, "spare", repair.Back(rewritten(g, "oil"), run).Step)
}

// toTheEnd follows a guide, choosing the answer pick gives, and returns every run
// on the way.
func toTheEnd(t *testing.T, g repair.Guide, rig fieldkit.Rig, pick func(n int) int) []fieldkit.Run {
	t.Helper()
	run := repair.Start(g, rig, "", "run", moment(8, 0))
	runs := []fieldkit.Run{run}
	for run.Step != repair.End {
		require.LessOrEqual(t, len(runs), len(g.Steps), "more steps done than there are")
		s, ok := g.Step(run.Step)
		require.True(t, ok)
		before := repair.Current(g, run, rig)
		var err error
		if s.Asks() {
			run, err = repair.Answer(g, run, rig, s.ID, s.Options[pick(len(s.Options))].Answer)
		} else {
			run, err = repair.Done(g, run, rig, s.ID)
		}
		require.NoError(t, err)
		after := repair.Current(g, run, rig)
		require.LessOrEqual(t, after.About, before.About, "the way foretold grew")
		require.GreaterOrEqual(t, after.Number, before.Number)
		runs = append(runs, run)
	}
	return runs
}

var testRigs = []fieldkit.Rig{unknown, wooden, steel, stone}

func TestRunLaws(t *testing.T) {
	g := gate(t)
	r := rand.New(rand.NewSource(1))
	for range 200 {
		rig := testRigs[r.Intn(len(testRigs))]
		runs := toTheEnd(t, g, rig, r.Intn)
		last := runs[len(runs)-1]
		assert.True(t, repair.Current(g, last, rig).Ended)
		for i := len(runs) - 1; i > 0; i-- {
			assert.Equal(t, runs[i-1], repair.Back(g, runs[i]), "back undoes what was done")
		}
		assert.Equal(t, runs[0], repair.Back(g, runs[0]), "there is nothing before the first step")
		// A run kept anywhere on the way goes on to an end.
		for _, kept := range runs {
			for _, gone := range append([]string{""}, kept.Path...) {
				small := rewritten(g, gone, kept.Step)
				for v := repair.Current(small, kept, rig); !v.Ended; v = repair.Current(small, kept, rig) {
					before := len(kept.Path)
					var err error
					if v.Step.Asks() {
						kept, err = repair.Answer(small, kept, rig, v.Step.ID, v.Step.Options[0].Answer)
					} else {
						kept, err = repair.Done(small, kept, rig, v.Step.ID)
					}
					require.NoError(t, err)
					require.LessOrEqual(t, len(kept.Path), before+1)
				}
			}
		}
	}
}

// Whatever a run holds and whatever is asked of it, nothing panics and the run
// handed in stays as it was.
func TestRandomAnswersNeverPanic(t *testing.T) {
	g := gate(t)
	r := rand.New(rand.NewSource(2))
	words := []string{"", "prop", "post", "saw", "spare", "tie", "oil", "screw", "paint", "swing", repair.End, "gone", "Yes", "No", "I cannot tell", "a wooden post"}
	word := func() string { return words[r.Intn(len(words))] }
	for range 2000 {
		rig := testRigs[r.Intn(len(testRigs))]
		run := fieldkit.Run{Guide: g.ID, Step: word()}
		for range r.Intn(4) {
			run.Path = append(run.Path, word())
		}
		if r.Intn(2) == 0 {
			run.Answers = map[string]string{word(): word()}
		}
		before, err := json.Marshal(run)
		require.NoError(t, err)
		_ = repair.Current(g, run, rig)
		_, _ = repair.Done(g, run, rig, word())
		_, _ = repair.Answer(g, run, rig, word(), word())
		_ = repair.Back(g, run)
		_ = repair.FailureFrom(g, run, fieldkit.Kit{}, moment(9, 0), "f")
		after, err := json.Marshal(run)
		require.NoError(t, err)
		require.Equal(t, string(before), string(after), "the run handed in was changed")
	}
}
