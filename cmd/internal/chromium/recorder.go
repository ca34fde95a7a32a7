package chromium

import (
	"net"
	"net/http"
	"sync"
)

// recorder is the proxy that every request beyond this computer goes to. It notes
// the host and refuses, so that tests are the same with and without a network.
type recorder struct {
	server   *http.Server
	listener net.Listener

	mu    sync.Mutex
	hosts []string
}

func newRecorder() (*recorder, error) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return nil, err
	}
	r := &recorder{listener: listener}
	r.server = &http.Server{Handler: http.HandlerFunc(r.refuse)}
	go r.server.Serve(listener)
	return r, nil
}

// The browser asks these for its own account and components, whatever page is open
// (seen with an empty page). A page of ours that asked one of them for a script or
// a picture would still stand out: by the policy's complaint in Page.Faults.
var browsersOwn = map[string]bool{
	"accounts.google.com": true, "clients2.google.com": true, "update.googleapis.com": true,
	"optimizationguide-pa.googleapis.com": true, "content-autofill.googleapis.com": true,
	"safebrowsing.googleapis.com": true, "android.clients.google.com": true, "mtalk.google.com": true,
	"redirector.gvt1.com": true,
}

func (r *recorder) refuse(w http.ResponseWriter, asked *http.Request) {
	host := asked.Host
	if name, _, err := net.SplitHostPort(host); err == nil {
		host = name
	}
	if !browsersOwn[host] {
		r.mu.Lock()
		r.hosts = append(r.hosts, asked.Host)
		r.mu.Unlock()
	}
	http.Error(w, "no network beyond this computer", http.StatusBadGateway)
}

func (r *recorder) list() []string {
	r.mu.Lock()
	defer r.mu.Unlock()
	return append([]string{}, r.hosts...)
}

func (r *recorder) address() string { return r.listener.Addr().String() }
func (r *recorder) close()          { r.server.Close() }
