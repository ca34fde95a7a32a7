package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"time"
)

// How long each target is fuzzed: for a time, or in the long run for a number of
// inputs, however long they take. Compiling comes on top.
const (
	shortFuzz  = "3s"
	longFuzz   = "1000000x"
	shortLimit = 4 * time.Minute // for one target, compiling included
	longLimit  = 2 * time.Hour
)

type fuzzTarget struct{ pkg, name string }

// fuzz feeds each fuzz target fresh input for a short while. What it finds is written
// under the package's testdata/fuzz by go test, and belongs into the repository.
func fuzz(ctx context.Context, o opts) (r outcome) {
	targets, err := fuzzTargets(ctx)
	if err != nil {
		r.fail(err.Error())
		return r
	}
	length, limit := shortFuzz, shortLimit
	if o.long {
		length, limit = longFuzz, longLimit
	}
	for _, target := range targets {
		if ctx.Err() != nil {
			break
		}
		limited, cancel := context.WithTimeout(ctx, limit)
		said, err := command(limited, nil, "go", "test", "-run", "^$", "-fuzz", "^"+target.name+"$",
			"-fuzztime", length, "-parallel", "2", target.pkg)
		tooLong := limited.Err() != nil // it has not had its inputs
		cancel()
		if err != nil && (tooLong || !endedByItsClock(said)) {
			r.tests.failed++
			r.output += fmt.Sprintf("%s %s\n%s", target.pkg, target.name, said)
			continue
		}
		r.tests.passed++
		if o.loud && r.tests.failed == 0 {
			r.output += said
		}
	}
	if len(targets) == 0 {
		r.fail("no fuzz target found")
	}
	r.note("%s each", length)
	return r
}

// endedByItsClock recognises a run that go test calls failed although it found
// nothing: up to Go 1.26 the end of -fuzztime can catch a worker in the middle of a
// call (go.dev/issue/75804). A finding always names the input it wrote down.
func endedByItsClock(said string) bool {
	_, after, failed := strings.Cut(said, "--- FAIL: ")
	_, cause, _ := strings.Cut(after, "\n")
	cause, _, _ = strings.Cut(cause, "\n")
	return failed && strings.TrimSpace(cause) == "context deadline exceeded" &&
		!strings.Contains(said, "Failing input written to")
}

var fuzzFunction = regexp.MustCompile(`(?m)^func (Fuzz\w*)\(`)

// fuzzTargets finds the targets in the test files, which is quicker than asking every
// test binary for its list.
func fuzzTargets(ctx context.Context) ([]fuzzTarget, error) {
	said, err := command(ctx, nil, "go", "list", "-json=Dir,ImportPath,TestGoFiles,XTestGoFiles", "./...")
	if err != nil {
		return nil, fmt.Errorf("go list: %s", strings.TrimSpace(said))
	}
	var targets []fuzzTarget
	decode := json.NewDecoder(strings.NewReader(said))
	for {
		var p struct {
			Dir, ImportPath           string
			TestGoFiles, XTestGoFiles []string
		}
		if err := decode.Decode(&p); err == io.EOF {
			return targets, nil
		} else if err != nil {
			return nil, fmt.Errorf("go list: %w", err)
		}
		for _, name := range slices.Concat(p.TestGoFiles, p.XTestGoFiles) {
			text, err := os.ReadFile(filepath.Join(p.Dir, name))
			if err != nil {
				return nil, err
			}
			for _, found := range fuzzFunction.FindAllStringSubmatch(string(text), -1) {
				targets = append(targets, fuzzTarget{p.ImportPath, found[1]})
			}
		}
	}
}
