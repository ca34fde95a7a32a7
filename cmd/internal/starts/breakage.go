package starts

import (
	"math/rand/v2"
	"net/http"
	"slices"
	"strconv"

	"trailfieldkit/web"
)

// breakage serves a file badly.
type breakage func(w http.ResponseWriter, r *http.Request, file web.File)

// way is one way in which a download breaks; at a byte if it has one.
type way struct {
	name   string
	atByte bool
	how    func(at int) breakage
}

var ways = []way{
	{"server cut at a byte", true, func(at int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			head(w, f.Type, len(f.Body))
			w.Write(f.Body[:at])
			w.(http.Flusher).Flush()
			panic(http.ErrAbortHandler)
		}
	}},
	{"truncated, no length said", true, func(at int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			w.Header().Set("Content-Type", f.Type)
			w.(http.Flusher).Flush()
			w.Write(f.Body[:at])
		}
	}},
	{"truncated, short length said", true, func(at int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			head(w, f.Type, at)
			w.Write(f.Body[:at])
		}
	}},
	{"more said than comes", false, func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			head(w, f.Type, len(f.Body)+100)
			w.Write(f.Body)
			w.(http.Flusher).Flush()
			panic(http.ErrAbortHandler)
		}
	}},
	{"more comes than belongs", false, func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			head(w, f.Type, len(f.Body)+9)
			w.Write(f.Body)
			w.Write([]byte("\n<!-- -->"))
		}
	}},
	{"one wrong byte under 200", true, func(at int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			body := slices.Clone(f.Body)
			body[min(at, len(body)-1)] ^= 1
			head(w, f.Type, len(body))
			w.Write(body)
		}
	}},
	{"wrong type", false, func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			head(w, "application/octet-stream", len(f.Body))
			w.Write(f.Body)
		}
	}},
	{"404", false, answering(http.StatusNotFound, "text/plain", "not here")},
	{"500", false, answering(http.StatusInternalServerError, "text/plain", "broken")},
	{"503 with the file's type", false, func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			w.Header().Set("Content-Type", f.Type)
			w.WriteHeader(http.StatusServiceUnavailable)
			w.Write(f.Body)
		}
	}},
	{"log-in page under 200", false, answering(http.StatusOK, "text/html", portal)},
	{"log-in page with the file's type", false, func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, f web.File) {
			head(w, f.Type, len(portal))
			w.Write([]byte(portal))
		}
	}},
	{"sent on to a log-in page", false, func(int) breakage {
		return func(w http.ResponseWriter, r *http.Request, _ web.File) {
			if r.URL.Query().Has("login") {
				answering(http.StatusOK, "text/html", portal)(0)(w, r, web.File{})
				return
			}
			http.Redirect(w, r, r.URL.Path+"?login", http.StatusFound)
		}
	}},
	{"no answer at all", false, func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, _ web.File) { hangUp(w) }
	}},
}

const portal = "<!doctype html><title>Welcome</title><p>Accept the terms of the camp's network to go on."

func head(w http.ResponseWriter, kind string, length int) {
	w.Header().Set("Content-Type", kind)
	w.Header().Set("Cache-Control", "no-cache")
	w.Header().Set("Content-Length", strconv.Itoa(length))
}

func answering(status int, kind, text string) func(int) breakage {
	return func(int) breakage {
		return func(w http.ResponseWriter, _ *http.Request, _ web.File) {
			head(w, kind, len(text))
			w.WriteHeader(status)
			w.Write([]byte(text))
		}
	}
}

// one case: a file, a way, a byte.
type one struct {
	file string
	way  way
	at   int
	late bool // the page gets the file whole, and what keeps it does not
}

// points lists the bytes at which a file of a size may break: none of it, first and
// last, both sides of borders of blocks, and any.
func points(size, any int, chance *rand.Rand) []int {
	list := []int{0, 1, size / 2, size - 1}
	for _, border := range []int{1 << 10, 4 << 10, 16 << 10, 32 << 10, 64 << 10} {
		list = append(list, border-1, border, border+1)
	}
	for range any {
		list = append(list, chance.IntN(size))
	}
	list = slices.DeleteFunc(list, func(at int) bool { return at < 0 || at >= size })
	slices.Sort(list)
	return slices.Compact(list)
}

// cases lists what is broken. The short list has every file and every way at one byte;
// the long one at every point.
func cases(s web.Site, long bool, any int, chance *rand.Rand) (list []one) {
	for _, name := range s.Paths() {
		if name == web.ShellDeep {
			continue // only hosts need it
		}
		all := points(len(s.Files[name].Body), any, chance)
		for _, w := range ways {
			at := []int{0}
			if w.atByte {
				at = all
				if !long {
					at = []int{all[chance.IntN(len(all))]}
				}
			}
			for _, n := range at {
				list = append(list, one{file: name, way: w, at: n})
			}
		}
	}
	return list
}

// lateCases lists, at one byte each, the files that a page loads before it is kept: the
// program runs, and only its copy is not whole.
func lateCases(s web.Site, chance *rand.Rand) (list []one) {
	for _, name := range []string{web.Shell, web.Start, web.ProgramStart, web.Program, "style.css"} {
		for _, w := range ways {
			list = append(list, one{file: name, way: w, at: chance.IntN(len(s.Files[name].Body)), late: true})
		}
	}
	return list
}
