package web

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"path"
	"strconv"
	"strings"
)

// squeezeFrom is the size from which a file is worth compressing: below it the
// headers weigh more than the gain.
const squeezeFrom = 1 << 10

// Squeezable says whether a file is worth storing compressed: text and the program,
// not pictures, which are compressed already.
func (f File) Squeezable() bool {
	return len(f.Body) >= squeezeFrom && f.Type != "image/png"
}

// Handler serves the site from memory under its base. Every address that names no
// file is the page itself, so that a link to a part opens; a script or picture that
// is not there is a plain 404. offered, which may be nil, is a kit file that the
// program proposes to take over; without one that address answers "no content".
//
// Answers carry an entity tag of their content and are asked for again each time,
// so that a changed file is never hidden by a cache and an unchanged one costs a
// few bytes.
func (s Site) Handler(offered []byte) http.Handler {
	squeezed := map[string][]byte{}
	for name, file := range s.Files {
		if file.Squeezable() {
			squeezed[name] = squeeze(file.Body)
		}
	}
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		secure(w.Header())
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			w.Header().Set("Allow", "GET, HEAD")
			http.Error(w, "this address is only read", http.StatusMethodNotAllowed)
			return
		}
		name, below := strings.CutPrefix(r.URL.Path, s.Base)
		if below && name == "" {
			name = Shell
		}
		switch _, isFile := s.Files[name]; {
		case r.URL.Path+"/" == s.Base:
			http.Redirect(w, r, s.Base, http.StatusMovedPermanently)
			return
		case !below:
			http.Error(w, "the program lives under "+s.Base, http.StatusNotFound)
			return
		case name == OfferedKit:
			offer(w, offered)
			return
		case isFile:
		case wantsPage(r, name):
			name = Shell
		default:
			http.Error(w, "there is no file "+name, http.StatusNotFound)
			return
		}
		s.send(w, r, name, squeezed[name])
	})
}

func (s Site) send(w http.ResponseWriter, r *http.Request, name string, zipped []byte) {
	file := s.Files[name]
	head := w.Header()
	body, tag := file.Body, file.SHA256[:16]
	if zipped != nil {
		head.Set("Vary", "Accept-Encoding")
		if strings.Contains(r.Header.Get("Accept-Encoding"), "gzip") {
			head.Set("Content-Encoding", "gzip")
			body, tag = zipped, tag+"-gz"
		}
	}
	head.Set("Content-Type", file.Type)
	head.Set("Cache-Control", "no-cache")
	head.Set("ETag", `"`+tag+`"`)
	if strings.Contains(r.Header.Get("If-None-Match"), `"`+tag+`"`) {
		w.WriteHeader(http.StatusNotModified)
		return
	}
	head.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodGet {
		w.Write(body)
	}
}

// offer answers with the kit someone at the desk wants to hand over. Nothing keeps
// it: the program asks once a start, and only over plain http, as here.
func offer(w http.ResponseWriter, kit []byte) {
	w.Header().Set("Cache-Control", "no-store")
	if kit == nil {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	w.Header().Set("Content-Type", "application/json")
	w.Write(kit)
}

// secure sets what holds for every answer. A Cross-Origin-Opener-Policy is left out on
// purpose: it would make the browser throw away, at every start, the page it has made
// ready and begin with a new process once the answer is there. No window is opened here
// that could reach back, and HeaderPolicy keeps others from framing one.
func secure(head http.Header) {
	head.Set("Content-Security-Policy", HeaderPolicy)
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("Referrer-Policy", "no-referrer")
	head.Set("Cross-Origin-Resource-Policy", "same-origin")
}

// wantsPage tells a link that someone follows from a file that a page misses.
func wantsPage(r *http.Request, name string) bool {
	if mode := r.Header.Get("Sec-Fetch-Mode"); mode != "" {
		return mode == "navigate"
	}
	return strings.Contains(r.Header.Get("Accept"), "text/html") || path.Ext(name) == ""
}

func squeeze(body []byte) []byte {
	var out bytes.Buffer
	zip, _ := gzip.NewWriterLevel(&out, gzip.DefaultCompression)
	zip.Write(body)
	zip.Close()
	return out.Bytes()
}
