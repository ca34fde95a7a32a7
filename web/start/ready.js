// Whether the copy kept for no signal is whole, and the worker that of this version.

window.fieldkitOffline = { state: 'unavailable', done: 0, total: 0, why: '', path: '' };
function offline(state, more) {
  window.fieldkitOffline = { state, done: 0, total: 0, why: '', path: '', ...more };
  const line = document.getElementById('start-offline');
  if (line && state === 'ready') line.textContent = 'Ready for no signal.';
  else if (line && state === 'saving') line.textContent = `Not ready for no signal yet: ${window.fieldkitOffline.done} of ${window.fieldkitOffline.total} files stored.`;
  dispatchEvent(new CustomEvent('fieldkit:offline', { detail: window.fieldkitOffline }));
}

// ask puts a question to a worker; null if it does not answer in time, or is replaced
// before it has.
function ask(worker, question, limit) {
  return new Promise((answer) => {
    const channel = new MessageChannel();
    const end = (said) => {
      clearTimeout(late);
      worker.removeEventListener('statechange', look);
      answer(said);
    };
    const look = () => { if (worker.state === 'redundant') end(null); };
    const late = setTimeout(end, limit, null);
    channel.port1.onmessage = (event) => end(event.data);
    worker.addEventListener('statechange', look);
    worker.postMessage(question, [channel.port2]);
    look();
  });
}

// announce says whether the stored copy is whole, after looking. What the system
// cleared of it is fetched again while there is signal. The latest look counts: another
// worker may have taken over since an earlier one.
let looks = 0;
let lastLook = 0; // when
async function announce() {
  const look = ++looks;
  lastLook = Date.now();
  let copy = await window.fieldkitOfflineReady();
  if (look !== looks) return;
  if (!copy.ready) {
    offline('missing', { path: copy.missing.join(', '), why: copy.why });
    copy = await window.fieldkitOfflineReady(true);
    if (look !== looks) return;
  }
  if (copy.ready) offline('ready');
  else {
    offline('missing', { path: copy.missing.join(', '), why: copy.why });
    tryAgainLater();
  }
}

function inCharge() {
  return workers && (workers.controller || (registration && registration.active));
}

window.fieldkitOfflineReady = async (mend) => {
  const no = (why) => ({ ready: false, missing: [], version: site.version, why });
  if (!workers) return no('this browser cannot keep the program for places with no signal');
  const active = inCharge();
  if (!active) return no('the program is not stored yet');
  const copy = await ask(active, { type: 'check', mend: Boolean(mend) }, mend ? 120_000 : 30_000);
  if (!copy && inCharge() !== active) return window.fieldkitOfflineReady(mend); // it was replaced
  if (!copy) return no('the check took too long');
  return faithful(copy) ? copy : { ...no('what keeps the program arrived damaged'), missing: ['worker.js'] };
};

// faithful says whether the worker that answers is, letter for letter, that of this
// version. One of another version is vouched for by the pages of that version.
function faithful({ build, self }) {
  const another = /^[0-9a-f]{16}$/.test(build) && build !== site.version;
  return another || self === site.worker;
}
