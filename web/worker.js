(function keeper(build) { // everything in one expression: a script cut short anywhere does not parse, and is refused
'use strict';

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

// ---- which version answers ------------------------------------------------

// serving is the version that answers; previous the one before it, until serving has
// drawn a screen; tried counts how often serving was opened without having drawn one.
let standing = null; // {serving, previous, tried}, once it was read

async function stand() {
  if (standing) return standing;
  let kept = null;
  try {
    const found = await (await caches.open(stateStore)).match(named('state'));
    kept = found && (await found.json());
  } catch { /* unreadable: this build's own store answers */ }
  standing = kept && kept.serving ? kept : { serving: build.version, previous: '', tried: 0 };
  return standing;
}

async function standFor(state) {
  standing = state;
  await (await caches.open(stateStore)).put(named('state'), new Response(JSON.stringify(state)));
}

// started is told by a page that has drawn its first screen. The version before is
// needed no more.
async function started(version) {
  const state = await stand();
  if (version !== build.version || state.serving !== build.version || !state.previous) return;
  await standFor({ serving: build.version, previous: '', tried: 0 });
  await clear([build.version]);
}

// change makes another kept version answer, if it is whole, by a plain link: it
// works when no script of the page does. A version that cannot read what is kept by
// now is not started: it would take the kit for damaged.
async function change(to) {
  const state = await stand();
  if (to === 'previous-version' && (await offersPrevious(state))) {
    if ((await lacking(state.previous, true)).length === 0) await standFor({ ...state, serving: state.previous });
  }
  if (to === 'newest-version') await standFor({ ...state, serving: build.version });
  return Response.redirect(address(shell), 302);
}

async function offersPrevious(state) {
  if (!state.previous || state.serving !== build.version) return false;
  const list = await listOf(state.previous);
  return Boolean(list) && list.schema >= build.schema;
}

async function sayStanding(port) {
  const state = await stand();
  port.postMessage({ version: state.serving, newest: build.version, previous: await offersPrevious(state) });
}

// ---- storing --------------------------------------------------------------

// install fills this build's store, one file after the other. Files that are there
// already, from a visit that broke off, are checked and kept: each visit gets
// further, however short the signal lasts.
async function install() {
  try {
    const { waiting } = self.registration;
    standing = null; // another version may have changed it since
    const state = await stand();
    // Halves of versions that never became whole; one that waits is still needed.
    if (!waiting) await clear([build.version, state.serving, state.previous]);
    await fill();
    // A version that took over meanwhile has cleared every store but its own.
    const missing = await lacking(build.version, false);
    if (missing.length) throw new Error(`${missing[0]} was cleared while storing`);
    if (!(await faithful())) throw new Error('what keeps the program arrived damaged');
    if (!(await protects())) await self.skipWaiting();
  } catch (fault) {
    await tell({ state: 'failed', why: String(fault.message || fault) });
    throw fault;
  }
}

async function fill() {
  let done = 0;
  for (const file of build.files) {
    const cache = await caches.open(ours + build.version);
    if (!(await holds(cache, file))) {
      await cache.put(address(file.path), (await reuse(file)) || (await download(file)));
    }
    done++;
    await tell({ state: 'saving', done, total: build.files.length });
  }
  const cache = await caches.open(ours + build.version);
  await cache.put(named(listName), new Response(JSON.stringify({ schema: build.schema, files: build.files })));
}

// protects says whether another whole version is in charge, under which nothing may
// change unasked. If its files were cleared there is nothing to wait for.
async function protects() {
  for (const name of await caches.keys()) {
    if (!name.startsWith(ours) || name === ours + build.version) continue;
    const version = name.slice(ours.length);
    if ((await listOf(version)) ? (await lacking(version, false)).length === 0 : await (await caches.open(name)).match(address(shell))) return true;
  }
  return false;
}

async function activate() {
  standing = null;
  const before = await stand();
  let previous = before.serving === build.version ? before.previous : before.serving;
  if (!previous || !(await caches.has(ours + previous))) previous = '';
  await standFor({ serving: build.version, previous, tried: 0 });
  await clear([build.version, previous]);
  await self.clients.claim(); // so that the first visit already works without signal
}

// clear deletes the stores of all versions but those.
async function clear(but) {
  for (const name of await caches.keys()) {
    if (name.startsWith(ours) && !but.includes(name.slice(ours.length))) await caches.delete(name);
  }
}

// reuse looks for the same bytes in the store of an older version: an update
// fetches only what changed.
async function reuse(file) {
  for (const name of await caches.keys()) {
    if (!name.startsWith(ours) || name === ours + build.version) continue;
    const cache = await caches.open(name);
    if (await holds(cache, file)) return cache.match(address(file.path));
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
    const response = await fetch(address(file.path), { cache, credentials: 'same-origin' });
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

const fromNetwork = new Set(); // pages of another version, by client: all their files come from there

// navigate answers every address of the program with its page. While the program is
// still starting, the plain page kept of that address is in it already.
async function navigate(event, path, url) {
  if (path === 'previous-version' || path === 'newest-version') return change(path);
  if (path !== shell && byPath.has(path)) return answer(event, path);
  // All that a start needs is read at once: it is what a plain page waits for.
  const [kept, state, own] = await Promise.all([plainPage(path + url.search), stand(), pageOf(build.version)]);
  if (kept && path.startsWith('plain/')) return kept;
  if (await changesNow()) return interim();
  const { stored, whole } = state.serving === build.version ? own : await pageOf(state.serving);
  if (!stored || !whole) {
    // Files of two versions do not go together: all or none comes from the store.
    try {
      const fresh = await fetch(event.request);
      fromNetwork.add(event.resultingClientId);
      return fresh;
    } catch (fault) {
      if (!stored) throw fault;
    }
  }
  let back = false;
  if (await offersPrevious(state)) {
    back = state.tried > 0; // it was opened before, and has drawn no screen since
    await standFor({ ...state, tried: state.tried + 1 });
  }
  return withPlainPage(stored, kept, back);
}

// plainPage looks for the plain page of an address; null for the first screen, which
// has none of its own.
async function plainPage(path) {
  if (path === shell) return null;
  const found = await (await caches.open(plainStore)).match(address(path.startsWith('plain/') ? path : `plain/${path}`));
  return found || null;
}

// pageOf reads the page of a version. Whether its store is whole is counted only: it is
// asked for at every start.
async function pageOf(version) {
  const cache = await caches.open(ours + version);
  const [stored, names] = await Promise.all([cache.match(address(shell)), version === build.version ? cache.keys() : null]);
  return { stored, whole: !names || names.length > build.files.length };
}

// changesNow says whether a version that waits takes over before anything is shown:
// nothing of the old one is open. Browsers change of themselves then, and may do so
// between the page and its scripts, which then come from nowhere. The interim page
// needs no other file and opens the address again.
let changing = 0; // since when
const changeLimit = 15_000; // milliseconds

async function changesNow() {
  const { waiting } = self.registration;
  if (!waiting) return false;
  if (Date.now() - changing < changeLimit) return true;
  if ((await self.clients.matchAll({ type: 'window', includeUncontrolled: true })).length) return false;
  changing = Date.now();
  waiting.postMessage({ type: 'apply' });
  return true;
}

function interim() {
  const page = '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><meta http-equiv="refresh" content="1">' +
    '<meta name="viewport" content="width=device-width, initial-scale=1"><title>Trail Field Kit</title></head>' +
    '<body><p>Changing to the new version …</p></body></html>';
  return new Response(page, { headers: {
    'Content-Type': 'text/html; charset=utf-8',
    'Content-Security-Policy': "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'",
  } });
}

async function answer(event, path) {
  if (fromNetwork.has(event.clientId)) return fetch(event.request);
  const state = await stand();
  const cache = await caches.open(ours + state.serving);
  const stored = await cache.match(address(path));
  if (stored) return stored; // untouched, so that compiled code stays usable
  const file = byPath.get(path);
  if (!file || state.serving !== build.version) return fetch(event.request);
  await tell({ state: 'missing', path: label(file) });
  try {
    const fresh = await download(file);
    await cache.put(address(path), fresh.clone());
    return fresh;
  } catch {
    return fetch(event.request); // another version is better than nothing
  }
}

// withPlainPage puts into the stored page what can be read before, or without, the
// program: the plain page of this address, else the list of all; and the way back to
// the version before while this one has not proven that it starts. Plain pages are
// escaped where they are made and hold no script; the page's policy runs none.
async function withPlainPage(stored, kept, back) {
  const [text, page] = await Promise.all([stored.text(), kept ? kept.text() : '']);
  let filled = part(part(text, 'not stored', ''),
    'version before', back ? `<p><a class="quiet wide" href="${build.base}previous-version">Start the version before this one</a></p>` : '');
  const over = between(page, 'main');
  if (over) {
    // It is painted first, in its own theme; the files of the program come after it.
    const program = partOf(filled, 'program');
    filled = part(part(filled, 'program', ''), 'plain page', `<div id="plain">${over}</div>\n${program}`);
    if (page.includes('data-theme="night"')) filled = filled.replace('<html ', '<html data-theme="night" ');
  } else {
    const list = await plainPage('plain/');
    const names = list && between(await list.text(), 'section');
    if (names) filled = part(filled, 'plain list', `<div class="plain-page">${names}</div>`);
  }
  const headers = new Headers(stored.headers);
  for (const name of ['Content-Encoding', 'Content-Length', 'ETag']) headers.delete(name);
  return new Response(filled, { headers });
}

// part replaces what stands between <!--name--> and <!--/name--> of the page.
function part(text, name, by) {
  const [open, close] = [`<!--${name}-->`, `<!--/${name}-->`];
  const from = text.indexOf(open);
  const to = text.indexOf(close);
  if (from < 0 || to < from) return text;
  return text.slice(0, from) + by + text.slice(to + close.length);
}

// partOf gives what stands there; nothing in the page of an earlier version that has no
// such part.
function partOf(text, name) {
  return (text.split(`<!--${name}-->`)[1] || '').split(`<!--/${name}-->`)[0];
}

// between takes an element out of a page, from its first opening to its last closing.
function between(text, name) {
  const [from, to] = [text.indexOf(`<${name}`), text.lastIndexOf(`</${name}>`)];
  return from < 0 || to < from ? '' : text.slice(from, to + name.length + 3);
}

// ---- checking -------------------------------------------------------------

// check answers whether every stored byte is right: of the version that answers, or
// of the worker's own, which may still wait. Before that it mends what it can if that
// is asked for.
async function check(port, asked) {
  let why = '';
  let state = await stand();
  if (asked.mend) {
    try {
      if (state.serving !== build.version && (await lacking(state.serving, true)).length) {
        state = { ...state, serving: build.version };
        await standFor(state);
      }
      if (state.serving === build.version) await fill();
    } catch (fault) {
      why = String(fault.message || fault);
    }
  }
  const version = asked.own ? build.version : state.serving;
  const missing = await lacking(version, true);
  port.postMessage({
    ready: missing.length === 0,
    missing,
    version,
    build: build.version,
    self: await ownSum(),
    why: missing.length ? why || 'a file of the program is missing or damaged' : '',
  });
}

// ownSum is the hash of what runs here: this very code, and the list without its hashes,
// which every file proves by itself. The page knows what it must be: no other file can
// vouch for this one.
function ownSum() {
  const list = JSON.stringify(build, (key, value) => (key === 'sha256' ? '' : value));
  return digest(new TextEncoder().encode(`${keeper}\n${list}`));
}

// faithful says whether this very script is the one that the start script of its version
// names. One that is not must never wait: the browser would use it at the next start.
async function faithful() {
  const script = await (await caches.open(ours + build.version)).match(address('start.js'));
  const sum = script && /"worker":"([0-9a-f]{64})"/.exec(await script.text());
  return Boolean(sum) && sum[1] === (await ownSum());
}

// lacking names the files of a version that are not there, or not right.
async function lacking(version, withHash) {
  const cache = await caches.open(ours + version);
  const list = version === build.version ? build : await listOf(version);
  if (!list) return ['its list of files'];
  const missing = [];
  for (const file of list.files) {
    const there = withHash ? await holds(cache, file) : await cache.match(address(file.path));
    if (!there) missing.push(label(file));
  }
  return missing;
}

async function listOf(version) {
  try {
    const found = (await caches.has(ours + version)) && (await (await caches.open(ours + version)).match(named(listName)));
    return found ? await found.json() : null;
  } catch {
    return null;
  }
}

async function holds(cache, file) {
  const response = await cache.match(address(file.path));
  return Boolean(response) && (await digest(await response.arrayBuffer())) === file.sha256;
}

async function digest(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}

// ---- small words ----------------------------------------------------------

function address(path) {
  return new URL(build.base + path, self.location.origin).href;
}

const named = address; // of what is kept beside the files

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

})(BUILD_DATA);
