// Package web renders the files a browser needs around the WebAssembly: the page,
// the start script, the worker that keeps the program for places with no signal,
// the manifest, the style sheet and the icons.
//
//	site, err := web.Render(web.Input{Wasm: wasm, WasmExec: exec, Base: "/"})
//	http.Handle("/", site.Handler(nil))      // served from memory …
//	for _, path := range site.Paths() {      // … or written for a static host
//		write(path, site.Files[path].Body)
//	}
//
// The start script (start.js) and the worker (worker.js) are written in the folders start
// and worker, one idea a file, and put together here.
//
// Rendering is pure: the same input gives the same bytes and the same version, so
// a restart is not an update and a changed byte always is.
//
// # What the page offers the program
//
// start.js answers everything go-app asks of its own loader (goappGetenv,
// goappOnUpdate, goappTryUpdate, goappIsAppInstallable …) and adds, on window:
//
//	fieldkitUpdateReady      true while a new version is stored and waits; goappOnUpdate is
//	                         called when that changes
//	fieldkitApplyUpdate(may) changes to the waiting version; once that is in charge, may()
//	                         says whether the page is reloaded: is what was typed saved?
//	fieldkitOfflineReady()   a promise of {ready, missing, version, why}: has the worker
//	                         checked the SHA-256 of every stored file just now, and is
//	                         it itself, letter for letter, that of this version?
//	fieldkitStanding         {version, newest, previous}: the version that answers, the
//	                         newest stored, and whether the one before is kept still
//	fieldkitPlain            plain pages in the browser's cache: list(), keep(path, mark,
//	                         html), drop(path); and a note beside the program's files that
//	                         outlives the database: note(text), noted()
//	fieldkitOffline          the last {state, done, total, why, path} of the event below
//
// and sends the window event "fieldkit:offline" whose detail.state is one of
// "saving" (done of total files), "ready", "failed" (why), "missing" (path) and
// "unavailable" (this browser keeps nothing). It sets <html data-start> to
// "loading", "running", "failed", "stopped" or "asked", and <html data-theme> to "night" where
// localStorage holds that under "fieldkit.pref.theme", before the first paint.
//
// The program has started when an element with data-phase stands on the page that is
// not "opening"; start.js watches for it. Until then the plain page of the address, if
// one is kept, lies over everything. data-start is "slow" where no screen came for long.
//
// # Versions
//
// The worker keeps one store a version. A new version is stored whole, checked and
// waits: for fieldkitApplyUpdate, or for the next start with no page open. The version
// before stays stored until the new one has drawn a screen; until then the page offers
// it where the program fails, and from the second try on in the page itself, where no
// script is needed: previous-version changes to it, newest-version back. From the third
// on the program is loaded on the person's word ("asked"): one that hangs would leave no
// moment to choose. It is offered only if it reads what the new one keeps (Schema).
//
// # Rules for pages
//
// Policy forbids whatever is not our own file: no foreign host, no inline script
// and no style attribute (go-app's Style method has no effect; use classes).
// Pictures may be blob: and data: addresses. Every address below Base that names
// no file is the page itself: the program reads the rest of it.
//
// The package does not compile the program (cmd/internal/build), and does not
// write to disk (cmd/fieldkit).
package web
