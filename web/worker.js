// Keeps one complete, checked copy of the program for places with no signal.
//
// A version is stored whole or not at all: installing fails when one file is not,
// byte for byte, the file of this build, and then the older version stays in charge.
// Nothing is changed under a page that is open: a new version waits until asked.
'use strict';

const build = BUILD_DATA; // {base, version, files: [{path, sha256, type}]}, filled in by web.Render

// The place is part of the name: two copies on one host, under two paths, must not
// clear each other's store.
const ours = `trail-field-kit:${build.base}:`;
const store = ours + build.version;
const shell = ''; // the page itself, stored under the base address
const byPath = new Map(build.files.map((file) => [file.path, file]));

self.addEventListener('install', (event) => event.waitUntil(install()));
self.addEventListener('activate', (event) => event.waitUntil(activate()));
self.addEventListener('message', (event) => {
  const asked = event.data || {};
  if (asked.type === 'apply') event.waitUntil(self.skipWaiting());
  if (asked.type === 'check' && event.ports[0]) event.waitUntil(check(event.ports[0]));
});
self.addEventListener('fetch', (event) => {
  const file = wanted(event.request);
  if (file) event.respondWith(answer(file, event.request));
});

// ---- storing --------------------------------------------------------------

// install fills this build's store, one file after the other. Files that are there
// already, from a visit that broke off, are checked and kept: each visit gets
// further, however short the signal lasts.
async function install() {
  try {
    let done = 0;
    for (const file of build.files) {
      const cache = await caches.open(store);
      if (!(await holds(cache, file))) {
        await cache.put(address(file), (await reuse(file)) || (await download(file)));
      }
      done++;
      await tell({ state: 'saving', done, total: build.files.length });
    }
    // A version that took over meanwhile has cleared every store but its own.
    const missing = await lacking(false);
    if (missing.length) throw new Error(`${missing[0]} was cleared while storing`);
  } catch (fault) {
    await tell({ state: 'failed', why: String(fault.message || fault) });
    throw fault;
  }
}

async function activate() {
  for (const name of await caches.keys()) {
    if (name.startsWith(ours) && name !== store) await caches.delete(name);
  }
  await self.clients.claim(); // so that the first visit already works without signal
}

// reuse looks for the same bytes in the store of an older version: an update
// fetches only what changed.
async function reuse(file) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(ours) || name === store) continue;
    const cache = await caches.open(name);
    if (await holds(cache, file)) return cache.match(address(file));
  }
  return null;
}

// download fetches a file and accepts it only with the hash of this build. The
// browser's cache is asked first, because the page has just fetched most files; a
// stale or foreign answer, such as a log-in page with status 200, is fetched once
// more past the cache and then refused.
async function download(file) {
  let fault;
  for (const cache of ['default', 'reload']) {
    const response = await fetch(address(file), { cache, credentials: 'same-origin' });
    if (response.status !== 200) {
      fault = new Error(`${label(file)}: the server answered ${response.status}`);
      continue;
    }
    const bytes = await response.clone().arrayBuffer();
    if ((await digest(bytes)) !== file.sha256) {
      fault = new Error(`${label(file)}: not the file of this version`);
      continue;
    }
    if (response.redirected || mediaType(response) !== mediaType(file)) {
      // A redirected answer cannot serve a page, and a wrong type not a script.
      return new Response(bytes, { headers: { 'Content-Type': file.type } });
    }
    return response;
  }
  throw fault;
}

// ---- answering ------------------------------------------------------------

// wanted returns the stored file that answers a request, or nothing for requests
// that are left to the network. The query is ignored.
function wanted(request) {
  if (request.method !== 'GET') return undefined;
  const url = new URL(request.url);
  if (url.origin !== self.location.origin || !url.pathname.startsWith(build.base)) return undefined;
  const path = url.pathname.slice(build.base.length);
  if (byPath.has(path)) return byPath.get(path);
  return request.mode === 'navigate' ? byPath.get(shell) : undefined;
}

async function answer(file, request) {
  const cache = await caches.open(store);
  const stored = await cache.match(address(file));
  if (stored) return stored; // untouched, so that compiled code stays usable
  await tell({ state: 'missing', path: label(file) });
  try {
    const fresh = await download(file);
    await cache.put(address(file), fresh.clone());
    return fresh;
  } catch {
    return fetch(request); // another version is better than nothing
  }
}

// ---- checking -------------------------------------------------------------

async function check(port) {
  const missing = await lacking(true);
  port.postMessage({
    ready: missing.length === 0,
    missing,
    version: build.version,
    why: missing.length ? 'a file of the program is missing or damaged' : '',
  });
}

async function lacking(withHash) {
  const cache = await caches.open(store);
  const missing = [];
  for (const file of build.files) {
    const there = withHash ? await holds(cache, file) : await cache.match(address(file));
    if (!there) missing.push(label(file));
  }
  return missing;
}

async function holds(cache, file) {
  const response = await cache.match(address(file));
  return Boolean(response) && (await digest(await response.arrayBuffer())) === file.sha256;
}

async function digest(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

// ---- small words ----------------------------------------------------------

function address(file) {
  return new URL(build.base + file.path, self.location.origin).href;
}

function label(file) {
  return file.path || 'the page';
}

// mediaType gives the bare type of a response or of a listed file. Both names of
// JavaScript are one.
function mediaType(of) {
  const whole = of.headers ? of.headers.get('Content-Type') || '' : of.type;
  const bare = whole.split(';')[0].trim().toLowerCase();
  return bare === 'application/javascript' ? 'text/javascript' : bare;
}

async function tell(what) {
  const pages = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  for (const page of pages) page.postMessage({ from: 'fieldkit-worker', version: build.version, ...what });
}
