package starts

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"net"
	"net/http"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"trailfieldkit/web"
)

// The stand-in: a module that does nothing, made long enough that files of it break
// at borders of blocks, and a script that draws a first screen.
const (
	paddingSize = 70_000
	standIn     = `globalThis.Go = class {
	constructor() { this.importObject = {}; this.exited = false; }
	run() {
		const main = document.createElement('main');
		main.dataset.phase = 'open';
		main.textContent = 'edition ' + goappGetenv('GOAPP_VERSION');
		document.querySelector('body > div').prepend(main);
		return new Promise(() => {});
	}
};
`
)

func wasmModule() []byte {
	var out bytes.Buffer
	out.Write([]byte{0, 'a', 's', 'm', 1, 0, 0, 0})
	return append(out.Bytes(), customSection(bytes.Repeat([]byte{'.'}, paddingSize))...)
}

// customSection is a part of a module that is passed by: WebAssembly core
// specification, "custom section". The length is five bytes of LEB128.
func customSection(content []byte) []byte {
	n := len(content) + 2
	section := []byte{0, byte(n&0x7f | 0x80), byte(n>>7&0x7f | 0x80), byte(n>>14&0x7f | 0x80), byte(n>>21&0x7f | 0x80), byte(n >> 28 & 0x7f), 1, 'p'}
	return append(section, content...)
}

// firstEdition renders the site around the stand-in.
func firstEdition() (web.Site, error) {
	return web.Render(web.Input{Wasm: wasmModule(), WasmExec: []byte(standIn)})
}

// edition gives every file of a site other bytes, as a later version has them, and
// the worker their hashes; the start script names the worker, as web.Render writes it.
func edition(first web.Site, n int) web.Site {
	next := web.Site{Version: sumOf(fmt.Appendf(nil, "%s %d", first.Version, n))[:16], Base: first.Base, Files: map[string]web.File{}}
	renewed := func(body []byte) []byte {
		return bytes.ReplaceAll(body, []byte(first.Version), []byte(next.Version))
	}
	worker := renewed(first.Files[web.Worker].Body)
	named := fmt.Appendf(nil, `"worker":"%s"`, saidOfItself(worker))
	for name, file := range first.Files {
		if name == web.Worker {
			continue
		}
		body := renewed(file.Body)
		if name == web.Start {
			body = workerNamed.ReplaceAll(body, named)
		}
		changed := web.File{Type: file.Type, Body: append(bytes.Clone(body), remark(file.Type, n)...)}
		changed.SHA256 = sumOf(changed.Body)
		worker = bytes.ReplaceAll(worker, []byte(file.SHA256), []byte(changed.SHA256))
		next.Files[name] = changed
	}
	next.Files[web.Worker] = web.File{Type: first.Files[web.Worker].Type, Body: worker, SHA256: sumOf(worker)}
	return next
}

var (
	workerNamed = regexp.MustCompile(`"worker":"[0-9a-f]{64}"`)
	fileHash    = regexp.MustCompile(`"sha256":"[0-9a-f]{64}"`)
)

// saidOfItself is the hash that a worker gives of itself: its code, and its list of
// files without their hashes.
func saidOfItself(worker []byte) string {
	code := worker[bytes.Index(worker, []byte("function keeper(")):bytes.LastIndex(worker, []byte(")({"))]
	list := worker[bytes.LastIndex(worker, []byte(")({"))+2 : bytes.LastIndex(worker, []byte(");"))]
	return sumOf(fmt.Appendf(nil, "%s\n%s", code, fileHash.ReplaceAll(list, []byte(`"sha256":""`))))
}

func sumOf(body []byte) string {
	sum := sha256.Sum256(body)
	return hex.EncodeToString(sum[:])
}

// remark is something a file of a type may end with, and mean the same.
func remark(kind string, n int) []byte {
	switch {
	case strings.HasPrefix(kind, "text/html"), strings.HasPrefix(kind, "image/svg"):
		return fmt.Appendf(nil, "<!-- %d -->", n)
	case strings.HasPrefix(kind, "text/"):
		return fmt.Appendf(nil, "/* %d */", n)
	case kind == "application/wasm":
		return customSection([]byte(strconv.Itoa(n)))
	case kind == "application/manifest+json":
		return bytes.Repeat([]byte(" "), n%500+1)
	}
	return fmt.Appendf(nil, "%d", n)
}

// host is one origin: what it serves, well or badly, or no signal.
type host struct {
	mu   sync.Mutex
	site web.Site
	good http.Handler
	file string // served badly
	how  breakage
	well int // how often the file is served well before
	dark bool
	open map[string]int // requests that are being answered
}

// underWay says what is being answered.
func (h *host) underWay() string {
	h.mu.Lock()
	defer h.mu.Unlock()
	if len(h.open) == 0 {
		return "nothing asked of the server"
	}
	return fmt.Sprintf("being answered %v", h.open)
}

// begin notes a request, until the function it gives is called.
func (h *host) begin(path string) (end func()) {
	h.mu.Lock()
	defer h.mu.Unlock()
	if h.open == nil {
		h.open = map[string]int{}
	}
	h.open[path]++
	return func() {
		h.mu.Lock()
		defer h.mu.Unlock()
		if h.open[path]--; h.open[path] == 0 {
			delete(h.open, path)
		}
	}
}

func (h *host) publish(s web.Site) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.site, h.good = s, s.Handler(nil)
}

func (h *host) set(file string, how breakage, dark bool) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.file, h.how, h.well, h.dark = file, how, 0, dark
}

// setLate serves a file badly from the second time on.
func (h *host) setLate(file string, how breakage) {
	h.mu.Lock()
	defer h.mu.Unlock()
	h.file, h.how, h.well, h.dark = file, how, 1, false
}

func (h *host) serve(w http.ResponseWriter, r *http.Request) {
	defer h.begin(r.URL.Path)()
	h.mu.Lock()
	site, good, file, how, dark := h.site, h.good, h.file, h.how, h.dark
	name := strings.TrimPrefix(r.URL.Path, site.Base)
	spoilt := how != nil && (name == file || file == web.Shell && (name == "" || name == "index.html"))
	if spoilt && h.well > 0 && !dark {
		h.well--
		spoilt = false
	}
	h.mu.Unlock()
	if dark {
		hangUp(w)
		return
	}
	if spoilt {
		served := name
		if name == "" {
			served = web.Shell
		}
		how(w, r, site.Files[served])
		return
	}
	good.ServeHTTP(w, r)
}

// hangUp ends a connection without an answer.
func hangUp(w http.ResponseWriter) {
	if conn, _, err := w.(http.Hijacker).Hijack(); err == nil {
		if tcp, ok := conn.(*net.TCPConn); ok {
			tcp.SetLinger(0)
		}
		conn.Close()
	}
}

// field is the server of all hosts, told apart by name: every name below localhost is
// an origin of its own.
type field struct {
	server  *http.Server
	address string // port
	mu      sync.Mutex
	hosts   map[string]*host
}

func newField() (*field, error) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	_, port, _ := net.SplitHostPort(listener.Addr().String())
	f := &field{address: port, hosts: map[string]*host{}}
	f.server = &http.Server{Handler: http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		f.mu.Lock()
		h := f.hosts[r.Host]
		f.mu.Unlock()
		if h == nil {
			http.NotFound(w, r)
			return
		}
		h.serve(w, r)
	})}
	go f.server.Serve(listener)
	return f, nil
}

// host adds an origin that serves a site, and gives its address.
func (f *field) host(s web.Site) (*host, string) {
	f.mu.Lock()
	defer f.mu.Unlock()
	h := &host{}
	h.publish(s)
	name := fmt.Sprintf("n%d.localhost:%s", len(f.hosts), f.address)
	f.hosts[name] = h
	return h, "http://" + name
}
