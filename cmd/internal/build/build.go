package build

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"trailfieldkit/fieldkit"
)

// Program is the package that is compiled when Options name no other.
const Program = "./cmd/webapp"

// Options say what to build. The zero value builds the program of the module around
// the working directory into the user's cache.
type Options struct {
	Dir     string            // a folder inside the module; empty means the working directory
	Package string            // as for go build; empty means Program
	Flags   []string          // more flags for go build; the result depends on them
	Symbols bool              // keep the symbol table, for measuring; normally stripped
	Plain   bool              // as the toolchain makes it, with nothing done for a smaller download
	Cache   string            // folder; empty means the user's cache folder
	Report  func(line string) // told what is happening, about once a second; may be nil
}

// Output is a compiled program.
type Output struct {
	Wasm     []byte
	WasmExec []byte        // the script of the same Go that runs it
	Key      string        // of all sources
	Fresh    bool          // compiled just now, not taken from the cache
	Took     time.Duration // compiling
}

// WebAssembly compiles the package, or takes it from the cache when no source has
// changed. Errors are *fieldkit.Error: toolchain or source not found, cache not
// writable, source that does not compile (Cause holds the compiler's words).
func WebAssembly(ctx context.Context, o Options) (Output, error) {
	if o.Package == "" {
		o.Package = Program
	}
	if o.Report == nil {
		o.Report = func(string) {}
	}
	tool, err := findToolchain(o.Dir)
	if err != nil {
		return Output{}, err
	}
	root, err := tool.moduleRoot(ctx)
	if err != nil {
		return Output{}, err
	}
	tool.dir = root
	kept, err := openCache(o.Cache)
	if err != nil {
		return Output{}, err
	}
	o.Report("looking for changed sources")
	key, packages, err := tool.key(ctx, o)
	if err != nil {
		return Output{}, err
	}
	if out, ok := kept.get(key); ok {
		return out, nil
	}
	return tool.compile(ctx, o, kept, key, packages)
}

func (t toolchain) compile(ctx context.Context, o Options, kept cache, key string, packages int) (Output, error) {
	began := time.Now()
	work, err := kept.begin(key)
	if err != nil {
		return Output{}, err
	}
	defer os.RemoveAll(work)
	args := []string{"build", "-v", "-trimpath"}
	if !o.Symbols {
		args = append(args, "-ldflags=-s -w")
	}
	args = append(args, o.flags()...)
	file := filepath.Join(work, wasmName)
	args = append(args, "-o", file, o.Package)
	watch := newProgress(o.Report, packages)
	said, err := t.run(ctx, watch, args...)
	watch.stop()
	if err != nil {
		if ctx.Err() != nil {
			return Output{}, ctx.Err()
		}
		return Output{}, &fieldkit.Error{Kind: fieldkit.BadInput, Where: o.Package, Cause: errors.New(said),
			What: "does not compile: " + firstFault(said),
			Do:   fmt.Sprintf("run GOOS=js GOARCH=wasm go build %s to see all of it", o.Package)}
	}
	if !o.Plain {
		if err := joinFile(file); err != nil {
			return Output{}, kept.fault(err)
		}
	}
	script, err := t.wasmExec(ctx)
	if err != nil {
		return Output{}, err
	}
	if err := os.WriteFile(filepath.Join(work, execName), script, 0o644); err != nil {
		return Output{}, kept.fault(err)
	}
	if err := kept.finish(work, key); err != nil {
		return Output{}, err
	}
	out, ok := kept.get(key)
	if !ok {
		return Output{}, kept.fault(errors.New("what was just written cannot be read back"))
	}
	out.Fresh, out.Took = true, time.Since(began)
	return out, nil
}

// Inlining our own calls and those of the frame makes the download a fifteenth
// larger and the work behind a tap a tenth faster. On a phone at the end of a bad
// line the download is what one waits for. The standard library stays as it is.
var smaller = []string{"-gcflags=./...=-l", "-gcflags=github.com/maxence-charriere/go-app/...=-l"}

// flags are the flags for go build that the result depends on.
func (o Options) flags() []string {
	if o.Plain {
		return o.Flags
	}
	return slices.Concat(smaller, o.Flags)
}

// firstFault picks the first line of a compiler's output that says what is wrong.
func firstFault(said string) string {
	for line := range strings.Lines(said) {
		line = strings.TrimSpace(line)
		if line != "" && !strings.HasPrefix(line, "#") && strings.Contains(line, ": ") {
			return line
		}
	}
	return strings.TrimSpace(strings.SplitN(said, "\n", 2)[0])
}

// WasmExec gives the script that runs WebAssembly of the installed Go.
func WasmExec(ctx context.Context) ([]byte, error) {
	tool, err := findToolchain("")
	if err != nil {
		return nil, err
	}
	return tool.wasmExec(ctx)
}

// toolchain is the go command, working in one folder.
type toolchain struct {
	path string
	dir  string
}

func findToolchain(dir string) (toolchain, error) {
	path, err := exec.LookPath("go")
	if err != nil {
		return toolchain{}, &fieldkit.Error{Kind: fieldkit.NotFound, Cause: err,
			What: "the Go toolchain is not installed or not on the PATH",
			Do:   "install Go 1.26 or newer from go.dev/dl, then run this again"}
	}
	return toolchain{path: path, dir: dir}, nil
}

// run starts go for js/wasm; watch is told each line it prints beside its result.
func (t toolchain) run(ctx context.Context, watch *progress, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, t.path, args...)
	cmd.Dir = t.dir
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm", "CGO_ENABLED=0")
	var said bytes.Buffer
	cmd.Stdout = &said
	cmd.Stderr = &said
	if watch != nil {
		cmd.Stderr = watch
	}
	err := cmd.Run()
	if watch != nil {
		said.WriteString(watch.text())
	}
	return said.String(), err
}

func (t toolchain) moduleRoot(ctx context.Context) (string, error) {
	said, err := t.run(ctx, nil, "env", "GOMOD")
	file := strings.TrimSpace(said)
	if err != nil || filepath.Base(file) != "go.mod" {
		where := t.dir
		if where == "" {
			where, _ = os.Getwd()
		}
		return "", &fieldkit.Error{Kind: fieldkit.NotFound, Where: where,
			What: "no source of the program here or in a folder above",
			Do:   "change to the folder of the repository, then run this again"}
	}
	return filepath.Dir(file), nil
}

// wasmExec reads the script that belongs to this Go: another version's does not fit.
func (t toolchain) wasmExec(ctx context.Context) ([]byte, error) {
	said, err := t.run(ctx, nil, "env", "GOROOT")
	goRoot := strings.TrimSpace(said)
	if err == nil {
		for _, place := range []string{"lib/wasm", "misc/wasm"} {
			if script, err := os.ReadFile(filepath.Join(goRoot, place, execName)); err == nil {
				return script, nil
			}
		}
	}
	return nil, &fieldkit.Error{Kind: fieldkit.NotFound, Where: goRoot,
		What: `"lib/wasm/wasm_exec.js" is not part of this Go installation`,
		Do:   "install Go 1.26 or newer from go.dev/dl, which brings it"}
}
