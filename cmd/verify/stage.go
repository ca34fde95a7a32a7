package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"
)

// stage is one part of the check.
type stage struct {
	name  string
	limit time.Duration
	lacks func() string // what it needs that is not there; empty if it can run
	run   func(ctx context.Context, o opts) outcome
}

// outcome is how a stage ended.
type outcome struct {
	tests  tally
	notes  []string  // for the stage's line
	faults []string  // why it failed; none if it passed
	output string    // shown when it failed
	table  string    // shown always
	which  []testKey // tests that failed
}

func (r *outcome) fail(why string)              { r.faults = append(r.faults, why) }
func (r *outcome) note(format string, a ...any) { r.notes = append(r.notes, fmt.Sprintf(format, a...)) }
func (r outcome) failed() bool                  { return len(r.faults) > 0 || r.tests.failed > 0 }

func (r outcome) line() string {
	parts := []string{}
	if r.tests.any() {
		parts = append(parts, r.tests.String())
	}
	parts = append(parts, r.notes...)
	parts = append(parts, r.faults...)
	return strings.Join(parts, "; ")
}

// command runs a program in the repository with more environment, ends all its
// processes when the time is up, and returns what it printed.
func command(ctx context.Context, env []string, name string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), env...)
	var said bytes.Buffer
	cmd.Stdout, cmd.Stderr = &said, &said
	endTogether(cmd)
	err := cmd.Run()
	return said.String(), err
}

// wasmEnv compiles for the browser. PWD-independent, no C compiler.
var wasmEnv = []string{"GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0"}
