package main

import (
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/data"
	"trailfieldkit/fieldkit/lookup"
	"trailfieldkit/fieldkit/lookup/lookuptest"
)

// Goals of search: of the graded queries, and with 10,000 parts in WebAssembly.
const (
	searchGoal  = 0.98
	slowestGoal = 5.0 // ms, 95 of 100 are faster
)

// library is a general search library of the npm registry that search is compared
// with: its version, and its module.
type library struct{ name, version, file string }

var libraries = []library{
	{"minisearch", "7.2.0", "dist/es/index.js"},
	{"fuse.js", "7.5.0", "dist/fuse.min.mjs"},
}

//go:embed search.js
var searchScript string

// graded is how well the graded queries were answered: the share with an answer first,
// and among the first five; of all and of those held back.
type graded struct {
	First     float64 `json:"first"`
	Five      float64 `json:"five"`
	HeldFirst float64 `json:"heldFirst"`
	HeldFive  float64 `json:"heldFive"`
	Median    float64 `json:"median"` // ms
	Slow      float64 `json:"slow"`   // ms, 95 of 100 are faster
}

// printSearch asks the graded queries of our search and of general libraries: the same
// kit and tables, the same queries, in pages of one Chromium.
func printSearch(ctx context.Context, out io.Writer, say func(string)) error {
	say("building the search for the browser")
	ours, many, err := ourSearch(ctx)
	if err != nil {
		return err
	}
	say("fetching the libraries to compare with")
	folder, err := os.MkdirTemp("", "fieldkit-measure-")
	if err != nil {
		return err
	}
	defer os.RemoveAll(folder)
	theirs, err := libraryResults(ctx, folder)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%-34s %8s %8s   %8s %8s   %8s %8s\n", "search, graded queries", "first", "five", "first", "five", "median", "95th")
	fmt.Fprintf(out, "%-34s %17s   %17s   %17s\n", fmt.Sprintf("%d asked", len(lookuptest.Queries())), "all", "held back", "ms")
	row := func(name string, g graded) {
		fmt.Fprintf(out, "%-34s %8.3f %8.3f   %8.3f %8.3f   %8.2f %8.2f\n", name, g.First, g.Five, g.HeldFirst, g.HeldFive, g.Median, g.Slow)
	}
	row("program", ours)
	for _, l := range libraries {
		for _, way := range theirs[l.name] {
			row(l.name+" "+l.version+", "+way.Way, way.graded)
		}
	}
	fmt.Fprintf(out, "%-34s %8s %8.2f\n", "goal, among five", "", searchGoal)
	fmt.Fprintf(out, "%-34s %38s   %8.2f %8.2f\n", "program, 10,000 parts and tables", "", many.Median, many.Slow)
	fmt.Fprintf(out, "%-34s %38s   %8s %8.2f\n\n", "goal", "", "", slowestGoal)
	return nil
}

// metric is a figure that the benchmark prints: "1.25 ms-median".
var metric = regexp.MustCompile(`BenchmarkGraded/(\w+)\S*.*?([\d.]+) ms-95th\s+([\d.]+) ms-median`)

// ourSearch grades our search and times it in the browser: with the demo kit, and with
// 10,000 parts.
func ourSearch(ctx context.Context) (demo, many graded, err error) {
	ix := lookup.New(data.DemoKit(), data.Catalog(), data.Shelf())
	demo = grade(func(q lookuptest.Query) int { return q.Place(ix.Find(q.Text, 5)) })
	binary, err := os.CreateTemp("", "fieldkit-measure-*.wasm")
	if err != nil {
		return demo, many, err
	}
	defer os.Remove(binary.Name())
	binary.Close()
	compile := exec.CommandContext(ctx, "go", "test", "-c", "-o", binary.Name(), "./fieldkit/lookup")
	compile.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	if said, err := compile.CombinedOutput(); err != nil {
		return demo, many, fmt.Errorf("building the search for the browser: %w\n%s", err, said)
	}
	program, err := os.ReadFile(binary.Name())
	if err != nil {
		return demo, many, err
	}
	result, err := chromium.RunWasmTest(ctx, program, "-test.run=^$", "-test.bench=Graded", "-test.benchtime=2x")
	if err != nil {
		return demo, many, err
	}
	found := 0
	for _, m := range metric.FindAllStringSubmatch(result.Output, -1) {
		to := &demo
		if m[1] == "10000parts" {
			to = &many
		}
		fmt.Sscan(m[2]+" "+m[3], &to.Slow, &to.Median)
		found++
	}
	if found != 2 {
		return demo, many, fmt.Errorf("the benchmark in the browser gave no times:\n%s", result.Output)
	}
	return demo, many, nil
}

func grade(place func(lookuptest.Query) int) (g graded) {
	all, held := 0.0, 0.0
	for _, q := range lookuptest.Queries() {
		at := place(q)
		first, five := 0.0, 0.0
		if at == 0 {
			first = 1
		}
		if at >= 0 && at < 5 {
			five = 1
		}
		all, g.First, g.Five = all+1, g.First+first, g.Five+five
		if q.Held {
			held, g.HeldFirst, g.HeldFive = held+1, g.HeldFirst+first, g.HeldFive+five
		}
	}
	g.First, g.Five, g.HeldFirst, g.HeldFive = g.First/all, g.Five/all, g.HeldFirst/held, g.HeldFive/held
	return g
}

// libraryResult is one way of asking a library.
type libraryResult struct {
	Way string `json:"way"`
	graded
}

// libraryResults fetches the libraries into a folder that is thrown away and asks them
// in a page.
func libraryResults(ctx context.Context, folder string) (map[string][]libraryResult, error) {
	install := []string{"install", "--no-save", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", folder}
	for _, l := range libraries {
		install = append(install, l.name+"@"+l.version)
	}
	if said, err := exec.CommandContext(ctx, "npm", install...).CombinedOutput(); err != nil {
		return nil, fmt.Errorf("npm %s: %w\n%s", strings.Join(install, " "), err, said)
	}
	asked, err := json.Marshal(forLibraries())
	if err != nil {
		return nil, err
	}
	files := map[string][]byte{"/asked.json": asked, "/search.js": []byte(searchScript)}
	for _, l := range libraries {
		path := "/" + l.name + ".js"
		if files[path], err = os.ReadFile(filepath.Join(folder, "node_modules", l.name, l.file)); err != nil {
			return nil, err
		}
	}
	files["/"] = []byte(`<!doctype html><title>search</title><script type="module" src="/search.js"></script>`)
	return askPage[map[string][]libraryResult](ctx, files)
}

type libraryQuery struct {
	Text    string `json:"text"`
	Held    bool   `json:"held"`
	Answers []int  `json:"answers"` // places of documents
}

type libraryTask struct {
	Documents []lookuptest.Document `json:"documents"`
	Queries   []libraryQuery        `json:"queries"`
}

func forLibraries() libraryTask {
	t := libraryTask{Documents: lookuptest.Corpus(data.DemoKit(), data.Catalog(), data.Handbook(), data.TableRows())}
	for _, q := range lookuptest.Queries() {
		one := libraryQuery{Text: q.Text, Held: q.Held}
		for i, d := range t.Documents {
			if d.Answers(q) {
				one.Answers = append(one.Answers, i)
			}
		}
		t.Queries = append(t.Queries, one)
	}
	return t
}

// askPage serves the files and waits for what the page makes of them.
func askPage[T any](ctx context.Context, files map[string][]byte) (results T, err error) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return results, err
	}
	types := map[string]string{"": "text/html; charset=utf-8", ".js": "text/javascript", ".json": "application/json", ".wasm": "application/wasm"}
	server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		body, known := files[r.URL.Path]
		if !known {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", types[filepath.Ext(r.URL.Path)])
		w.Write(body)
	})}
	go server.Serve(listener)
	defer server.Close()
	b, err := chromium.Start(ctx, chromium.Options{})
	if err != nil {
		return results, err
	}
	defer b.Kill()
	page, err := b.Open("http://" + listener.Addr().String() + "/")
	if err != nil {
		return results, err
	}
	page.Limit *= 20 // comparing with every text is slow
	if err := page.WaitFor("the libraries' answers", "globalThis.results || globalThis.failed"); err != nil {
		return results, err
	}
	if failed, _ := chromium.Eval[string](page, "globalThis.failed || ''"); failed != "" {
		return results, fmt.Errorf("the page that asks the libraries: %s", failed)
	}
	text, err := chromium.Eval[string](page, "JSON.stringify(globalThis.results)")
	if err != nil {
		return results, err
	}
	return results, json.Unmarshal([]byte(text), &results)
}
