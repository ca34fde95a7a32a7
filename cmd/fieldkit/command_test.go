package main

import (
	"bytes"
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// say runs fieldkit with words and returns what it printed and its status.
func say(words ...string) (stdout, stderr string, status int) {
	var out, faults bytes.Buffer
	status = run(context.Background(), words, &out, &faults)
	return out.String(), faults.String(), status
}

func TestHelpListsEveryCommand(t *testing.T) {
	for _, word := range []string{"help", "-h", "--help"} {
		out, faults, status := say(word)
		assert.Equal(t, done, status)
		assert.Empty(t, faults)
		for _, c := range commands {
			assert.Contains(t, out, "  "+c.name)
			assert.Contains(t, out, c.summary)
		}
	}
}

func TestEveryCommandHasHelpWithAnExample(t *testing.T) {
	for _, c := range commands {
		for _, words := range [][]string{{"help", c.name}, {c.name, "-h"}, {c.name, "--help"}} {
			out, _, status := say(words...)
			assert.Equal(t, done, status, words)
			assert.True(t, strings.HasPrefix(out, "fieldkit "+c.name), words)
			assert.Contains(t, out, "Example", words)
		}
	}
}

func TestWrongUsageIsOneLine(t *testing.T) {
	for name, words := range map[string][]string{
		"unknown command":  {"fly"},
		"help for nothing": {"help", "fly"},
		"unknown option":   {"serve", "-fast"},
		"word too many":    {"serve", "now"},
		"no folder":        {"site"},
		"bad base":         {"site", "-base", "kit", t.TempDir()},
		"bad bool":         {"serve", "-open=perhaps"},
	} {
		t.Run(name, func(t *testing.T) {
			out, faults, status := say(words...)
			assert.Equal(t, askedWrong, status)
			assert.Empty(t, out)
			assert.Equal(t, 1, strings.Count(faults, "\n"), faults)
			assert.True(t, strings.HasPrefix(faults, "fieldkit"), faults)
		})
	}
}
