package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/fieldkit/spares/problemfile/generatedtest"
)

// Goals of planning in WebAssembly: a proof for 200 spares and 60 tools, the share of
// the general solver's time, and the gap for 500 spares after a second.
const (
	proofGoal = 1000.0 // ms
	ratioGoal = 10.0
	gapGoal   = 0.5 // %
)

// solverLibrary is a general mixed-integer solver of the npm registry.
var solverLibrary = library{"highs", "1.15.3", "build/highs.js"}

//go:embed plan.js
var planScript string

// planned is how a solver did on one problem, times in ms and gaps in %.
type planned struct {
	MS     float64 `json:"ms"`
	Value  float64 `json:"value"`
	Proved bool    `json:"proved"`
	gap    float64
	gap100 float64
	gap1s  float64
}

// printPlan solves generated problems with our solver, natively and in Chromium, and
// with a general one in a page of the same Chromium, on the same problems.
func printPlan(ctx context.Context, out io.Writer, say func(string)) error {
	say("solving natively")
	native, err := nativePlans(ctx)
	if err != nil {
		return err
	}
	say("solving in the browser")
	browser, err := browserPlans(ctx)
	if err != nil {
		return err
	}
	say("solving with the general solver in the browser, up to 20 s each")
	general, err := generalPlans(ctx)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%-20s %9s   %9s %8s %8s   %9s %7s\n", "plan, ms to proof", "native", "browser", "100 ms", "1 s", "general", "ratio")
	for _, p := range generatedtest.Problems() {
		n, b, g := native[p.Name], browser[p.Name], general[p.Name]
		ratio := fmt.Sprintf("%.1f", g.MS/b.MS)
		if !g.Proved {
			ratio = "> " + ratio
		}
		differ := ""
		if n.Proved && g.Proved && math.Abs(n.Value-g.Value) > 2e-3*n.Value { // the benchmark prints four digits
			differ = fmt.Sprintf("  values differ: %.6f and %.6f", n.Value, g.Value)
		}
		fmt.Fprintf(out, "%-20s %9s   %9s %7.2f%% %7.2f%%   %9s %7s%s\n", p.Name, n.time(), b.time(), b.gap100, b.gap1s, g.time(), ratio, differ)
	}
	for _, form := range []string{"linear", "pooled"} {
		var ms, ratios []float64
		for _, p := range generatedtest.Problems() {
			if p.Form == form && p.Size == generatedtest.Goal {
				b := browser[p.Name]
				ms, ratios = append(ms, b.orNever()), append(ratios, general[p.Name].MS/b.orNever())
			}
		}
		slices.Sort(ms)
		slices.Sort(ratios)
		line := func(what string, ms, ratio float64) {
			fmt.Fprintf(out, "%-20s %9s   %9.1f %8s %8s   %9s %7.1f\n", fmt.Sprintf("%s, %s of %d", form, what, len(ratios)), "", ms, "", "", "", ratio)
		}
		line("median", median(ms), median(ratios))
		line("worst", ms[len(ms)-1], ratios[0])
	}
	fmt.Fprintf(out, "%-20s %9s   %9.0f %8s %7.2f%%   %9s %7.1f   (200+60; 500+100 after 1 s)\n\n", "goal", "", proofGoal, "", gapGoal, "", ratioGoal)
	return nil
}

// orNever is the time to the proof, without end if there was none.
func (p planned) orNever() float64 {
	if !p.Proved {
		return math.Inf(1)
	}
	return p.MS
}

// time prints the time to the proof, or what was missing at the end.
func (p planned) time() string {
	if !p.Proved {
		if p.gap > 0 {
			return fmt.Sprintf("(%.2f%%)", p.gap)
		}
		return "none"
	}
	return strconv.FormatFloat(p.MS, 'f', 1, 64)
}

var planBench = []string{"-test.run=^$", "-test.bench=Generated", "-test.benchtime=1x", "-test.timeout=20m"}

func planBinary(ctx context.Context, env ...string) (path string, err error) {
	f, err := os.CreateTemp("", "fieldkit-measure-plan-*")
	if err != nil {
		return "", err
	}
	f.Close()
	compile := exec.CommandContext(ctx, "go", "test", "-c", "-o", f.Name(), "./fieldkit/spares/problemfile")
	compile.Env = append(os.Environ(), env...)
	if said, err := compile.CombinedOutput(); err != nil {
		os.Remove(f.Name())
		return "", fmt.Errorf("building the planner: %w\n%s", err, said)
	}
	return f.Name(), nil
}

func nativePlans(ctx context.Context) (map[string]planned, error) {
	path, err := planBinary(ctx)
	if err != nil {
		return nil, err
	}
	defer os.Remove(path)
	said, err := exec.CommandContext(ctx, path, planBench...).CombinedOutput()
	if err != nil {
		return nil, fmt.Errorf("solving natively: %w\n%s", err, said)
	}
	return benchPlans(string(said))
}

func browserPlans(ctx context.Context) (map[string]planned, error) {
	path, err := planBinary(ctx, "GOOS=js", "GOARCH=wasm")
	if err != nil {
		return nil, err
	}
	defer os.Remove(path)
	program, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	result, err := chromium.RunWasmTest(ctx, program, planBench...)
	if err != nil {
		return nil, err
	}
	return benchPlans(result.Output)
}

// benchPlans reads what the benchmark printed: a name, how often it ran, and figures
// with their units.
func benchPlans(text string) (map[string]planned, error) {
	plans := map[string]planned{}
	for line := range strings.SplitSeq(text, "\n") {
		_, rest, ok := strings.Cut(line, "BenchmarkGenerated/")
		words := strings.Fields(rest)
		if !ok || len(words) < 4 {
			continue
		}
		var p planned
		for i := 2; i+1 < len(words); i += 2 {
			x, err := strconv.ParseFloat(words[i], 64)
			if err != nil {
				return nil, fmt.Errorf("the benchmark printed %q", line)
			}
			switch words[i+1] {
			case "ms":
				p.MS = x
			case "value":
				p.Value = x
			case "%gap":
				p.gap, p.Proved = x, x < 1e-6
			case "%gap-100ms":
				p.gap100 = x
			case "%gap-1s":
				p.gap1s = x
			}
		}
		name := words[0]
		if i := strings.LastIndexByte(name, '-'); i >= 0 && strings.Trim(name[i+1:], "0123456789") == "" {
			name = name[:i] // the number of processors
		}
		plans[name] = p
	}
	if len(plans) != len(generatedtest.Problems()) {
		return nil, fmt.Errorf("the benchmark gave %d results:\n%s", len(plans), text)
	}
	return plans, nil
}

// generalPlans fetches the general solver into a folder that is thrown away and lets it
// solve the problems in a page.
func generalPlans(ctx context.Context) (map[string]planned, error) {
	folder, err := os.MkdirTemp("", "fieldkit-measure-")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	install := exec.CommandContext(ctx, "npm", "install", "--no-save", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", folder,
		solverLibrary.name+"@"+solverLibrary.version)
	if said, err := install.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("npm install %s: %w\n%s", solverLibrary.name, err, said)
	}
	type posed struct {
		Name    string          `json:"name"`
		Problem json.RawMessage `json:"problem"`
	}
	var problems []posed
	for _, p := range generatedtest.Problems() {
		problems = append(problems, posed{p.Name, p.Text})
	}
	text, err := json.Marshal(problems)
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{"/problems.json": text, "/plan.js": []byte(planScript)}
	script := filepath.Join(folder, "node_modules", solverLibrary.name, solverLibrary.file)
	for path, file := range map[string]string{"/highs.js": script, "/highs.wasm": strings.TrimSuffix(script, ".js") + ".wasm"} {
		if files[path], err = os.ReadFile(file); err != nil {
			return nil, err
		}
	}
	files["/"] = []byte(`<!doctype html><title>plan</title><script src="/highs.js"></script><script src="/plan.js"></script>`)
	return askPage[map[string]planned](ctx, files)
}
