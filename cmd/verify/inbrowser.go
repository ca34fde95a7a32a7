package main

import (
	"context"
	"fmt"
	"os"
	"strings"

	"trailfieldkit/cmd/internal/chromium"
)

// inBrowser as the first word makes this program what go test -exec starts: it runs
// the test binary given in a page of Chromium.
const inBrowser = "-in-browser"

func runInBrowser(ctx context.Context, binary string, args []string) int {
	program, err := os.ReadFile(binary)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	// A page has no files for the log by which go test decides what it may reuse.
	kept := args[:0]
	for _, arg := range args {
		if !strings.HasPrefix(arg, "-test.testlogfile") {
			kept = append(kept, arg)
		}
	}
	status, err := chromium.StreamWasmTest(ctx, program, os.Stdout, kept...)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		return 1
	}
	return status
}
