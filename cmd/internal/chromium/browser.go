package chromium

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"sync"
	"time"

	"github.com/chromedp/chromedp"

	"trailfieldkit/fieldkit"
)

// Options say which browser to start. The zero value is a desktop browser with a
// profile of its own that is removed at the end.
type Options struct {
	Phone   bool           // 360×740 points, scale 2, touch
	Profile string         // folder to keep and go on from; empty means a fresh one
	Flags   map[string]any // more command line flags: string values, or true
}

// Size of the phone in points.
const (
	PhoneWidth  = 360
	PhoneHeight = 740
	PhoneScale  = 2
)

const (
	startLimit = 60 * time.Second
	closeLimit = 10 * time.Second
)

// Browser is one running browser process.
type Browser struct {
	options  Options
	profile  string
	own      bool // the profile is removed at the end
	path     string
	ctx      context.Context
	cancel   context.CancelFunc
	process  *exec.Cmd
	said     *limitedBuffer
	recorder *recorder
	ended    sync.Once
}

// Start starts a browser and waits until it answers.
func Start(ctx context.Context, o Options) (*Browser, error) {
	path, err := Find()
	if err != nil {
		return nil, err
	}
	b := &Browser{options: o, profile: o.Profile, path: path, said: &limitedBuffer{}}
	if b.profile == "" {
		if b.profile, err = os.MkdirTemp("", "fieldkit-profile-"); err != nil {
			return nil, err
		}
		b.own = true
	}
	if b.recorder, err = newRecorder(); err != nil {
		return nil, err
	}
	allocator, stop := chromedp.NewExecAllocator(ctx, b.flags()...)
	tab, cancel := chromedp.NewContext(allocator)
	b.ctx = tab
	b.cancel = func() { cancel(); stop() }
	// The life of the browser hangs on the context of its first action, so the limit
	// is a timer beside it.
	late := time.AfterFunc(startLimit, b.killGroup)
	err = chromedp.Do(tab)
	if !late.Stop() && err == nil {
		err = context.DeadlineExceeded
	}
	if err != nil {
		b.Kill()
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, Where: path, Cause: err,
			What: fmt.Sprintf("Chromium did not start: %v %s", err, b.said.String()),
			Do:   "run it by hand to see what it needs"}
	}
	return b, nil
}

func (b *Browser) flags() []chromedp.ExecAllocatorOption {
	list := append([]chromedp.ExecAllocatorOption{}, chromedp.DefaultExecAllocatorOptions[:]...)
	list = append(list,
		chromedp.ExecPath(b.path),
		chromedp.UserDataDir(b.profile),
		chromedp.NoSandbox,
		chromedp.Flag("headless", "new"),
		chromedp.Flag("disable-gpu", true),
		chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-domain-reliability", true),
		chromedp.Flag("no-pings", true),
		chromedp.Flag("lang", "en-GB"),
		chromedp.Flag("proxy-server", b.recorder.address()),
		chromedp.CombinedOutput(b.said),
		chromedp.ModifyCmdFunc(func(cmd *exec.Cmd) {
			ownGroup(cmd)
			b.process = cmd
		}),
	)
	for name, value := range b.options.Flags {
		list = append(list, chromedp.Flag(name, value))
	}
	return list
}

// Profile is the folder the browser keeps its data in.
func (b *Browser) Profile() string { return b.profile }

// Open opens an address in a new tab and waits until its document is read.
func (b *Browser) Open(address string) (*Page, error) {
	page, err := b.Blank()
	if err != nil {
		return nil, err
	}
	return page, page.Goto(address)
}

// Kill ends the browser with all its processes at once, as a dead battery does. A
// profile that was given stays as it is on disk.
func (b *Browser) Kill() {
	b.ended.Do(func() {
		b.killGroup()
		b.release()
	})
}

// Restart kills the browser and starts a new process on the same profile. The
// pages of the old one are gone.
func (b *Browser) Restart(ctx context.Context) (*Browser, error) {
	o := b.options
	o.Profile = b.profile
	own := b.own
	b.own = false
	b.Kill()
	next, err := Start(ctx, o)
	if err != nil {
		if own {
			removeProfile(b.profile)
		}
		return nil, err
	}
	next.own = own
	return next, nil
}

// Close lets the browser end by itself, so that what it holds back reaches the disk.
func (b *Browser) Close() {
	b.ended.Do(func() {
		closing, cancel := context.WithTimeout(b.ctx, closeLimit)
		chromedp.Cancel(closing)
		cancel()
		b.killGroup()
		b.release()
	})
}

func (b *Browser) killGroup() {
	if b.process != nil && b.process.Process != nil {
		killGroup(b.process.Process)
	}
}

func (b *Browser) release() {
	b.cancel()
	b.recorder.close()
	if b.own {
		removeProfile(b.profile)
	}
}

// removeProfile tries for a while: processes that are just dying still write.
func removeProfile(dir string) {
	for range 50 {
		if os.RemoveAll(dir) == nil {
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
}

// ForeignRequests lists the hosts beyond this computer that anything in the browser
// asked for, pages and workers; what the browser asks for itself is left out.
func (b *Browser) ForeignRequests() []string { return b.recorder.list() }

// limitedBuffer keeps the first bytes of what a process prints.
type limitedBuffer struct {
	mu   sync.Mutex
	text bytes.Buffer
}

func (l *limitedBuffer) Write(p []byte) (int, error) {
	const limit = 4 << 10
	l.mu.Lock()
	defer l.mu.Unlock()
	if room := limit - l.text.Len(); room > 0 {
		l.text.Write(p[:min(room, len(p))])
	}
	return len(p), nil
}

func (l *limitedBuffer) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}
