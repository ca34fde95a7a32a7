package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"trailfieldkit/cmd/internal/build"
	"trailfieldkit/web"
)

// subject is one thing that is measured.
type subject struct {
	name string
	from build.Options
	out  build.Output
}

// The smallest page of the frame: one line of text.
const barePage = `package main

import "github.com/maxence-charriere/go-app/v10/pkg/app"

type page struct{ app.Compo }

func (p *page) Render() app.UI { return app.Main().ID("work").DataSet("phase", "open").Text("bare page") }

func main() {
	app.RouteWithRegexp(".*", func() app.Composer { return &page{} })
	app.RunWhenOnBrowser()
}
`

// subjects builds the bare page as the toolchain makes it, stripped, and the program
// as it is served.
func subjects(ctx context.Context, say func(string)) (bare, program subject, err error) {
	folder, err := bareModule()
	if err != nil {
		return bare, program, err
	}
	bare = subject{name: "bare page", from: build.Options{Dir: folder, Package: ".", Plain: true}}
	program = subject{name: "program"}
	for _, s := range []*subject{&bare, &program} {
		say("building the " + s.name)
		if s.out, err = build.WebAssembly(ctx, s.from); err != nil {
			return bare, program, fmt.Errorf("%s: %w", s.name, err)
		}
	}
	return bare, program, nil
}

var moduleLine = regexp.MustCompile(`(?m)^module .*$`)

// bareModule writes the bare page into a folder that keeps its path between runs, as
// a module with the same versions as ours.
func bareModule() (string, error) {
	cache, err := os.UserCacheDir()
	if err != nil {
		return "", err
	}
	folder := filepath.Join(cache, "trail-field-kit", "bare-page")
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return "", err
	}
	mod, err := os.ReadFile("go.mod")
	if err != nil {
		return "", fmt.Errorf("run this in the folder of the repository: %w", err)
	}
	sum, err := os.ReadFile("go.sum")
	if err != nil {
		return "", err
	}
	for name, text := range map[string][]byte{
		"go.mod":  moduleLine.ReplaceAll(mod, []byte("module barepage")),
		"go.sum":  sum,
		"main.go": []byte(barePage),
	} {
		if err := os.WriteFile(filepath.Join(folder, name), text, 0o644); err != nil {
			return "", err
		}
	}
	return folder, nil
}

// site is what a browser is served: both subjects get the same page, scripts and
// worker.
func (s subject) site() (web.Site, error) {
	return web.Render(web.Input{Wasm: s.out.Wasm, WasmExec: s.out.WasmExec})
}

// packages lists the packages a subject is compiled from.
func (s subject) packages(ctx context.Context) ([]string, error) {
	pkg := s.from.Package
	if pkg == "" {
		pkg = build.Program
	}
	list := exec.CommandContext(ctx, "go", "list", "-deps", pkg)
	list.Dir = s.from.Dir
	list.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	said, err := list.Output()
	if err != nil {
		return nil, fmt.Errorf("go list -deps %s: %w", pkg, err)
	}
	return strings.Fields(string(said)), nil
}
