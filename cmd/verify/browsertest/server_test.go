//go:build browser

package browsertest

import (
	"context"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os"
	"path"
	"strconv"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"trailfieldkit/cmd/internal/build"
	"trailfieldkit/web"
)

var programFile = flag.String("program", "", "test this compiled program instead of building one")

// compiled is the program and its script, built once for all tests.
var compiled = sync.OnceValues(func() (web.Input, error) {
	if *programFile != "" {
		wasm, err := os.ReadFile(*programFile)
		if err != nil {
			return web.Input{}, err
		}
		script, err := build.WasmExec(context.Background())
		return web.Input{Wasm: wasm, WasmExec: script}, err
	}
	out, err := build.WebAssembly(context.Background(), build.Options{})
	return web.Input{Wasm: out.Wasm, WasmExec: out.WasmExec}, err
})

// site renders the program for a base. Another edition is another version: its
// script carries a remark.
func site(t *testing.T, base string, edition int) web.Site {
	t.Helper()
	in, err := compiled()
	require.NoError(t, err)
	in.Base = base
	if edition > 1 {
		in.WasmExec = fmt.Appendf(nil, "%s\n// edition %d\n", in.WasmExec, edition)
	}
	rendered, err := web.Render(in)
	require.NoError(t, err)
	return rendered
}

// server serves a site under one address that stays the same when it is stopped and
// started. It can be told to serve any file badly.
type server struct {
	t       *testing.T
	address string
	base    string

	mu      sync.Mutex
	handler http.Handler
	files   web.Site
	running *http.Server
	asked   []request
	faults  map[string]fault
	offered []byte
}

// request is one request that reached the server.
type request struct {
	Path   string // relative to the base
	Status int
	Bytes  int
}

// fault serves a file badly. It returns false to let the right answer follow.
type fault func(w http.ResponseWriter, r *http.Request, file web.File) (answered bool)

// serve starts a server with the program under "/".
func serve(t *testing.T) *server { return serveUnder(t, "/") }

func serveUnder(t *testing.T, base string) *server {
	t.Helper()
	s := &server{t: t, address: "127.0.0.1:0", base: base, faults: map[string]fault{}}
	s.Publish(1)
	s.Start()
	t.Cleanup(s.Stop)
	return s
}

// Publish puts an edition of the program in place of the one served. Edition 1 is
// the first; another number is another version.
func (s *server) Publish(edition int) {
	s.t.Helper()
	files := site(s.t, s.base, edition)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.files = files
	s.handler = files.Handler(s.offered)
}

// Offer makes the server propose a kit to take over, as fieldkit serve -kit does.
func (s *server) Offer(kit []byte) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.offered = kit
	s.handler = s.files.Handler(kit)
}

// Version is the version served now.
func (s *server) Version() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.files.Version
}

// Start listens, on the same address as before.
func (s *server) Start() {
	s.t.Helper()
	var listener net.Listener
	require.Eventually(s.t, func() (free bool) {
		var err error
		listener, err = net.Listen("tcp", s.address)
		return err == nil
	}, 10*time.Second, 50*time.Millisecond, "the address %s is not free again", s.address)
	s.mu.Lock()
	defer s.mu.Unlock()
	s.address = listener.Addr().String()
	s.running = &http.Server{Handler: http.HandlerFunc(s.answer)}
	go s.running.Serve(listener)
}

// Stop breaks every connection and answers no more: no signal.
func (s *server) Stop() {
	s.mu.Lock()
	running := s.running
	s.running = nil
	s.mu.Unlock()
	if running != nil {
		running.Close()
	}
}

// URL is the address of a path of the program: "/counter" is below the base.
func (s *server) URL(at string) string {
	return "http://" + s.address + s.base + strings.TrimPrefix(at, "/")
}

func (s *server) answer(w http.ResponseWriter, r *http.Request) {
	name := strings.TrimPrefix(r.URL.Path, s.base)
	s.mu.Lock()
	handler, bad, file := s.handler, s.faults[name], s.files.Files[name]
	s.mu.Unlock()
	counted := &countingWriter{ResponseWriter: w, status: http.StatusOK}
	// noted even when the answer is broken off by a panic
	defer func() {
		s.mu.Lock()
		defer s.mu.Unlock()
		s.asked = append(s.asked, request{Path: name, Status: counted.status, Bytes: counted.bytes})
	}()
	if bad != nil && bad(counted, r, file) {
		return
	}
	handler.ServeHTTP(counted, r)
}

type countingWriter struct {
	http.ResponseWriter
	status, bytes int
}

func (w *countingWriter) WriteHeader(status int) {
	w.status = status
	w.ResponseWriter.WriteHeader(status)
}

func (w *countingWriter) Write(p []byte) (int, error) {
	n, err := w.ResponseWriter.Write(p)
	w.bytes += n
	return n, err
}

func (w *countingWriter) Flush() { w.ResponseWriter.(http.Flusher).Flush() }

// Requests lists what reached the server so far, oldest first.
func (s *server) Requests() []request {
	s.mu.Lock()
	defer s.mu.Unlock()
	return append([]request{}, s.asked...)
}

// Forget empties the list of requests.
func (s *server) Forget() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.asked = nil
}

// Asked counts the requests for a file, by status; status 0 counts all.
func (s *server) Asked(name string, status int) int {
	count := 0
	for _, r := range s.Requests() {
		if r.Path == name && (status == 0 || r.Status == status) {
			count++
		}
	}
	return count
}

// WaitAsked waits until a file was asked for.
func (s *server) WaitAsked(name string) {
	s.t.Helper()
	require.Eventually(s.t, func() bool { return s.Asked(name, 0) > 0 }, 30*time.Second, 20*time.Millisecond,
		"nobody asked for %s", name)
}

// Break serves a file badly from now on. The page itself is the file "".
func (s *server) Break(name string, how fault) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults[name] = how
}

// Mend serves every file well again.
func (s *server) Mend() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.faults = map[string]fault{}
}

// gone answers 404.
func gone(w http.ResponseWriter, _ *http.Request, _ web.File) bool {
	http.Error(w, "gone", http.StatusNotFound)
	return true
}

// cut promises the whole file and breaks the connection half-way.
func cut(w http.ResponseWriter, _ *http.Request, file web.File) bool {
	w.Header().Set("Content-Type", file.Type)
	w.Header().Set("Content-Length", strconv.Itoa(len(file.Body)))
	w.Write(file.Body[:len(file.Body)/2])
	w.(http.Flusher).Flush()
	panic(http.ErrAbortHandler)
}

// short sends half of the file as if it were all.
func short(w http.ResponseWriter, _ *http.Request, file web.File) bool {
	w.Header().Set("Content-Type", file.Type)
	w.Write(file.Body[:len(file.Body)/2])
	return true
}

// altered sends the file with one byte changed.
func altered(w http.ResponseWriter, _ *http.Request, file web.File) bool {
	body := append([]byte{}, file.Body...)
	body[len(body)/2] ^= 1
	w.Header().Set("Content-Type", file.Type)
	w.Write(body)
	return true
}

// portal answers with the log-in page of a camp's network: status 200, and HTML.
func portal(w http.ResponseWriter, _ *http.Request, _ web.File) bool {
	w.Header().Set("Content-Type", "text/html")
	w.Write([]byte("<!doctype html><title>Welcome</title><p>Accept the terms to go on."))
	return true
}

// redirected sends the browser to the same file under another address.
func redirected(w http.ResponseWriter, r *http.Request, _ web.File) bool {
	if r.URL.Query().Has("moved") {
		return false
	}
	http.Redirect(w, r, path.Clean(r.URL.Path)+"?moved", http.StatusFound)
	return true
}

// held keeps a request waiting until release is called, then answers well.
func held() (how fault, release func()) {
	gate := make(chan struct{})
	return func(_ http.ResponseWriter, r *http.Request, _ web.File) bool {
		select {
		case <-gate:
		case <-r.Context().Done():
		}
		return false
	}, sync.OnceFunc(func() { close(gate) })
}
