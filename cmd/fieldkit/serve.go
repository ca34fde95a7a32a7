package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"time"

	"trailfieldkit/cmd/internal/build"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/web"
)

const serveHelp = `
fieldkit serve [-addr HOST:PORT] [-open] [-kit FILE]

Builds the program if a source changed, then serves it until Ctrl-C.

  -addr HOST:PORT   where to listen (default 127.0.0.1:8117: only this computer)
  -open             open it in the browser of this computer
  -kit FILE         offer this kit file: the program asks whether to take it over

A phone keeps the program for places with no signal only from an address that
begins with https, or from this computer itself. For a phone, write a static site
(fieldkit help site) and put it on any web host.

Examples:
  fieldkit
  fieldkit serve -open -kit my-rig.json
  fieldkit serve -addr 127.0.0.1:9000
`

const defaultAddr = "127.0.0.1:8117"

func serve(ctx context.Context, args []string, stdout, stderr io.Writer) int {
	set := options("serve")
	addr := set.String("addr", defaultAddr, "")
	open := set.Bool("open", false, "")
	kit := set.String("kit", "", "")
	if !parse(set, args, 0, stderr) {
		return askedWrong
	}
	offered, err := readOffer(*kit)
	if err != nil {
		return complain(stderr, "serve", err)
	}
	// The port comes first: nobody should wait for a build to learn that it is taken.
	listener, err := listen(*addr)
	if err != nil {
		return complain(stderr, "serve", err)
	}
	defer listener.Close()
	out, err := compile(ctx, stderr)
	if err != nil {
		return complain(stderr, "serve", err)
	}
	site, err := web.Render(web.Input{Wasm: out.Wasm, WasmExec: out.WasmExec, Base: "/"})
	if err != nil {
		return complain(stderr, "serve", err)
	}
	address := "http://" + listener.Addr().String() + site.Base
	fmt.Fprintf(stdout, "Trail Field Kit %s is at %s (Ctrl-C ends it)\n", site.Version, address)
	if *open {
		if err := openBrowser(address); err != nil {
			fmt.Fprintf(stderr, "fieldkit serve: no browser could be opened here (%v); open %s yourself\n", err, address)
		}
	}
	if err := serveUntil(ctx, listener, site.Handler(offered)); err != nil {
		return complain(stderr, "serve", err)
	}
	fmt.Fprintln(stdout, "stopped")
	return done
}

// readOffer reads and checks the kit file to hand over; none without a name.
func readOffer(name string) ([]byte, error) {
	if name == "" {
		return nil, nil
	}
	file, err := os.ReadFile(name)
	if err != nil {
		return nil, &fieldkit.Error{Kind: fieldkit.NotFound, Cause: err,
			What: fmt.Sprintf("kit file %q cannot be read", name), Do: "check the name"}
	}
	if _, err := kitfile.Load(filepath.Base(name), file); err != nil {
		return nil, err
	}
	return file, nil
}

// listen takes the address, and says what to do when it is not free.
func listen(addr string) (net.Listener, error) {
	listener, err := net.Listen("tcp", addr)
	switch {
	case err == nil:
		return listener, nil
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, &fieldkit.Error{Kind: fieldkit.Conflict, Cause: err,
			What: fmt.Sprintf("%s is in use by another program, or by fieldkit in another window", addr),
			Do:   "end that one, or choose another port: fieldkit serve -addr 127.0.0.1:8118"}
	case errors.Is(err, os.ErrPermission):
		return nil, &fieldkit.Error{Kind: fieldkit.Conflict, Cause: err,
			What: fmt.Sprintf("%s may not be used by this account", addr),
			Do:   "choose a port above 1024: fieldkit serve -addr 127.0.0.1:8118"}
	}
	return nil, &fieldkit.Error{Kind: fieldkit.BadInput, Cause: err,
		What: fmt.Sprintf("%q is not an address this computer can listen on", addr),
		Do:   "write HOST:PORT, for example 127.0.0.1:8117"}
}

// serveUntil serves until ctx ends, and then lets answers under way finish.
func serveUntil(ctx context.Context, listener net.Listener, handler http.Handler) error {
	server := &http.Server{Handler: handler, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute}
	failed := make(chan error, 1)
	go func() { failed <- server.Serve(listener) }()
	select {
	case err := <-failed:
		return err
	case <-ctx.Done():
	}
	grace, cancel := context.WithTimeout(context.Background(), 3*time.Second)
	defer cancel()
	if server.Shutdown(grace) != nil {
		server.Close() // someone holds a connection open
	}
	return nil
}

// compile builds the program and shows on stderr how far it is: on a terminal in
// one line that changes, elsewhere now and then in a line of its own.
func compile(ctx context.Context, stderr io.Writer) (build.Output, error) {
	const quiet = 10 * time.Second
	terminal := isTerminal(stderr)
	var last time.Time
	out, err := build.WebAssembly(ctx, build.Options{Report: func(line string) {
		switch {
		case terminal:
			fmt.Fprintf(stderr, "\r\x1b[K%s", line)
		case time.Since(last) >= quiet:
			last = time.Now()
			fmt.Fprintln(stderr, line)
		}
	}})
	if terminal {
		fmt.Fprint(stderr, "\r\x1b[K")
	}
	if err == nil && out.Fresh {
		fmt.Fprintf(stderr, "built in %.0f s, %s\n", out.Took.Seconds(), size(len(out.Wasm)))
	}
	return out, err
}

func isTerminal(w io.Writer) bool {
	file, isFile := w.(*os.File)
	if !isFile || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}

// size prints bytes in units a person compares: 412 B, 38 kB, 7.12 MB.
func size(bytes int) string {
	switch {
	case bytes < 1000:
		return fmt.Sprintf("%d B", bytes)
	case bytes < 1_000_000:
		return fmt.Sprintf("%d kB", (bytes+500)/1000)
	}
	return fmt.Sprintf("%.2f MB", float64(bytes)/1e6)
}

// openBrowser hands an address to the system's browser.
func openBrowser(address string) error {
	words := []string{"xdg-open"}
	switch runtime.GOOS {
	case "darwin":
		words = []string{"open"}
	case "windows":
		words = []string{"rundll32", "url.dll,FileProtocolHandler"}
	}
	cmd := exec.Command(words[0], append(words[1:], address)...)
	if err := cmd.Start(); err != nil {
		return errors.New(strings.TrimPrefix(err.Error(), "exec: "))
	}
	go cmd.Wait()
	return nil
}
