package faults

import (
	"context"
	"encoding/json"
	"fmt"
	"net"
	"net/http"
	"os"
	"strconv"
	"strings"
	"sync"

	"trailfieldkit/cmd/internal/build"
	"trailfieldkit/cmd/internal/chromium"
	"trailfieldkit/cmd/internal/faults/diary"
	"trailfieldkit/web"
)

// site serves the page of the bench under /bench/, the app everywhere else, and hears
// what pages announce.
type site struct {
	server  *http.Server
	address string

	mu     sync.Mutex
	ledger map[string]*ledger
	seen   map[string]int // transactions that may write, by durability, of the page that spoke last
	heard  chan event
}

// event is one announcement of a page.
type event struct {
	what, name string
	n          int
}

// ledger is what is known of one database: what was begun and what was acknowledged.
type ledger struct {
	tried, acknowledged map[int]bool
	last                int
	underWay            int // begun and not acknowledged, 0 for none
}

const benchPage = `<!doctype html><meta charset="utf-8"><title>bench</title>
<script src="/bench/wasm_exec.js"></script><script src="/bench/start.js"></script>`

const benchStart = `(async () => {
	const go = new Go();
	const program = await WebAssembly.instantiateStreaming(fetch('/bench/bench.wasm'), go.importObject);
	go.run(program.instance);
})()`

func newSite(ctx context.Context) (*site, error) {
	bench, err := build.WebAssembly(ctx, build.Options{Package: "./cmd/internal/faults/bench"})
	if err != nil {
		return nil, err
	}
	app, err := program(ctx)
	if err != nil {
		return nil, err
	}
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	s := &site{address: "http://" + listener.Addr().String(), ledger: map[string]*ledger{}, heard: make(chan event, 10_000)}
	file := func(kind string, body []byte) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", kind)
			w.Write(body)
		}
	}
	mux := http.NewServeMux()
	mux.HandleFunc("/bench/{$}", file("text/html; charset=utf-8", []byte(benchPage)))
	mux.HandleFunc("/bench/start.js", file("text/javascript", []byte(benchStart)))
	mux.HandleFunc("/bench/wasm_exec.js", file("text/javascript", bench.WasmExec))
	mux.HandleFunc("/bench/bench.wasm", file("application/wasm", bench.Wasm))
	mux.HandleFunc("POST /heard", s.hear)
	mux.Handle("/", app)
	s.server = &http.Server{Handler: mux}
	go s.server.Serve(listener)
	return s, nil
}

func (s *site) stop() { s.server.Close() }

// program renders the app as it is served.
func program(ctx context.Context) (http.Handler, error) {
	out, err := build.WebAssembly(ctx, build.Options{})
	if err != nil {
		return nil, err
	}
	rendered, err := web.Render(web.Input{Wasm: out.Wasm, WasmExec: out.WasmExec})
	return rendered.Handler(nil), err
}

func (s *site) hear(_ http.ResponseWriter, r *http.Request) {
	n, _ := strconv.Atoi(r.FormValue("n")) // no number is 0
	e := event{r.FormValue("what"), r.FormValue("name"), n}
	var seen map[string]int
	_ = json.Unmarshal([]byte(r.FormValue("seen")), &seen) // none counted is none strict, and noticed
	s.mu.Lock()
	s.seen = seen
	l := s.ledgerOf(e.name)
	switch e.what {
	case "trying":
		l.tried[n], l.underWay, l.last = true, n, max(l.last, n)
	case "acknowledged":
		l.acknowledged[n], l.underWay = true, 0
	}
	s.mu.Unlock()
	select {
	case s.heard <- e:
	default: // nobody counts any more
	}
}

// ledgerOf is called with the lock held.
func (s *site) ledgerOf(name string) *ledger {
	if s.ledger[name] == nil {
		s.ledger[name] = &ledger{tried: map[int]bool{}, acknowledged: map[int]bool{}}
	}
	return s.ledger[name]
}

// forget empties the queue of what was heard.
func (s *site) forget() {
	for {
		select {
		case <-s.heard:
		default:
			return
		}
	}
}

// answer is what the bench gives back; see its main_js.go.
type answer struct {
	Err   string       `json:"err"`
	Found *diary.Found `json:"found"`
	Run   *diary.Run   `json:"run"`
	Kit   string       `json:"kit"`
	Wrote []int        `json:"wrote"`
	Told  []string     `json:"told"`
}

// watchDurability makes a page count the transactions that may write, by what the
// browser says of their durability when it is read back, and note the databases that the
// browser makes anew because it found them damaged.
const watchDurability = `(() => {
	globalThis.durabilities = {};
	const real = IDBDatabase.prototype.transaction;
	IDBDatabase.prototype.transaction = function (...args) {
		const tx = real.apply(this, args);
		if (tx.mode !== 'readonly') durabilities[tx.durability] = (durabilities[tx.durability] || 0) + 1;
		return tx;
	};
	globalThis.thrownAway = [];
	const open = IDBFactory.prototype.open;
	IDBFactory.prototype.open = function (...args) {
		const request = open.apply(this, args);
		request.addEventListener('upgradeneeded', (e) => {
			if (e.dataLoss && e.dataLoss !== 'none') thrownAway.push(args[0] + ': ' + e.dataLoss + ', ' + e.dataLossMessage);
		});
		return request;
	};
})()`

// openBench opens a page of the bench with scripts run before its own.
func (s *site) openBench(b *chromium.Browser, scripts ...string) (*chromium.Page, error) {
	page, err := b.Blank()
	if err != nil {
		return nil, err
	}
	for _, script := range append([]string{watchDurability}, scripts...) {
		if err := page.OnEachDocument(script); err != nil {
			return nil, err
		}
	}
	if err := page.Goto(s.address + "/bench/"); err != nil {
		return nil, err
	}
	return page, page.WaitFor("the bench", "globalThis.benchReady === true")
}

// order gives the bench an order and waits for its answer.
func order(page *chromium.Page, words ...any) (answer, error) {
	var args []string
	for _, w := range words {
		args = append(args, fmt.Sprintf("%q", fmt.Sprint(w)))
	}
	text, err := chromium.Eval[string](page, "bench("+strings.Join(args, ", ")+")")
	if err != nil {
		return answer{}, err
	}
	var a answer
	return a, json.Unmarshal([]byte(text), &a)
}

// strict asks a page how it writes, and notes every transaction that was not strict.
func strict(c *Class, page *chromium.Page) (writes int) {
	found, err := chromium.Eval[map[string]int](page, "durabilities")
	if err != nil {
		c.bad("the page does not say how it writes: %v", err)
	}
	return allStrict(c, found)
}

func allStrict(c *Class, seen map[string]int) (writes int) {
	for durability, n := range seen {
		if writes += n; durability != "strict" {
			c.bad("%d transactions that may write are %q", n, durability)
		}
	}
	return writes
}

// judge compares a look with the ledger of a database.
func (s *site) judge(c *Class, name string, a answer) {
	if a.Err != "" || a.Found == nil {
		c.Closed++
		c.bad("%s does not open: %s", name, a.Err)
		return
	}
	for _, m := range a.Told {
		c.tell(m)
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	l := s.ledgerOf(name)
	for n := range l.acknowledged {
		l.tried[n] = true
	}
	var acknowledged []int
	for n := range l.acknowledged {
		acknowledged = append(acknowledged, n)
	}
	if missing := diary.Missing(acknowledged, a.Found.Here); len(missing) > 0 {
		c.Lost += len(missing)
		c.bad("%s: acknowledged and lost: %v", name, missing)
	}
	for _, n := range a.Found.Here {
		if !l.tried[n] {
			c.bad("%s: action %d is there, and nobody did it", name, n)
		}
	}
	for _, w := range a.Found.Wrong {
		c.bad("%s: %s", name, w)
	}
}

// newProfile is a folder for a browser's data.
func newProfile() (string, func(), error) {
	dir, err := os.MkdirTemp("", "fieldkit-faults-")
	return dir, func() { os.RemoveAll(dir) }, err
}
