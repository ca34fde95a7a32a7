package chromium

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
)

// DefaultLimit is how long a wait or an action may take. It is long because a
// loaded computer is slow, and a test that passes never waits for it.
const DefaultLimit = 30 * time.Second

const between = 50 * time.Millisecond // two looks at the page

// Page is one tab.
type Page struct {
	Limit   time.Duration // for each wait and action
	browser *Browser
	ctx     context.Context
	cancel  context.CancelFunc
	taps    int         // so far
	touches chan string // what the page reports of them

	mu       sync.Mutex
	faults   []string
	console  []string
	requests []Request
	byID     map[network.RequestID]int
}

// Request is one request a page made, and how it ended.
type Request struct {
	Method, URL string
	Status      int  // 0 if there was no answer
	FromWorker  bool // answered by the service worker
	Failed      string
}

// Blank opens an empty tab, to be prepared before it goes anywhere.
func (b *Browser) Blank() (*Page, error) {
	ctx, cancel := chromedp.NewContext(b.ctx, chromedp.WithNewWindow(false))
	p := &Page{Limit: DefaultLimit, browser: b, ctx: ctx, cancel: cancel, byID: map[network.RequestID]int{},
		touches: make(chan string, 8)}
	if err := chromedp.Listen(ctx, p.note); err != nil {
		return nil, fmt.Errorf("opening a tab: %w", err)
	}
	if err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, runtime.AddBinding, runtime.AddBindingParams{Name: touched})
		return err
	})); err != nil {
		return nil, fmt.Errorf("opening a tab: %w", err)
	}
	if b.options.Phone {
		err := chromedp.Do(ctx, chromedp.EmulateViewport(PhoneWidth, PhoneHeight, chromedp.EmulateScale(PhoneScale),
			chromedp.EmulatePortrait, chromedp.EmulateMobile, chromedp.EmulateTouch))
		if err != nil {
			return nil, fmt.Errorf("setting the size of a phone: %w", err)
		}
	}
	return p, nil
}

// note keeps what the page logs, throws and asks for. It runs in the browser's
// reading loop and only stores.
func (p *Page) note(event any) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		p.faults = append(p.faults, exceptionText(e.ExceptionDetails))
	case *runtime.EventBindingCalled:
		if e.Name == touched {
			select {
			case p.touches <- e.Payload:
			default: // nobody waits for them any more
			}
		}
	case *runtime.EventConsoleAPICalled:
		line := string(e.Type) + ": " + consoleText(e.Args)
		p.console = append(p.console, line)
		if e.Type == "error" {
			p.faults = append(p.faults, line)
		}
	case *log.EventEntryAdded:
		line := string(e.Entry.Level) + ": " + e.Entry.Text + " " + e.Entry.URL
		p.console = append(p.console, line)
		if e.Entry.Level == log.EntryLevelError {
			p.faults = append(p.faults, line)
		}
	case *network.EventRequestWillBeSent:
		p.byID[e.RequestID] = len(p.requests)
		p.requests = append(p.requests, Request{Method: e.Request.Method, URL: e.Request.URL})
	case *network.EventResponseReceived:
		if i, known := p.byID[e.RequestID]; known {
			p.requests[i].Status = int(e.Response.Status)
			p.requests[i].FromWorker = e.Response.FromServiceWorker
		}
	case *network.EventLoadingFailed:
		if i, known := p.byID[e.RequestID]; known {
			p.requests[i].Failed = e.ErrorText
		}
	}
}

// Faults lists exceptions nobody caught, console errors, and what the browser
// itself complains of (a refused script, a missing file), since the last call.
func (p *Page) Faults() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	list := p.faults
	p.faults = nil
	return list
}

// Console lists everything the page wrote to the console.
func (p *Page) Console() []string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]string{}, p.console...)
}

// Requests lists what the page asked for, in order. What its worker fetched for
// itself is not in it.
func (p *Page) Requests() []Request {
	p.mu.Lock()
	defer p.mu.Unlock()
	return append([]Request{}, p.requests...)
}

// Close closes the tab.
func (p *Page) Close() { p.cancel() }

// Do runs a step of the browser's protocol that this package has no word for.
func (p *Page) Do(step func(ctx context.Context, t *chromedp.Target) error) error {
	return p.do(chromedp.Func(step))
}

// do runs steps of the browser's protocol within the limit.
func (p *Page) do(steps ...chromedp.Action[chromedp.Void]) error {
	ctx, cancel := context.WithTimeout(p.ctx, p.Limit)
	defer cancel()
	return chromedp.Do(ctx, steps...)
}

// Goto opens an address in this tab.
func (p *Page) Goto(address string) error {
	if err := p.do(chromedp.Navigate(address)); err != nil {
		return fmt.Errorf("opening %s: %w", address, err)
	}
	return nil
}

// Reload loads the page again, as a person does.
func (p *Page) Reload() error { return p.do(chromedp.Reload()) }

// Back goes one page back.
func (p *Page) Back() error { return p.Run(`history.back()`) }

// Forward goes one page forward.
func (p *Page) Forward() error { return p.Run(`history.forward()`) }

// Eval evaluates a script and decodes its result, waiting for a promise.
func Eval[T any](p *Page, script string) (T, error) {
	ctx, cancel := context.WithTimeout(p.ctx, p.Limit)
	defer cancel()
	value, err := chromedp.Run(ctx, chromedp.Evaluate[T](script, chromedp.EvalAwaitPromise))
	if err != nil {
		return value, fmt.Errorf("%.120s: %w", script, err)
	}
	return value, nil
}

// Run evaluates a script for what it does.
func (p *Page) Run(script string) error {
	_, err := Eval[any](p, "void ("+script+")")
	return err
}

// WaitFor waits until an expression, or what it promises, is true. what says in words
// what that is.
func (p *Page) WaitFor(what, expression string) error {
	deadline := time.Now().Add(p.Limit)
	var last error
	for {
		// a page that is just being replaced cannot answer: that is no fault
		met, err := Eval[bool](p, "Promise.resolve("+expression+").then(Boolean)")
		if met {
			return nil
		}
		last = err
		if p.ctx.Err() != nil || time.Now().After(deadline) {
			break
		}
		time.Sleep(between)
	}
	return p.unmet(what, last)
}

func (p *Page) unmet(what string, cause error) error {
	shown, _ := p.Text()
	address, _ := Eval[string](p, "location.href")
	message := fmt.Sprintf("waited %v for %s on %s; the page shows:\n%s", p.Limit, what, address, clip(shown, 3000))
	if logged := strings.Join(p.Console(), "\n"); logged != "" {
		message += "\nconsole:\n" + clip(logged, 2000)
	}
	if cause != nil {
		return fmt.Errorf("%s\n%w", message, cause)
	}
	return errors.New(message)
}

func clip(text string, limit int) string {
	if len(text) > limit {
		return text[:limit] + " …"
	}
	return text
}

// Text is what a person can read on the page.
func (p *Page) Text() (string, error) { return Eval[string](p, "document.body.innerText") }

// WaitText waits until the page shows a text, in any case and spacing.
func (p *Page) WaitText(text string) error {
	return p.WaitFor(fmt.Sprintf("the text %q", text), holds(text))
}

// WaitGone waits until the page no longer shows a text.
func (p *Page) WaitGone(text string) error {
	return p.WaitFor(fmt.Sprintf("the text %q to go", text), "!("+holds(text)+")")
}

func holds(text string) string {
	return fmt.Sprintf(`(() => { const plain = (s) => s.replace(/\s+/g, ' ').trim().toLowerCase();
		return document.body && plain(document.body.innerText).includes(plain(%s)); })()`, quote(text))
}

// Screenshot writes what the phone shows to a .png file.
func (p *Page) Screenshot(file string) error { return p.screenshot(file, false) }

// FullScreenshot writes the whole page, beyond what fits on the screen.
func (p *Page) FullScreenshot(file string) error { return p.screenshot(file, true) }

func (p *Page) screenshot(file string, whole bool) error {
	params := page.CaptureScreenshotParams{Format: page.CaptureScreenshotFormatPng}
	if whole {
		size, err := Eval[[]float64](p, "[document.documentElement.scrollWidth, document.documentElement.scrollHeight]")
		if err != nil {
			return err
		}
		beyond := true
		params.CaptureBeyondViewport = &beyond
		params.Clip = &page.Viewport{Width: size[0], Height: size[1], Scale: 1}
	}
	var picture []byte
	err := p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		taken, err := cdp.Call(ctx, t, page.CaptureScreenshot, params)
		picture = taken.Data
		return err
	}))
	if err != nil {
		return fmt.Errorf("taking a picture of the page: %w", err)
	}
	if err := os.MkdirAll(filepath.Dir(file), 0o755); err != nil {
		return err
	}
	return os.WriteFile(file, picture, 0o644)
}

// OnEachDocument runs a script in every document this tab opens from now on, before
// the document's own scripts.
func (p *Page) OnEachDocument(script string) error {
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, page.AddScriptToEvaluateOnNewDocument,
			page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return err
	}))
}

// SlowCPU makes the page's processor slower by a factor; 1 is normal.
func (p *Page) SlowCPU(factor float64) error {
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: factor})
		return err
	}))
}

// SetOffline cuts this page off the network, or connects it again. Its worker keeps
// its own connection: to test without signal, stop the server.
func (p *Page) SetOffline(offline bool) error {
	return p.do(chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		if _, err := cdp.Call(ctx, t, network.OverrideNetworkState, network.OverrideNetworkStateParams{
			Offline: offline, DownloadThroughput: -1, UploadThroughput: -1}); err != nil {
			return err
		}
		_, err := cdp.Call(ctx, t, network.EmulateNetworkConditionsByRule, network.EmulateNetworkConditionsByRuleParams{
			EmulateOfflineServiceWorker: &offline,
			MatchedNetworkConditions: []*network.Conditions{{
				Offline: offline, DownloadThroughput: -1, UploadThroughput: -1}},
		})
		return err
	}))
}

func quote(text string) string {
	quoted, err := json.Marshal(text)
	if err != nil {
		panic(err) // a string always encodes
	}
	return string(quoted)
}

func consoleText(args []*runtime.RemoteObject) string {
	var words []string
	for _, arg := range args {
		var text string
		switch {
		case arg.Type == runtime.RemoteObjectTypeString && json.Unmarshal(arg.Value, &text) == nil:
			words = append(words, text)
		case arg.Description != "":
			words = append(words, arg.Description)
		default:
			words = append(words, string(arg.Value))
		}
	}
	return strings.Join(words, " ")
}

func exceptionText(d *runtime.ExceptionDetails) string {
	if d.Exception != nil && d.Exception.Description != "" {
		return "exception: " + d.Exception.Description
	}
	return "exception: " + d.Text
}
