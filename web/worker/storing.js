// Storing a version, and taking it up.

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
    const wait = patiently(label(file));
    try {
      const response = await fetch(address(file.path), { cache, credentials: 'same-origin', signal: wait.signal });
      if (response.status !== 200) {
        fault = new Error(`${label(file)}: the server answered ${response.status}`);
        continue;
      }
      const bytes = await read(response.clone(), wait.more);
      if ((await digest(bytes)) !== file.sha256) {
        fault = new Error(`${label(file)}: not the file of this version`);
        continue;
      }
      if (response.redirected || mediaType(response) !== mediaType(file)) {
        // A redirected answer cannot serve a page, and a wrong type not a script.
        return new Response(bytes, { headers: { 'Content-Type': file.type } });
      }
      return response;
    } finally {
      wait.end();
    }
  }
  throw fault;
}

// patiently gives up a download of which nothing more comes: at the edge of the signal a
// connection may neither go on nor end, and while it stands no other visit is tried.
const stillLimit = 60_000; // milliseconds
function patiently(what) {
  const stop = new AbortController();
  let late;
  const end = () => clearTimeout(late);
  const more = () => {
    end();
    late = setTimeout(() => stop.abort(new Error(`${what}: nothing more came from the server`)), stillLimit);
  };
  more();
  return { signal: stop.signal, more, end };
}

// read reads a whole body, and tells of each piece that came.
async function read(response, more) {
  const pieces = [];
  if (!response.body) return new ArrayBuffer(0);
  for (const reader = response.body.getReader(); ;) {
    const { done, value } = await reader.read();
    if (done) return new Blob(pieces).arrayBuffer();
    pieces.push(value);
    more();
  }
}
