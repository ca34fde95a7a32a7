package web

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func ask(h http.Handler, method, path string, head ...string) *httptest.ResponseRecorder {
	r := httptest.NewRequest(method, path, nil)
	for i := 0; i < len(head); i += 2 {
		r.Header.Set(head[i], head[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w
}

func TestHandlerAnswers(t *testing.T) {
	site := rendered(t, "/")
	h := site.Handler(nil)
	page := string(site.Files[Shell].Body)
	for name, c := range map[string]struct {
		path   string
		head   []string
		status int
		kind   string
		body   string
	}{
		"the page":                      {"/", nil, 200, "text/html; charset=utf-8", page},
		"the page, fetched by a worker": {"/", []string{"Sec-Fetch-Mode", "cors"}, 200, "text/html; charset=utf-8", page},
		"a link followed":               {"/rig/part-1.5", []string{"Sec-Fetch-Mode", "navigate"}, 200, "text/html; charset=utf-8", page},
		"a link in an old browser":      {"/rig/part-1.5", []string{"Accept", "text/html,*/*"}, 200, "text/html; charset=utf-8", page},
		"a link from a desk tool":       {"/counter", nil, 200, "text/html; charset=utf-8", page},
		"the program":                   {"/app.wasm", nil, 200, "application/wasm", "program"},
		"a query does not matter":       {"/app.wasm?v=1", nil, 200, "application/wasm", "program"},
		"a script that is not there":    {"/gone.js", []string{"Sec-Fetch-Mode", "no-cors"}, 404, "text/plain; charset=utf-8", "there is no file gone.js\n"},
		"a fetch of what is not there":  {"/counter", []string{"Sec-Fetch-Mode", "cors"}, 404, "text/plain; charset=utf-8", "there is no file counter\n"},
		"no kit is offered":             {"/offered-kit.json", nil, 204, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			w := ask(h, "GET", c.path, c.head...)
			assert.Equal(t, c.status, w.Code)
			assert.Equal(t, c.kind, w.Header().Get("Content-Type"))
			assert.Equal(t, c.body, w.Body.String())
		})
	}
}

func TestHandlerUnderAPath(t *testing.T) {
	h := rendered(t, "/kit/").Handler(nil)
	assert.Equal(t, 200, ask(h, "GET", "/kit/").Code)
	assert.Equal(t, 200, ask(h, "GET", "/kit/style.css").Code)
	assert.Equal(t, 200, ask(h, "GET", "/kit/counter").Code)
	assert.Equal(t, 404, ask(h, "GET", "/style.css").Code)
	assert.Equal(t, 404, ask(h, "GET", "/").Code)
	w := ask(h, "GET", "/kit")
	assert.Equal(t, 301, w.Code)
	assert.Equal(t, "/kit/", w.Header().Get("Location"))
}

func TestEveryAnswerIsFencedIn(t *testing.T) {
	h := rendered(t, "/").Handler([]byte("{}"))
	for _, path := range []string{"/", "/counter", "/worker.js", "/app.wasm", "/gone.js", "/offered-kit.json"} {
		head := ask(h, "GET", path).Header()
		assert.Equal(t, HeaderPolicy, head.Get("Content-Security-Policy"), path)
		assert.Equal(t, "nosniff", head.Get("X-Content-Type-Options"), path)
		assert.Equal(t, "no-referrer", head.Get("Referrer-Policy"), path)
		assert.Empty(t, head.Get("Cross-Origin-Opener-Policy"), "a new process at every start")
	}
}

func TestUnchangedFilesAreNotSentAgain(t *testing.T) {
	h := rendered(t, "/").Handler(nil)
	for _, encoding := range []string{"", "gzip"} {
		first := ask(h, "GET", "/start.js", "Accept-Encoding", encoding)
		tag := first.Header().Get("ETag")
		require.NotEmpty(t, tag)
		assert.Equal(t, "no-cache", first.Header().Get("Cache-Control"))
		again := ask(h, "GET", "/start.js", "Accept-Encoding", encoding, "If-None-Match", tag)
		assert.Equal(t, 304, again.Code)
		assert.Empty(t, again.Body.String())
		assert.Equal(t, 200, ask(h, "GET", "/start.js", "Accept-Encoding", encoding, "If-None-Match", `"other"`).Code)
	}
}

func TestLargeTextIsCompressed(t *testing.T) {
	site := rendered(t, "/")
	w := ask(site.Handler(nil), "GET", "/start.js", "Accept-Encoding", "br, gzip")
	assert.Equal(t, "gzip", w.Header().Get("Content-Encoding"))
	assert.Equal(t, "Accept-Encoding", w.Header().Get("Vary"))
	zip, err := gzip.NewReader(bytes.NewReader(w.Body.Bytes()))
	require.NoError(t, err)
	body, err := io.ReadAll(zip)
	require.NoError(t, err)
	assert.Equal(t, string(site.Files["start.js"].Body), string(body))
	assert.Empty(t, ask(site.Handler(nil), "GET", "/icons/icon-192.png", "Accept-Encoding", "gzip").Header().Get("Content-Encoding"))
}

func TestOfferedKitIsNeverKept(t *testing.T) {
	w := ask(rendered(t, "/").Handler([]byte(`{"kit":1}`)), "GET", "/offered-kit.json")
	assert.Equal(t, 200, w.Code)
	assert.Equal(t, "application/json", w.Header().Get("Content-Type"))
	assert.Equal(t, "no-store", w.Header().Get("Cache-Control"))
	assert.Equal(t, `{"kit":1}`, w.Body.String())
}

func TestOnlyReading(t *testing.T) {
	h := rendered(t, "/").Handler(nil)
	assert.Equal(t, 405, ask(h, "POST", "/").Code)
	head := ask(h, "HEAD", "/app.wasm")
	assert.Equal(t, 200, head.Code)
	assert.Equal(t, "7", head.Header().Get("Content-Length"))
	assert.Empty(t, head.Body.String())
}
