package main

import (
	"fmt"
	"net/http"
)

// source is what a start is measured of: what a server gives, and the JavaScript that
// says whether it can start without that server.
type source struct {
	handler func() (http.Handler, error)
	stored  string
}

func (s subject) source() source {
	return source{
		handler: func() (http.Handler, error) {
			site, err := s.site()
			if err != nil {
				return nil, err
			}
			return site.Handler(nil), nil
		},
		stored: "fieldkitOfflineReady().then((copy) => copy.ready)",
	}
}

// firstPaint is when the browser painted any text.
const firstPaint = `(performance.getEntriesByName('first-contentful-paint')[0]?.startTime || 0)`

// oneLine is the least that any page shown by a service worker costs here: one line of
// text, which the worker holds in itself.
var oneLine = source{
	handler: func() (http.Handler, error) {
		pages := http.NewServeMux()
		pages.HandleFunc("/worker.js", func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "text/javascript")
			fmt.Fprint(w, lineWorker)
		})
		pages.HandleFunc("/", func(w http.ResponseWriter, _ *http.Request) {
			w.Header().Set("Content-Type", "text/html; charset=utf-8")
			fmt.Fprint(w, `<!doctype html><title>line</title><script>navigator.serviceWorker.register('worker.js');</script>`)
		})
		return pages, nil
	},
	stored: "navigator.serviceWorker.ready.then(() => true)",
}

const lineWorker = `
const line = '<!doctype html><meta name="viewport" content="width=device-width, initial-scale=1"><title>line</title><p>One line of text';
addEventListener('fetch', (event) => {
	if (event.request.mode === 'navigate') event.respondWith(new Response(line, { headers: { 'Content-Type': 'text/html; charset=utf-8' } }));
});
`
