package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"go/format"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"trailfieldkit/cmd/internal/build"
	"trailfieldkit/cmd/internal/chromium"
)

// Packages by what they are compiled for.
var (
	everything   = []string{"./..."}
	browserCode  = []string{"./app/...", "./cmd/webapp", "./data/...", "./fieldkit/..."}
	domainCode   = []string{"./data/...", "./fieldkit/..."}
	storageCode  = []string{"./app/browserstore/..."}
	browserTests = []string{"./cmd/internal/chromium", "./cmd/verify/browsertest"}
)

// stages run in this order. What is cheap and finds much comes first. The limits are
// many times what a small computer needs, compiling included.
var stages = []stage{
	{"tools", 15 * time.Minute, nothing, tools},
	{"format", time.Minute, nothing, formatted},
	{"vet", 15 * time.Minute, nothing, vet},
	{"test", 20 * time.Minute, nothing, unitTests},
	{"program", 15 * time.Minute, nothing, program},
	{"wasm", 20 * time.Minute, lacksNode, wasmTests},
	{"fuzz", 30 * time.Minute, nothing, fuzz},
	{"storage", 15 * time.Minute, lacksChromium, storageTests},
	{"faults", 3 * time.Hour, lacksChromium, countFaults},
	{"starts", 3 * time.Hour, lacksChromium, countStarts},
	{"browser", 70 * time.Minute, lacksChromium, pageTests},
}

func stageNames() []string {
	var names []string
	for _, s := range stages {
		names = append(names, s.name)
	}
	return names
}

func nothing() string { return "" }

func lacksChromium() string {
	if _, err := chromium.Find(); err != nil {
		return "Chromium"
	}
	return ""
}

// formatted checks that every Go file is as gofmt writes it.
func formatted(ctx context.Context, _ opts) (r outcome) {
	files := 0
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && strings.HasPrefix(entry.Name(), ".") && path != "." {
			return filepath.SkipDir
		}
		if entry.IsDir() || filepath.Ext(path) != ".go" {
			return nil
		}
		text, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		files++
		if wanted, err := format.Source(text); err != nil {
			r.output += fmt.Sprintf("%s: %v\n", path, err)
		} else if !bytes.Equal(text, wanted) {
			r.output += path + "\n"
		}
		return nil
	})
	if err != nil {
		r.fail(err.Error())
	}
	if r.output != "" {
		r.fail("not as gofmt writes it; run gofmt -w .")
	}
	r.note("%d files", files)
	return r
}

// vet checks the code as it is compiled for this computer, for the browser, and with
// the browser tests.
func vet(ctx context.Context, _ opts) (r outcome) {
	for _, run := range []struct {
		name string
		env  []string
		args []string
	}{
		{"native", nil, everything},
		{"browser tests", nil, append([]string{"-tags", "browser"}, "./cmd/...")},
		{"js/wasm", wasmEnv, browserCode},
	} {
		said, err := command(ctx, run.env, "go", append([]string{"vet"}, run.args...)...)
		if err != nil {
			r.fail(run.name)
			r.output += said
		}
	}
	return r
}

func unitTests(ctx context.Context, _ opts) outcome {
	return goTest(ctx, nil, everything...)
}

// program compiles what the browser runs, as fieldkit serve does.
func program(ctx context.Context, _ opts) (r outcome) {
	out, err := build.WebAssembly(ctx, build.Options{})
	if err != nil {
		r.fail(err.Error())
		if cause := errors.Unwrap(err); cause != nil {
			r.output = cause.Error()
		}
		return r
	}
	how := "already built"
	if out.Fresh {
		how = "built"
	}
	r.note("%s, %.2f MB", how, float64(len(out.Wasm))/1e6)
	return r
}

// wasmTests runs the tests of the domain once more, compiled for the browser, in
// Node.js.
func wasmTests(ctx context.Context, _ opts) (r outcome) {
	runner, err := nodeRunner(ctx)
	if err != nil {
		r.fail(err.Error())
		return r
	}
	return goTest(ctx, wasmEnv, append([]string{"-exec", runner}, domainCode...)...)
}

// storageTests runs the acceptance suite of the kit's store over IndexedDB, which
// only a browser has.
func storageTests(ctx context.Context, _ opts) (r outcome) {
	self, err := os.Executable()
	if err != nil {
		r.fail(err.Error())
		return r
	}
	return goTest(ctx, wasmEnv, append([]string{"-count=1", "-exec", quoteWord(self) + " " + inBrowser}, storageCode...)...)
}

// pageTests drives the whole program in Chromium. What a browser does in time depends
// on what else the computer does: a test that fails is run once more by itself, and
// named where it passes then. One that fails twice has failed.
func pageTests(ctx context.Context, _ opts) outcome {
	args := []string{"-count=1", "-timeout", "60m", "-tags", "browser"}
	first := goTest(ctx, nil, append(args, browserTests...)...)
	names, only := onceMore(first)
	if !only {
		return first
	}
	second := goTest(ctx, nil, append(append(args, "-run", "^("+strings.Join(names, "|")+")$"), browserTests...)...)
	if second.failed() {
		return first
	}
	second.tests.passed = first.tests.passed + first.tests.failed
	second.note("at the second try: %s", strings.Join(names, ", "))
	return second
}

// onceMore names the tests that failed, without their subtests. only is false if there
// are none, or something else is wrong: a package that does not compile.
func onceMore(r outcome) (names []string, only bool) {
	for _, key := range r.which {
		name, _, _ := strings.Cut(key.test, "/")
		if name == "" {
			return nil, false
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names, len(names) > 0
}

// goTest runs go test and counts.
func goTest(ctx context.Context, env []string, args ...string) (r outcome) {
	said, err := command(ctx, env, "go", append([]string{"test", "-json"}, args...)...)
	log := newTestLog()
	log.read(strings.NewReader(said))
	var failed []testKey
	r.tests, failed = log.tally()
	r.which = failed
	r.output = log.story(failed) + log.stray.String()
	if err != nil && r.tests.failed == 0 {
		r.fail("go test: " + err.Error())
	}
	if err == nil {
		r.output = log.packages()
	}
	if err == nil && r.tests.passed == 0 {
		r.fail("no tests were run")
	}
	return r
}

// quoteWord protects a path with spaces, as go help quote describes.
func quoteWord(path string) string {
	if strings.ContainsAny(path, " \t") {
		return `"` + path + `"`
	}
	return path
}
