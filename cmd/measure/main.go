// Command measure prints what the program costs a phone, beside a bare page of the
// same frame (go-app) that is built and measured in the same run: the bytes of a
// first visit, the time of a start without signal, and what each package adds.
//
//	go run ./cmd/measure                    all of it, some minutes
//	go run ./cmd/measure -quick             fewer starts, lighter compression
//	go run ./cmd/measure -only size         one part: size, start, packages or functions
//	go run ./cmd/measure -only load         kits of 1, 10 and 100 times the demo's size
//	go run ./cmd/measure -only search       graded queries beside two libraries of the npm registry
//	go run ./cmd/measure -runs 15           more starts
//
// Times depend on the computer and on what else it does: read the ratios, not the
// milliseconds. It needs Go, and Chromium for the starts (go run ./cmd/verify -only
// tools prepares it).
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
)

// Goals for the program beside the bare page.
const (
	sizeGoal  = 1.50
	startGoal = 1.25
	plainGoal = 300 // milliseconds until a plain page can be read, at a processor four times slower
)

// Without -only all parts but the last four are measured.
var parts = []string{"size", "start", "packages", "functions", "load", "search", "plan"}

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	if err := measure(ctx, os.Args[1:], os.Stdout, os.Stderr); err != nil {
		fmt.Fprintf(os.Stderr, "measure: %v\n", err)
		stop()
		os.Exit(1)
	}
}

func measure(ctx context.Context, args []string, stdout, stderr io.Writer) error {
	set := flag.NewFlagSet("measure", flag.ContinueOnError)
	set.SetOutput(stderr)
	quick := set.Bool("quick", false, "fewer starts, lighter compression")
	only := set.String("only", "", "one part: size, start, packages, functions, load, search or plan")
	runs := set.Int("runs", 9, "starts of each kind; the median counts")
	if err := set.Parse(args); err != nil {
		return err
	}
	if *only != "" && !slices.Contains(parts, *only) {
		return fmt.Errorf("no part %q; parts are %s", *only, strings.Join(parts, ", "))
	}
	wants := func(part string) bool { return *only == "" || *only == part }
	if *quick {
		*runs = min(*runs, 3)
	}
	say := func(line string) { fmt.Fprintln(stderr, line) }
	if *only == "load" {
		return printLoad(ctx, stdout, say)
	}
	if *only == "search" {
		return printSearch(ctx, stdout, say)
	}
	if *only == "plan" {
		return printPlan(ctx, stdout, say)
	}
	bare, program, err := subjects(ctx, say)
	if err != nil {
		return err
	}
	if wants("size") {
		say("compressing")
		printSizes(stdout, bare, program, *quick)
	}
	if wants("start") {
		if err := printStarts(ctx, stdout, say, bare, program, *runs); err != nil {
			return err
		}
	}
	if wants("packages") {
		if err := printPackages(ctx, stdout, say, bare, program); err != nil {
			return err
		}
	}
	if *only == "functions" {
		return printFunctions(ctx, stdout, say, program)
	}
	return nil
}
