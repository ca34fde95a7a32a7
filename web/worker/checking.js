// Checking what is stored, and this script itself.

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
  try {
    const response = await cache.match(address(file.path));
    return Boolean(response) && (await digest(await response.arrayBuffer())) === file.sha256;
  } catch {
    return false; // it is there, and cannot be read
  }
}

async function digest(bytes) {
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
