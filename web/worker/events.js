// Keeps complete, checked copies of the program for places with no signal.
//
// A version is stored whole or not at all: installing fails when one file is not,
// byte for byte, the file of this build, and then the older version stays in charge.
// Nothing is changed under a page that is open: a new version waits until asked. The
// version before stays stored until the new one has drawn its first screen, so that
// there is a way back from one that does not start.

// build is {base, version, schema, files: [{path, sha256, type}]}, filled in by web.Render.

// The place is part of the names: two copies on one host, under two paths, must not
// clear each other's stores.
const ours = `trail-field-kit:${build.base}:`; // one store a version
const plainStore = `trail-field-kit-plain:${build.base}`; // plain pages; no update touches them
const stateStore = `trail-field-kit-state:${build.base}`; // which version answers, and marks of the page
const shell = ''; // the page itself, stored under the base address
const listName = 'files-of-this-version.json'; // stored last: what is in a store, with hashes
const byPath = new Map(build.files.map((file) => [file.path, file]));
const leftToTheNetwork = new Set(['worker.js', 'offered-kit.json']);

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('message', (event) => {
  const asked = event.data || {};
  const port = event.ports[0];
  if (asked.type === 'apply') event.waitUntil(self.skipWaiting());
  if (asked.type === 'started') event.waitUntil(started(asked.version));
  if (asked.type === 'standing' && port) event.waitUntil(sayStanding(port));
  if (asked.type === 'check' && port) event.waitUntil(check(port, asked));
});
self.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url);
  if (event.request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (!url.pathname.startsWith(build.base)) return;
  const path = url.pathname.slice(build.base.length);
  if (leftToTheNetwork.has(path)) return;
  if (event.request.mode === 'navigate') event.respondWith(navigate(event, path, url));
  else if (byPath.has(path) || !standing || standing.serving !== build.version) event.respondWith(answer(event, path));
});
