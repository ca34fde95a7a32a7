package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
)

// tally counts single tests.
type tally struct{ passed, failed, skipped int }

func (t tally) any() bool { return t.passed+t.failed+t.skipped > 0 }

func (t tally) String() string {
	text := fmt.Sprintf("%d passed", t.passed)
	if t.failed > 0 {
		text += fmt.Sprintf(", %d failed", t.failed)
	}
	if t.skipped > 0 {
		text += fmt.Sprintf(", %d skipped", t.skipped)
	}
	return text
}

// event is a line of go test -json (documented by go doc test2json; build-output and
// build-fail by go help buildjson).
type event struct {
	Action      string
	Package     string
	ImportPath  string
	Test        string
	Output      string
	FailedBuild string
}

// testKey names a test; an empty test is the package itself.
type testKey struct{ pkg, test string }

// testLog reads the events of go test -json and says what passed, what failed and
// what the failed ones printed.
type testLog struct {
	results map[testKey]string // last of pass, fail, skip, or "run" while it runs
	printed map[testKey]*strings.Builder
	stray   strings.Builder // what is no event, such as a fault of the go command
}

func newTestLog() *testLog {
	return &testLog{results: map[testKey]string{}, printed: map[testKey]*strings.Builder{}}
}

// read takes events to the end.
func (l *testLog) read(from io.Reader) error {
	lines := bufio.NewReader(from)
	for {
		line, err := lines.ReadBytes('\n')
		if len(line) > 0 {
			var e event
			if json.Unmarshal(line, &e) != nil || e.Action == "" {
				l.stray.Write(line)
			} else {
				l.take(e)
			}
		}
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func (l *testLog) take(e event) {
	key := testKey{e.Package, e.Test}
	switch e.Action {
	case "run":
		l.results[key] = "run"
	case "pass", "fail", "skip":
		l.results[key] = e.Action
		if e.FailedBuild != "" {
			l.results[testKey{e.FailedBuild, ""}] = "fail"
			delete(l.results, key)
		}
	case "output":
		l.text(key).WriteString(e.Output)
	case "build-output":
		l.text(testKey{e.ImportPath, ""}).WriteString(e.Output)
	case "build-fail":
		l.results[testKey{e.ImportPath, ""}] = "fail"
	}
}

func (l *testLog) text(key testKey) *strings.Builder {
	if l.printed[key] == nil {
		l.printed[key] = &strings.Builder{}
	}
	return l.printed[key]
}

// tally counts. A test with subtests stands for them: it counts only if it failed
// and none of them did. A package counts only if it failed and none of its tests
// did: it does not compile, or stopped outside a test. A test that began and has no
// result was cut off and has failed.
func (l *testLog) tally() (count tally, failed []testKey) {
	children := map[testKey]bool{}    // tests that have subtests
	failedBelow := map[testKey]bool{} // tests and packages with a failed test inside
	isFailure := func(result string) bool { return result == "fail" || result == "run" }
	for key, result := range l.results {
		for parent, more := key.parent(); more; parent, more = parent.parent() {
			children[parent] = true
			if isFailure(result) {
				failedBelow[parent] = true
			}
		}
	}
	for _, key := range l.keys() {
		result := l.results[key]
		inner := key.test == "" || children[key]
		switch {
		case isFailure(result) && inner && failedBelow[key]: // its parts are counted
		case isFailure(result):
			count.failed++
			failed = append(failed, key)
		case inner: // its parts are counted
		case result == "skip":
			count.skipped++
		default:
			count.passed++
		}
	}
	return count, failed
}

// parent is the test around a subtest, or the package of a test.
func (k testKey) parent() (testKey, bool) {
	if k.test == "" {
		return testKey{}, false
	}
	if cut := strings.LastIndex(k.test, "/"); cut >= 0 {
		return testKey{k.pkg, k.test[:cut]}, true
	}
	return testKey{k.pkg, ""}, true
}

func (l *testLog) keys() []testKey {
	return slices.SortedFunc(maps.Keys(l.results), func(a, b testKey) int {
		if a.pkg != b.pkg {
			return strings.Compare(a.pkg, b.pkg)
		}
		return strings.Compare(a.test, b.test)
	})
}

// story is what the failed tests printed.
func (l *testLog) story(failed []testKey) string {
	var b strings.Builder
	for _, key := range failed {
		fmt.Fprintf(&b, "%s %s\n", key.pkg, key.test)
		if text := l.printed[key]; text != nil {
			b.WriteString(strings.TrimRight(text.String(), "\n") + "\n")
		}
		if l.results[key] == "run" {
			b.WriteString("it was cut off before it ended\n")
			if text := l.printed[testKey{key.pkg, ""}]; text != nil {
				b.WriteString(strings.TrimRight(text.String(), "\n") + "\n")
			}
		}
	}
	return b.String()
}

// packages lists how each package ended.
func (l *testLog) packages() string {
	var b strings.Builder
	for _, key := range l.keys() {
		if key.test == "" {
			fmt.Fprintf(&b, "%s %s\n", l.results[key], key.pkg)
		}
	}
	return b.String()
}
