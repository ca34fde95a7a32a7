package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The events are in the form that go doc test2json and go help buildjson document.
func TestCounting(t *testing.T) {
	for name, c := range map[string]struct {
		events string
		want   tally
		failed []testKey
		story  string
	}{
		"single tests": {
			events: `{"Action":"start","Package":"p"}
{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"output","Package":"p","Test":"TestA","Output":"=== RUN   TestA\n"}
{"Action":"pass","Package":"p","Test":"TestA","Elapsed":0}
{"Action":"run","Package":"p","Test":"TestB"}
{"Action":"skip","Package":"p","Test":"TestB","Elapsed":0}
{"Action":"pass","Package":"p","Elapsed":0.01}`,
			want: tally{passed: 1, skipped: 1},
		},
		"subtests stand for their test": {
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestA/x"}
{"Action":"run","Package":"p","Test":"TestA/x/deep"}
{"Action":"run","Package":"p","Test":"TestA/y"}
{"Action":"pass","Package":"p","Test":"TestA/x/deep"}
{"Action":"pass","Package":"p","Test":"TestA/x"}
{"Action":"output","Package":"p","Test":"TestA/y","Output":"    a_test.go:7: 1 is not 2\n"}
{"Action":"fail","Package":"p","Test":"TestA/y"}
{"Action":"fail","Package":"p","Test":"TestA"}
{"Action":"fail","Package":"p"}`,
			want:   tally{passed: 1, failed: 1},
			failed: []testKey{{"p", "TestA/y"}},
			story:  "1 is not 2",
		},
		"a test that fails by itself beside its subtests": {
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"run","Package":"p","Test":"TestA/x"}
{"Action":"pass","Package":"p","Test":"TestA/x"}
{"Action":"fail","Package":"p","Test":"TestA"}
{"Action":"fail","Package":"p"}`,
			want:   tally{passed: 1, failed: 1},
			failed: []testKey{{"p", "TestA"}},
		},
		"a name that only begins like another": {
			events: `{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"pass","Package":"p","Test":"TestAB"}
{"Action":"pass","Package":"p"}`,
			want: tally{passed: 2},
		},
		"the same name in two packages": {
			events: `{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"fail","Package":"q","Test":"TestA"}
{"Action":"pass","Package":"p"}
{"Action":"fail","Package":"q"}`,
			want:   tally{passed: 1, failed: 1},
			failed: []testKey{{"q", "TestA"}},
		},
		"a package that does not compile": {
			events: `{"ImportPath":"p [p.test]","Action":"build-output","Output":"# p [p.test]\n"}
{"ImportPath":"p [p.test]","Action":"build-output","Output":"./a_test.go:3:2: undefined: x\n"}
{"ImportPath":"p [p.test]","Action":"build-fail"}
{"Action":"start","Package":"p"}
{"Action":"output","Package":"p","Output":"FAIL\tp [build failed]\n"}
{"Action":"fail","Package":"p","Elapsed":0,"FailedBuild":"p [p.test]"}`,
			want:   tally{failed: 1},
			failed: []testKey{{"p [p.test]", ""}},
			story:  "undefined: x",
		},
		"one broken dependency is one failure": {
			events: `{"ImportPath":"d","Action":"build-output","Output":"d.go:1:1: broken\n"}
{"ImportPath":"d","Action":"build-fail"}
{"Action":"fail","Package":"p","FailedBuild":"d"}
{"Action":"fail","Package":"q","FailedBuild":"d"}`,
			want:   tally{failed: 1},
			failed: []testKey{{"d", ""}},
		},
		"a package that stops outside a test": {
			events: `{"Action":"pass","Package":"p","Test":"TestA"}
{"Action":"output","Package":"p","Output":"exit status 3\n"}
{"Action":"fail","Package":"p"}`,
			want:   tally{passed: 1, failed: 1},
			failed: []testKey{{"p", ""}},
			story:  "exit status 3",
		},
		"a test that is cut off": {
			events: `{"Action":"run","Package":"p","Test":"TestA"}
{"Action":"output","Package":"p","Output":"panic: test timed out\n"}
{"Action":"fail","Package":"p"}`,
			want:   tally{failed: 1},
			failed: []testKey{{"p", "TestA"}},
			story:  "test timed out",
		},
		"a package without tests": {
			events: `{"Action":"output","Package":"p","Output":"?   \tp\t[no test files]\n"}
{"Action":"skip","Package":"p"}`,
			want: tally{},
		},
	} {
		t.Run(name, func(t *testing.T) {
			log := newTestLog()
			require.NoError(t, log.read(strings.NewReader(c.events)))
			got, failed := log.tally()
			assert.Equal(t, c.want, got)
			assert.Equal(t, c.failed, failed)
			assert.Contains(t, log.story(failed), c.story)
			assert.Empty(t, log.stray.String())
		})
	}
}

func TestWhatIsNoEventIsKept(t *testing.T) {
	log := newTestLog()
	require.NoError(t, log.read(strings.NewReader("go: no such module\n{\"Action\":\"pass\",\"Package\":\"p\",\"Test\":\"TestA\"}\n42\n")))
	assert.Equal(t, "go: no such module\n42\n", log.stray.String())
	got, _ := log.tally()
	assert.Equal(t, 1, got.passed)
}
