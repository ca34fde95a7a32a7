package main

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The first text is what go1.26 prints when the time is up in the middle of a call,
// the others are findings, as go help testflag and go.dev/doc/security/fuzz show them.
func TestEndOfFuzzingIsNoFinding(t *testing.T) {
	for name, c := range map[string]struct {
		said string
		want bool
	}{
		"the time is up": {`fuzz: elapsed: 3s, execs: 8551 (0/sec), new interesting: 9 (total: 632)
--- FAIL: FuzzFind (3.08s)
    context deadline exceeded
FAIL
exit status 1
`, true},
		"a finding": {`--- FAIL: FuzzReverse (0.02s)
    --- FAIL: FuzzReverse (0.00s)
        reverse_test.go:20: Reverse produced invalid UTF-8 string "\x9c\xdd"

    Failing input written to testdata/fuzz/FuzzReverse/af69258a12129d6c
FAIL
`, false},
		"a finding that speaks of a deadline": {`--- FAIL: FuzzLoad (0.02s)
    --- FAIL: FuzzLoad (0.00s)
        load_test.go:20: context deadline exceeded

    Failing input written to testdata/fuzz/FuzzLoad/af69258a12129d6c
FAIL
`, false},
		"does not compile": {"FAIL\tp [build failed]\nFAIL\n", false},
		"a worker that died": {`--- FAIL: FuzzLoad (1.02s)
    fuzzing process hung or terminated unexpectedly: exit status 2
FAIL
`, false},
	} {
		assert.Equal(t, c.want, endedByItsClock(c.said), name)
	}
}

func TestOptions(t *testing.T) {
	o, err := readOptions([]string{"-only", "vet,test", "-skip", "test", "-v"})
	require.NoError(t, err)
	assert.True(t, o.wants("vet"))
	assert.False(t, o.wants("test"), "skip wins")
	assert.False(t, o.wants("fuzz"))
	assert.True(t, o.loud)
	for _, args := range [][]string{{"-only", "everything"}, {"now"}, {"-fast"}} {
		_, err := readOptions(args)
		require.Error(t, err, args)
		assert.Contains(t, err.Error(), "stages are tools, format, vet")
	}
}

// Every stage has a limit, and its name is used once.
func TestStagesAreBounded(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range stages {
		assert.Greater(t, s.limit, time.Duration(0), s.name)
		assert.False(t, seen[s.name], s.name)
		seen[s.name] = true
	}
}

func TestCountOfStages(t *testing.T) {
	var out bytes.Buffer
	v := &verifier{out: &out}
	runs := func(result outcome) stage {
		return stage{"stage", time.Minute, nothing, func(context.Context, opts) outcome { return result }}
	}
	v.run(context.Background(), runs(outcome{}))                                                    // 1 passed
	v.run(context.Background(), runs(outcome{tests: tally{passed: 5, skipped: 2}}))                 // 5 passed
	v.run(context.Background(), runs(outcome{tests: tally{passed: 3, failed: 2}, output: "why"}))   // 3 and 2
	v.run(context.Background(), runs(outcome{faults: []string{"broken"}}))                          // 1 failed
	v.run(context.Background(), runs(outcome{tests: tally{passed: 1}, faults: []string{"broken"}})) // 1 and 1
	assert.Equal(t, []int{10, 4}, []int{v.passed, v.failed})
	assert.Contains(t, out.String(), "    why\n")
	assert.Contains(t, out.String(), "5 passed, 2 skipped")
	assert.Equal(t, 3, strings.Count(out.String(), "FAILED"))
}

func TestStageIsStoppedAtItsLimit(t *testing.T) {
	var out bytes.Buffer
	v := &verifier{out: &out}
	v.run(context.Background(), stage{"slow", time.Millisecond, nothing, func(ctx context.Context, _ opts) outcome {
		<-ctx.Done()
		return outcome{}
	}})
	assert.Equal(t, 1, v.failed)
	assert.Contains(t, out.String(), "stopped after its limit of 1ms")
}

func TestStageThatLacksItsToolDoesNotRun(t *testing.T) {
	var out bytes.Buffer
	v := &verifier{out: &out}
	v.run(context.Background(), stage{"page", time.Minute, func() string { return "Chromium" }, func(context.Context, opts) outcome {
		t.Error("it ran")
		return outcome{}
	}})
	assert.Equal(t, 1, v.failed)
	assert.Contains(t, out.String(), "it needs Chromium")
}

func TestLongOutputKeepsBothEnds(t *testing.T) {
	var b strings.Builder
	for i := range 1000 {
		fmt.Fprintf(&b, "line %d\n", i)
	}
	short := bounded(b.String())
	assert.True(t, strings.HasPrefix(short, "line 0\n"))
	assert.True(t, strings.HasSuffix(short, "line 999\n"))
	assert.Contains(t, short, "… 760 lines left out …")
	assert.Empty(t, bounded(""))
}

func TestOnceMoreIsForTestsAlone(t *testing.T) {
	names, only := onceMore(outcome{which: []testKey{{"p", "TestA/x"}, {"p", "TestA/y"}, {"p", "TestB"}}})
	assert.True(t, only)
	assert.Equal(t, []string{"TestA", "TestB"}, names)
	_, only = onceMore(outcome{which: []testKey{{"p", ""}, {"p", "TestB"}}})
	assert.False(t, only, "a package that does not compile")
	_, only = onceMore(outcome{})
	assert.False(t, only)
}
