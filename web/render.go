package web

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/plainpage"
)

//go:embed index.html manifest.webmanifest style.css icons
var sources embed.FS

// Policy is the Content-Security-Policy of every page: only our own files, nothing
// inline but one sheet named by its hash, no foreign host. Blob and data addresses
// show photos kept on the device.
var Policy = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self' " + plainpage.Source(firstSheet) + "; " +
	"img-src 'self' blob: data:; connect-src 'self'; manifest-src 'self'; worker-src 'self'; " +
	"base-uri 'none'; form-action 'none'"

// HeaderPolicy is Policy with the part that browsers accept in a header only: no
// other page may frame this one.
var HeaderPolicy = Policy + "; frame-ancestors 'none'"

// firstSheet stands in the page itself: a plain page laid over it is painted before any
// other file is there. What lies under it is not laid out, nor what is surely below the
// fold: the browser lays out once more what it had passed by and is near.
var firstSheet = `#plain { position: fixed; inset: 0; z-index: 20; overflow: auto; background: #f5f1e6; }
[data-theme="night"] #plain { background: #12100c; }
#plain section:nth-of-type(n+4) { content-visibility: auto; contain-intrinsic-size: auto 240px; }
body:has(> #plain) main.start { display: none; }
` + plainpage.Sheet

// PlainPolicy is the Content-Security-Policy of a plain page as the worker answers
// with it: that of the page itself, and no framing.
func PlainPolicy() string { return plainpage.Policy() + "; frame-ancestors 'none'" }

// Schema is the version of what the program keeps in the browser's database. A version
// of the program is offered as the way back from a later one only if it reads what
// that one writes: raise this with the version of the object stores in
// app/browserstore, and only then.
const Schema = 1

const description = "Parts, spares and repairs of a rig built from several donors, with no signal."

// Files with a part of their own. The shell answers every address that is no file;
// ShellDeep, Worker and OfferedKit are not stored by the worker.
const (
	Shell        = "index.html"
	ShellDeep    = "404.html" // static hosts answer unknown addresses with it
	Start        = "start.js"
	Worker       = "worker.js"
	OfferedKit   = "offered-kit.json" // a kit the person at the desk offers to take over
	Program      = "app.wasm"
	ProgramStart = "wasm_exec.js"
)

// Input is everything the files of a site depend on.
type Input struct {
	Wasm     []byte // the compiled program
	WasmExec []byte // wasm_exec.js of the same Go that compiled it
	Base     string // the path the site lives under: "/" or "/garage/"; empty means "/"
}

// File is one file of a site.
type File struct {
	Type   string // media type, with the character set of text
	Body   []byte
	SHA256 string // hex
}

// Site is a complete set of files for one base path. It never changes.
type Site struct {
	Version string // from the content of all files: 16 hex digits
	Base    string // begins and ends with a slash
	Files   map[string]File
}

// Paths lists the files in order, relative to the base.
func (s Site) Paths() []string { return slices.Sorted(maps.Keys(s.Files)) }

// a base is written into pages, scripts and addresses without escaping
var baseForm = regexp.MustCompile(`^/([A-Za-z0-9._~-]+/)*$`)

// Render gives all files of the site. Error of kind BadInput for a base that is no
// plain path, and for an empty program.
func Render(in Input) (Site, error) {
	if in.Base == "" {
		in.Base = "/"
	}
	if !baseForm.MatchString(in.Base) || strings.Contains(in.Base, "/.") {
		return Site{}, &fieldkit.Error{Kind: fieldkit.BadInput,
			What: fmt.Sprintf("%q is not a path a site can live under", in.Base),
			Do:   "write / or /name/ with plain letters, digits, dots and dashes"}
	}
	if len(in.Wasm) == 0 || len(in.WasmExec) == 0 {
		return Site{}, &fieldkit.Error{Kind: fieldkit.BadInput, What: "the compiled program is empty",
			Do: "build it again"}
	}
	raw, err := gather(in)
	if err != nil {
		return Site{}, err
	}
	site := Site{Version: version(in.Base, raw), Base: in.Base, Files: map[string]File{}}
	fill(raw, Shell, "{{base}}", in.Base, "{{policy}}", Policy, "{{description}}", description, "{{first sheet}}", firstSheet)
	fill(raw, "manifest.webmanifest", "{{base}}", in.Base, "{{description}}", description)
	fill(raw, Start, "SITE_DATA", encode(siteData(site, workerSum(site, raw))))
	for name, body := range raw {
		if name != Worker {
			site.add(name, body)
		}
	}
	fill(raw, Worker, "BUILD_DATA", encode(buildData(site)))
	site.add(Worker, raw[Worker])
	site.add(ShellDeep, raw[Shell])
	return site, nil
}

func (s Site) add(name string, body []byte) {
	sum := sha256.Sum256(body)
	s.Files[name] = File{Type: mediaType(name), Body: body, SHA256: hex.EncodeToString(sum[:])}
}

// gather reads the sources and the compiled program, by path.
func gather(in Input) (map[string][]byte, error) {
	start, worker, err := scripts()
	if err != nil {
		return nil, err
	}
	raw := map[string][]byte{Program: in.Wasm, ProgramStart: in.WasmExec, Start: start, Worker: worker}
	err = fs.WalkDir(sources, ".", func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() {
			return err
		}
		raw[name], err = sources.ReadFile(name)
		return err
	})
	return raw, err
}

// version hashes what goes in, because what comes out contains it.
func version(base string, raw map[string][]byte) string {
	sum := sha256.New()
	fmt.Fprintf(sum, "%s\n%s\n%s\n%d %s\n", base, Policy, description, Schema, firstSheet)
	for _, name := range slices.Sorted(maps.Keys(raw)) {
		fmt.Fprintf(sum, "%s %d\n", name, len(raw[name]))
		sum.Write(raw[name])
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

func fill(raw map[string][]byte, name string, pairs ...string) {
	body := raw[name]
	for i := 0; i < len(pairs); i += 2 {
		body = bytes.ReplaceAll(body, []byte(pairs[i]), []byte(pairs[i+1]))
	}
	raw[name] = body
}

type siteInfo struct {
	Base        string            `json:"base"`
	Version     string            `json:"version"`
	Worker      string            `json:"worker"` // what the worker must say of itself
	PlainPolicy string            `json:"plainPolicy"`
	Env         map[string]string `json:"env"`
}

// siteData is what go-app reads through goappGetenv. Root prefix and resources are
// the base without its last slash; tel: and sms: links leave the program.
func siteData(s Site, worker string) siteInfo {
	prefix := strings.TrimSuffix(s.Base, "/")
	return siteInfo{Base: s.Base, Version: s.Version, Worker: worker, PlainPolicy: PlainPolicy(), Env: map[string]string{
		"GOAPP_VERSION":              s.Version,
		"GOAPP_ROOT_PREFIX":          prefix,
		"GOAPP_STATIC_RESOURCES_URL": prefix,
		"GOAPP_INTERNAL_URLS":        `["tel:","sms:"]`,
	}}
}

type buildInfo struct {
	Base    string      `json:"base"`
	Version string      `json:"version"`
	Schema  int         `json:"schema"`
	Files   []buildFile `json:"files"`
}

type buildFile struct {
	Path   string `json:"path"`
	SHA256 string `json:"sha256"`
	Type   string `json:"type"`
}

// buildData lists what the worker stores: the shell under the base address itself,
// because hosts redirect /index.html to /, then the small files, and the program last.
func buildData(s Site) buildInfo {
	info := buildInfo{Base: s.Base, Version: s.Version, Schema: Schema}
	add := func(at, name string) {
		f := s.Files[name]
		info.Files = append(info.Files, buildFile{Path: at, SHA256: f.SHA256, Type: f.Type})
	}
	add("", Shell)
	for _, name := range s.Paths() {
		if name != Shell && name != Program {
			add(name, name)
		}
	}
	add(Program, Program)
	return info
}

func encode(v any) string {
	text, err := json.Marshal(v)
	if err != nil {
		panic(err) // plain strings only
	}
	return string(text)
}

func mediaType(name string) string {
	switch path.Ext(name) {
	case ".html":
		return "text/html; charset=utf-8"
	case ".js":
		return "text/javascript; charset=utf-8"
	case ".css":
		return "text/css; charset=utf-8"
	case ".wasm":
		return "application/wasm"
	case ".webmanifest":
		return "application/manifest+json"
	case ".svg":
		return "image/svg+xml"
	case ".png":
		return "image/png"
	}
	return "application/octet-stream"
}
