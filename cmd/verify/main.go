// Command verify checks everything: it prepares the tools that are missing, then
// runs each stage and prints a line for it with its time.
//
//	go run ./cmd/verify                   all of it
//	go run ./cmd/verify -only test,vet    some stages
//	go run ./cmd/verify -skip browser     all but some
//	go run ./cmd/verify -v                with what the stages print
//	go run ./cmd/verify -long             longer fuzz runs, faults by the hundred
//
// A stage that fails shows why, and the stages that do not need it still run. The
// last line is "N passed, N failed": every single test counts (of a test with
// subtests the subtests), and a stage without tests counts as one. The status is 0
// if nothing failed, 1 if something did, 2 if it was asked wrongly.
//
// Nothing needs to be generated before. Modules, and Chromium and Node.js where this
// account may install them, are fetched; all else works without a network.
package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"time"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if len(os.Args) > 2 && os.Args[1] == inBrowser {
		os.Exit(runInBrowser(ctx, os.Args[2], os.Args[3:]))
	}
	os.Exit(verify(ctx, os.Args[1:], os.Stdout, os.Stderr))
}

func verify(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	o, err := readOptions(args)
	if err != nil {
		fmt.Fprintf(stderr, "verify: %v\n", err)
		return 2
	}
	v := &verifier{options: o, out: stdout, live: isTerminal(stdout)}
	for _, s := range stages {
		if o.wants(s.name) {
			v.run(ctx, s)
		}
	}
	fmt.Fprintf(stdout, "%d passed, %d failed\n", v.passed, v.failed)
	if v.failed > 0 || v.passed == 0 {
		return 1
	}
	return 0
}

// opts is what the command line asks for.
type opts struct {
	only, skip []string
	loud, long bool
}

func readOptions(args []string) (opts, error) {
	var o opts
	set := flag.NewFlagSet("verify", flag.ContinueOnError)
	set.SetOutput(io.Discard)
	only := set.String("only", "", "")
	skip := set.String("skip", "", "")
	set.BoolVar(&o.loud, "v", false, "")
	set.BoolVar(&o.long, "long", false, "")
	usage := fmt.Sprintf("use -only STAGES, -skip STAGES, -v, -long; stages are %s", strings.Join(stageNames(), ", "))
	if err := set.Parse(args); err != nil {
		return opts{}, fmt.Errorf("%w; %s", err, usage)
	}
	if set.NArg() > 0 {
		return opts{}, fmt.Errorf("%q is one word too many; %s", set.Arg(0), usage)
	}
	o.only, o.skip = words(*only), words(*skip)
	for _, name := range slices.Concat(o.only, o.skip) {
		if !slices.Contains(stageNames(), name) {
			return opts{}, fmt.Errorf("no stage %q; %s", name, usage)
		}
	}
	return o, nil
}

func words(list string) []string {
	return strings.FieldsFunc(list, func(r rune) bool { return r == ',' || r == ' ' })
}

func (o opts) wants(name string) bool {
	return (len(o.only) == 0 || slices.Contains(o.only, name)) && !slices.Contains(o.skip, name)
}

// verifier runs stages and keeps the count.
type verifier struct {
	options        opts
	out            io.Writer
	live           bool // a line can be written over
	passed, failed int
}

// longer is how many times its limit a stage may take in the long run.
const longer = 40

// run runs one stage within its limit and prints its line.
func (v *verifier) run(ctx context.Context, s stage) {
	limit := s.limit
	if v.options.long {
		limit *= longer
	}
	limited, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	began := time.Now()
	if v.live {
		fmt.Fprintf(v.out, "%-9s …", s.name)
	}
	result := outcome{}
	if ctx.Err() != nil {
		result.fail("stopped")
	} else if missing := s.lacks(); missing != "" {
		result.fail("not run: it needs " + missing)
	} else {
		result = s.run(limited, v.options)
	}
	if limited.Err() == context.DeadlineExceeded {
		result.fail(fmt.Sprintf("stopped after its limit of %v", limit))
	}
	v.count(result)
	v.print(s.name, result, time.Since(began))
}

func (v *verifier) count(r outcome) {
	v.passed += r.tests.passed
	v.failed += r.tests.failed
	switch {
	case r.failed() && r.tests.failed == 0:
		v.failed++
	case !r.failed() && r.tests.passed == 0:
		v.passed++
	}
}

func (v *verifier) print(name string, r outcome, took time.Duration) {
	word := "ok"
	if r.failed() {
		word = "FAILED"
	}
	if v.live {
		fmt.Fprint(v.out, "\r\x1b[K")
	}
	fmt.Fprintf(v.out, "%-9s %-6s %6.1f s  %s\n", name, word, took.Seconds(), r.line())
	for line := range strings.Lines(r.table) {
		fmt.Fprintf(v.out, "    %s\n", strings.TrimRight(line, "\n"))
	}
	if r.failed() || v.options.loud {
		for line := range strings.Lines(bounded(r.output)) {
			fmt.Fprintf(v.out, "    %s\n", strings.TrimRight(line, "\n"))
		}
	}
}

// bounded cuts what a stage prints to a length a person reads: its beginning, where
// the first cause stands, and its end.
func bounded(text string) string {
	const head, tail = 160, 80
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	if len(lines) == 1 && lines[0] == "" {
		return ""
	}
	for i, line := range lines {
		if len(line) > 1000 {
			lines[i] = line[:1000] + " …"
		}
	}
	if left := len(lines) - head - tail; left > 0 {
		middle := fmt.Sprintf("… %d lines left out …", left)
		lines = slices.Concat(lines[:head], []string{middle}, lines[len(lines)-tail:])
	}
	return strings.Join(lines, "\n") + "\n"
}

func isTerminal(w io.Writer) bool {
	file, isFile := w.(*os.File)
	if !isFile || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
