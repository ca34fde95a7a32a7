package chromium

import (
	"bytes"
	"context"
	_ "embed"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"time"

	"trailfieldkit/cmd/internal/build"
)

//go:embed wasmtest.js
var wasmTestScript string

// WasmResult is how a test binary ended.
type WasmResult struct {
	Output string // what it printed, both streams in order
	Status int    // 0 passed
}

// RunWasmTest runs a test binary compiled for js/wasm (GOOS=js GOARCH=wasm go test
// -c) in a page of a fresh browser and waits for it to end. The page is served from
// a loopback address, which browsers treat as secure: IndexedDB, Cache Storage, Web
// Locks and BroadcastChannel are there. The binary gets args as it would on a
// command line, for example "-test.v". There are no files: tests must not read any.
func RunWasmTest(ctx context.Context, binary []byte, args ...string) (WasmResult, error) {
	var out bytes.Buffer
	status, err := StreamWasmTest(ctx, binary, &out, args...)
	return WasmResult{Output: out.String(), Status: status}, err
}

// longestStep is how long tests may compute without a pause, in which the page does
// not answer.
const longestStep = 5 * time.Minute

// StreamWasmTest is RunWasmTest that hands on what the binary prints as it comes.
func StreamWasmTest(ctx context.Context, binary []byte, out io.Writer, args ...string) (int, error) {
	script, err := build.WasmExec(ctx)
	if err != nil {
		return 0, err
	}
	address, stop, err := serveWasm(binary, script, args)
	if err != nil {
		return 0, err
	}
	defer stop()
	b, err := Start(ctx, Options{})
	if err != nil {
		return 0, err
	}
	defer b.Kill()
	page, err := b.Open(address)
	if err != nil {
		return 0, err
	}
	page.Limit = longestStep
	for {
		if ctx.Err() != nil {
			return 0, ctx.Err()
		}
		now, err := Eval[struct {
			Text   string `json:"text"`
			Ended  bool   `json:"ended"`
			Status int    `json:"status"`
		}](page, "takeOutput()")
		if err != nil {
			return 0, fmt.Errorf("the page with the tests does not answer: %w", err)
		}
		io.WriteString(out, now.Text)
		if now.Ended {
			return now.Status, nil
		}
		time.Sleep(between)
	}
}

func serveWasm(binary, script []byte, args []string) (address string, stop func(), err error) {
	words, err := json.Marshal(append([]string{"test"}, args...))
	if err != nil {
		return "", nil, err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return "", nil, err
	}
	files := map[string]struct {
		kind string
		body []byte
	}{
		"/":             {"text/html; charset=utf-8", []byte(`<!doctype html><title>tests</title><script src="run.js"></script>`)},
		"/run.js":       {"text/javascript", []byte(strings.Replace(wasmTestScript, "TEST_ARGS", string(words), 1))},
		"/wasm_exec.js": {"text/javascript", script},
		"/test.wasm":    {"application/wasm", binary},
	}
	server := &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		file, known := files[r.URL.Path]
		if !known {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", file.kind)
		w.Write(file.body)
	})}
	go server.Serve(listener)
	return "http://" + listener.Addr().String() + "/", func() { server.Close() }, nil
}
