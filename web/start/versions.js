// The worker that keeps the versions, and the change from one to the next.

const workers = navigator.serviceWorker; // missing on plain http and in some private windows
const soonest = 10_000; // milliseconds before a broken-off visit is tried again
const latest = 300_000;
const betweenChecks = 600_000; // how often a page that is looked at again asks for news
let controlled = Boolean(workers && workers.controller);
let registration = null;
let applying = null; // asks whether the page may start again, once the new version has taken over
let retryAfter = soonest;
let retryTimer = 0;
let lastCheck = 0;
const followed = new WeakSet();

window.fieldkitUpdateReady = false;
function updateReady(ready = true) {
  window.fieldkitUpdateReady = ready;
  window.goappOnUpdate();
}

// fieldkitApplyUpdate changes to the version that waits. The page starts again when the
// new worker is in charge and not before: until then the old one would answer, and the
// word be lost. That may take a while, for the old one ends what it is doing first;
// mayReload is asked then.
window.fieldkitApplyUpdate = (mayReload = () => true) => {
  if (applying) return;
  applying = mayReload;
  const next = registration && (registration.waiting || registration.active);
  if (!next || next.state === 'activated') {
    reloadOnce();
    return;
  }
  next.addEventListener('statechange', () => {
    if (next.state === 'activated') reloadOnce();
  });
  if (next.state === 'installed') next.postMessage({ type: 'apply' });
};

function reloadOnce() {
  const may = applying;
  applying = null;
  if (may && may()) location.reload();
}

function follow(worker) {
  if (!worker || followed.has(worker)) return;
  followed.add(worker);
  let before = worker.state;
  worker.addEventListener('statechange', () => {
    if (worker.state === 'installed') {
      retryAfter = soonest;
      if (controlled) offerUpdate(worker);
    }
    if (worker.state === 'activated') announce();
    if (worker.state === 'redundant' && before === 'installing') tryAgainLater(); // it broke off
    else if (worker.state === 'redundant' && before !== 'activated') takeBack();
    before = worker.state;
  });
}

// takeBack ends the offer of a version that is no more, and the word given for it: a
// later one came, which is offered once it was checked, or the browser's data was cleared.
function takeBack() {
  applying = null;
  updateReady(false);
}

// A visit that broke off is completed as soon as there is a chance: when the
// signal returns, when the page is looked at again, and now and then.
function tryAgainLater() {
  clearTimeout(retryTimer);
  retryTimer = setTimeout(lookForNews, retryAfter);
  retryAfter = Math.min(2 * retryAfter, latest);
}

async function register() {
  lastCheck = Date.now();
  try {
    registration = await workers.register(site.base + 'worker.js', { scope: site.base, updateViaCache: 'none' });
    registration.onupdatefound = () => follow(registration.installing);
    follow(registration.installing);
    follow(registration.waiting);
    if (registration.waiting && controlled) offerUpdate(registration.waiting);
    if (registration.active) announce();
  } catch (fault) {
    if (controlled) return; // no signal, and the stored copy is running
    offline('failed', { why: String(fault.message || fault) });
    tryAgainLater();
  }
}

// offerUpdate offers a version that waits, once it has checked every byte of its own.
// One that does not answer is a broken script: it will not start the program, so this
// phone is not ready for no signal until a good one has taken its place.
async function offerUpdate(worker) {
  const answers = await ask(worker, { type: 'standing' }, 10_000);
  const copy = answers && (await ask(worker, { type: 'check', own: true }, 60_000));
  const good = copy && copy.ready && (await vouched(copy));
  if (worker.state !== 'installed') return; // it was replaced meanwhile, or took over
  if (good) {
    updateReady();
    return;
  }
  offline('failed', { why: 'the new version arrived broken' });
  tryAgainLater();
}

// vouched says whether a worker that waits is the one that the start script of its own
// version names; an earlier version's names none.
async function vouched({ build, self }) {
  const script = await caches.match(under('start.js'), { cacheName: `trail-field-kit:${site.base}:${build}` });
  const sum = script && /"worker":"([0-9a-f]{64})"/.exec(await script.text());
  return !sum || sum[1] === self;
}

function lookForNews() {
  clearTimeout(retryTimer);
  if (!registration || !registration.active) {
    register();
    return;
  }
  window.goappTryUpdate();
  // A version that waits and could not be checked then, on a slow phone perhaps.
  if (registration.waiting && controlled && !window.fieldkitUpdateReady) offerUpdate(registration.waiting);
  const { state } = window.fieldkitOffline;
  if (state === 'missing' || (state === 'ready' && Date.now() - lastLook > betweenChecks)) announce();
}

window.goappTryUpdate = () => {
  if (!registration) return;
  lastCheck = Date.now();
  registration.update().catch(() => { /* no signal: ask again another time */ });
};

function listen() {
  workers.addEventListener('message', (event) => {
    const said = event.data || {};
    if (said.from !== 'fieldkit-worker') return;
    // While a new version is being stored, the old copy is still whole.
    if (said.state !== 'missing' && registration && registration.active) return;
    offline(said.state, said);
  });
  workers.addEventListener('controllerchange', () => {
    const before = controlled;
    controlled = Boolean(workers.controller);
    if (!controlled) announce(); // the browser's data was cleared under this page
    else if (before && !applying) changedTo(workers.controller);
  });
}

// changedTo offers a version that took over under this page, by another tab's word, where
// this page is not of that version itself: one whose files were cleared gives way at once.
async function changedTo(worker) {
  const standing = await ask(worker, { type: 'standing' }, 10_000);
  if (!standing || standing.version !== site.version) updateReady();
}

function keepLooking() {
  addEventListener('online', lookForNews);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible' && Date.now() - lastCheck > betweenChecks) lookForNews();
  });
}
