package build

import (
	"bytes"
	"fmt"
	"strings"
	"sync"
	"time"
)

// progress turns what go build -v prints (one line a package, and faults) into a
// line a person can wait by, once a second.
type progress struct {
	report   func(string)
	packages int
	began    time.Time
	done     chan struct{}

	mu       sync.Mutex
	lines    bytes.Buffer // everything but names of packages
	compiled int
	partial  []byte
}

func newProgress(report func(string), packages int) *progress {
	p := &progress{report: report, packages: packages, began: time.Now(), done: make(chan struct{})}
	report(p.line())
	go func() {
		tick := time.NewTicker(time.Second)
		defer tick.Stop()
		for {
			select {
			case <-tick.C:
				report(p.line())
			case <-p.done:
				return
			}
		}
	}()
	return p
}

func (p *progress) stop() { close(p.done) }

func (p *progress) line() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	line := fmt.Sprintf("building the program, %d s", int(time.Since(p.began).Seconds()))
	if p.compiled > 0 {
		line += fmt.Sprintf(", %d of at most %d packages", p.compiled, p.packages)
	}
	return line
}

// Write takes the output of go build in pieces.
func (p *progress) Write(piece []byte) (int, error) {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.partial = append(p.partial, piece...)
	for {
		end := bytes.IndexByte(p.partial, '\n')
		if end < 0 {
			return len(piece), nil
		}
		p.take(string(p.partial[:end]))
		p.partial = p.partial[end+1:]
	}
}

// a package's path holds no space; faults, headings and notes of downloads do
func (p *progress) take(line string) {
	if line != "" && !strings.Contains(line, " ") {
		p.compiled++
		return
	}
	p.lines.WriteString(line + "\n")
}

func (p *progress) text() string {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.lines.String() + string(p.partial)
}
