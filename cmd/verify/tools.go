package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/cmd/internal/chromium"
)

// oldestNode is the first Node.js that has what wasm_exec.js asks for without help.
const oldestNode = 18

// tools looks for Node.js and Chromium and installs what is missing where it may.
func tools(ctx context.Context, _ opts) (r outcome) {
	said, err := command(ctx, nil, "go", "version")
	if err != nil {
		r.fail("go version: " + err.Error())
		return r
	}
	r.note("%s", goVersion(said))
	var missing []string
	if lacksNode() != "" {
		missing = append(missing, "nodejs")
	}
	if lacksChromium() != "" {
		missing = append(missing, "chromium")
	}
	if len(missing) > 0 {
		r.output = install(ctx, missing)
	}
	if lack := lacksNode(); lack != "" {
		r.fail("no " + lack)
	} else {
		r.note("Node.js %s", strings.TrimPrefix(nodeVersion(), "v"))
	}
	if path, err := chromium.Find(); err != nil {
		r.fail(err.Error())
	} else if said, err := command(ctx, nil, path, "--version"); err != nil {
		r.fail(fmt.Sprintf("%s does not run: %v", path, err))
		r.output += said
	} else {
		r.note("%s", lastLine(said))
	}
	return r
}

// install tries the system's package manager and returns what it said, or what a
// person has to do.
func install(ctx context.Context, names []string) string {
	manager, err := exec.LookPath("apt-get")
	switch {
	case err != nil:
		return "install " + strings.Join(names, " and ") + ": " + hint(names) + "\n"
	case os.Geteuid() != 0:
		return "run as root, or by hand: sudo apt-get update && sudo apt-get install -y " + strings.Join(names, " ") + "\n"
	}
	env := []string{"DEBIAN_FRONTEND=noninteractive"}
	said, err := command(ctx, env, manager, "update")
	if err != nil {
		return said + "apt-get update: " + err.Error() + "\n"
	}
	if slices.Contains(names, "chromium") {
		names = append(names, "fonts-dejavu-core") // a page without any font shows no text
	}
	more, err := command(ctx, env, manager, append([]string{"install", "-y", "--no-install-recommends"}, names...)...)
	if err != nil {
		return said + more + "apt-get install: " + err.Error() + "\n"
	}
	return said + more
}

// hint names the command of the package managers that verify does not run itself.
func hint(names []string) string {
	list := strings.Join(names, " ")
	for _, known := range [][2]string{
		{"dnf", "sudo dnf install " + list},
		{"pacman", "sudo pacman -S " + list},
		{"brew", "brew install node; brew install --cask chromium"},
	} {
		if _, err := exec.LookPath(known[0]); err == nil {
			return known[1]
		}
	}
	return "Node.js from nodejs.org, Chromium from your system's packages; " + chromium.PathVariable + " may name its path"
}

func nodeVersion() string {
	said, err := exec.Command("node", "--version").Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(said))
}

// lacksNode says which Node.js is needed, if none that is new enough is there.
func lacksNode() string {
	major, _, _ := strings.Cut(strings.TrimPrefix(nodeVersion(), "v"), ".")
	if number, err := strconv.Atoi(major); err != nil || number < oldestNode {
		return fmt.Sprintf("Node.js %d or newer", oldestNode)
	}
	return ""
}

// nodeRunner is the program of the Go installation that runs a test in Node.js.
func nodeRunner(ctx context.Context) (string, error) {
	said, err := command(ctx, nil, "go", "env", "GOROOT")
	if err != nil {
		return "", fmt.Errorf("go env GOROOT: %w", err)
	}
	for _, place := range []string{"lib/wasm", "misc/wasm"} {
		path := filepath.Join(strings.TrimSpace(said), place, "go_js_wasm_exec")
		if _, err := os.Stat(path); err == nil {
			return quoteWord(path), nil
		}
	}
	return "", fmt.Errorf("this Go installation has no go_js_wasm_exec")
}

// goVersion shortens "go version go1.26.8 linux/amd64".
func goVersion(said string) string {
	fields := strings.Fields(said)
	if len(fields) < 3 {
		return strings.TrimSpace(said)
	}
	return "Go " + strings.TrimPrefix(fields[2], "go")
}

func lastLine(text string) string {
	lines := strings.Split(strings.TrimSpace(text), "\n")
	words := strings.Fields(lines[len(lines)-1])
	return strings.Join(words[:min(2, len(words))], " ")
}
