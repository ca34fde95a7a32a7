// Answering the addresses of the program.

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
  const { stored, text, whole } = state.serving === build.version ? own : await pageOf(state.serving);
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
  let tries = 0; // before this one, which have drawn no screen
  if (await offersPrevious(state)) {
    tries = state.tried;
    await standFor({ ...state, tried: tries + 1 });
  }
  return withPlainPage(stored, text, kept, tries);
}

// pageOf reads the page of a version. Whether its store is whole is asked at every start:
// the other files are counted only.
async function pageOf(version) {
  const cache = await caches.open(ours + version);
  const [stored, names] = await Promise.all([cache.match(address(shell)), version === build.version ? cache.keys() : null]);
  const text = stored ? await stored.text().catch(() => '') : '';
  const whole = !names || (names.length > build.files.length && (await digest(new TextEncoder().encode(text))) === byPath.get(shell).sha256);
  return { stored: text ? stored : null, text, whole };
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
  const file = state.serving === build.version && byPath.get(path);
  // A damaged start script would find out nothing, and ask for nothing, for ever.
  const damaged = stored && file && path === 'start.js' && !(await holds(cache, file));
  if (stored && !damaged) return stored; // untouched, so that compiled code stays usable
  if (!file) return fetch(event.request);
  await tell({ state: 'missing', path: label(file) });
  try {
    const fresh = await download(file);
    await cache.put(address(path), fresh.clone());
    return fresh;
  } catch {
    return fetch(event.request); // another version is better than nothing
  }
}
