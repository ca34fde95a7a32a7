package app

import (
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/triage"
)

func triageAt(t *testing.T, address string) triageView {
	t.Helper()
	_, raw, _ := strings.Cut(address, "?")
	q, err := url.ParseQuery(raw)
	require.NoError(t, err)
	return viewTriage(data.DemoKit(), data.Catalog(), data.Guides(), data.Triage(), fieldkit.Date{}, q.Get)
}

// The stop signs come first, whatever else the address says; after them one tap leads
// on, and each tap's address leads to the next screen and back.
func TestTriageAddresses(t *testing.T) {
	v := triageAt(t, "/repair/triage?rig=wicket&sign=howl")
	assert.Equal(t, stopSigns, v.stage)
	v = triageAt(t, v.at("stop", "fuel"))
	assert.Equal(t, stopNow, v.stage)
	assert.Equal(t, "Wicket", v.rig.Name)
	assert.NotEmpty(t, v.stop.Now)
	assert.Equal(t, "fuel-leak", v.stopped[0].ID)
	v = triageAt(t, v.at("clear", "yes"))
	assert.Equal(t, symptoms, v.stage)
	v = triageAt(t, v.at("clear", "yes", "sign", "howl"))
	require.Equal(t, questions, v.stage)
	assert.Equal(t, 1, v.Number)

	first := v.Question
	next := triageAt(t, v.with(first.Options[0].ID))
	require.Equal(t, questions, next.stage)
	assert.Equal(t, 2, next.Number)
	assert.NotEqual(t, first.ID, next.Question.ID)
	back := triageAt(t, next.before())
	assert.Equal(t, first.ID, back.Question.ID)
	assert.Equal(t, symptoms, triageAt(t, back.before()).stage)
	assert.Equal(t, causes, triageAt(t, next.address(next.answers, true)).stage)

	for v.stage == questions {
		require.Less(t, len(v.answers), triage.MostQuestions)
		v = triageAt(t, v.with("")) // I don't know
	}
	assert.Equal(t, causes, v.stage)
	assert.NotEmpty(t, v.Ranked)
	assert.Equal(t, "Wicket · A howl, whine or growl · 6 answers", v.words())
}

func TestTriageFromAPosition(t *testing.T) {
	v := triageAt(t, "/repair/triage?position=wicket-axle-u-joint-left&clear=yes&sign=none")
	require.Equal(t, questions, v.stage)
	assert.Equal(t, "Wicket", v.rig.Name)
	require.NotEmpty(t, v.Ranked)
	assert.Equal(t, "wicket-axle-u-joint-left", v.Ranked[0].Position.ID)
	assert.NotContains(t, v.at(), "rig=", "the position says which rig")
}

// A talk goes on for two days, and what is no talk is not offered.
func TestTriageUnderWay(t *testing.T) {
	on, err := fieldkit.ParseDate("2026-11-20")
	require.NoError(t, err)
	text := "2026-11-20\n/repair/triage?clear=yes&sign=howl\nWicket · A howl"
	address, words, ok := triageUnderWay(text, on)
	assert.True(t, ok)
	assert.Equal(t, "/repair/triage?clear=yes&sign=howl", address)
	assert.Equal(t, "Wicket · A howl", words)
	_, _, ok = triageUnderWay(text, on.AddDays(1))
	assert.True(t, ok)
	for name, c := range map[string]struct {
		text string
		day  fieldkit.Date
	}{
		"old":       {text, on.AddDays(2)},
		"tomorrow":  {text, on.AddDays(-1)},
		"none":      {"", on},
		"rubbish":   {"a\nb\nc", on},
		"elsewhere": {on.String() + "\nhttps://else.example/repair/triage?sign=howl\nc", on},
		"no day":    {"x\n/repair/triage?a=b\nc", on},
	} {
		_, _, ok := triageUnderWay(c.text, c.day)
		assert.False(t, ok, name)
	}
}

func TestLikelyWords(t *testing.T) {
	for p, want := range map[float64]string{0.99: "more than 9 in 10", 0.94: "about 9 in 10", 0.6: "about 6 in 10", 0.06: "about 1 in 10", 0.049: "less than 1 in 20", 0: "less than 1 in 20"} {
		assert.Equal(t, want, likelyWords(p))
	}
}

// A repair that the crew wrote itself stands beside the program's, where it mends the
// part that may have failed.
func TestTriageOffersOwnRepairs(t *testing.T) {
	k := data.DemoKit()
	k.OwnRepairs = []fieldkit.OwnRepair{
		{ID: "ours", Title: "Hub swap as we do it", PartKinds: []string{"unit-bearing"}, Steps: []fieldkit.OwnStep{{Text: "Chock the wheels."}}},
		{ID: "other", Title: "Lamp swap", PartKinds: []string{"bulb"}, Steps: []fieldkit.OwnStep{{Text: "Lamp off."}}},
	}
	q := url.Values{"rig": {"wicket"}, "clear": {"yes"}, "sign": {"howl"}, "list": {"yes"}}
	v := viewTriage(k, data.Catalog(), guidesOf(k), data.Triage(), fieldkit.Date{}, q.Get)
	offered := 0
	for _, f := range v.Ranked {
		if f.Cause != "unit-bearing" {
			assert.Empty(t, f.Own, f.Cause)
			continue
		}
		require.Len(t, f.Own, 1)
		assert.Equal(t, "ours", f.Own[0].ID)
		offered++
	}
	assert.Equal(t, 1, offered)
}
