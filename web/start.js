// Starts the program: loads the WebAssembly, registers the worker that keeps the
// files for places with no signal, and passes on that a new version is waiting.
'use strict';

(() => {
  const site = SITE_DATA; // {base, version, env}, filled in by web.Render
  const page = document.documentElement;

  // ---- theme, before the first paint -------------------------------------
  try {
    const theme = localStorage.getItem('fieldkit.pref.theme');
    if (theme === 'night') page.dataset.theme = theme;
  } catch { /* storage is switched off: the default theme */ }

  // ---- what go-app asks of the page --------------------------------------
  window.goappGetenv = (key) => site.env[key];
  window.goappNav = () => {};
  window.goappUpdatedBeforeWasmLoaded = false;
  window.goappOnUpdate = () => { window.goappUpdatedBeforeWasmLoaded = true; };
  window.goappAppInstallChangedBeforeWasmLoaded = false;
  window.goappOnAppInstallChange = () => { window.goappAppInstallChangedBeforeWasmLoaded = true; };
  window.goappKeepBodyClean = () => () => {};

  // ---- putting it on the home screen -------------------------------------
  let installPrompt = null;
  addEventListener('beforeinstallprompt', (event) => {
    event.preventDefault(); // the program asks at a moment that suits
    installPrompt = event;
    window.goappOnAppInstallChange();
  });
  addEventListener('appinstalled', () => {
    installPrompt = null;
    window.goappOnAppInstallChange();
  });
  window.goappIsAppleBrowser = () => {
    const agent = navigator.userAgent;
    const tablet = /\bMacintosh\b/.test(agent) && navigator.maxTouchPoints > 1;
    return tablet || /iP(hone|ad|od)/.test(agent);
  };
  window.goappIsAppInstalled = () =>
    navigator.standalone === true || matchMedia('(display-mode: standalone)').matches;
  // On Apple browsers there is no prompt to show: only true where one exists.
  window.goappIsAppInstallable = () => !window.goappIsAppInstalled() && installPrompt !== null;
  window.goappShowInstallPrompt = async () => {
    if (!installPrompt) return;
    installPrompt.prompt();
    await installPrompt.userChoice;
    installPrompt = null;
    window.goappOnAppInstallChange();
  };

  // ---- state of the copy kept for no signal ------------------------------
  window.fieldkitOffline = { state: 'unavailable', done: 0, total: 0, why: '', path: '' };
  function offline(state, more) {
    window.fieldkitOffline = { state, done: 0, total: 0, why: '', path: '', ...more };
    dispatchEvent(new CustomEvent('fieldkit:offline', { detail: window.fieldkitOffline }));
  }

  // ---- the worker --------------------------------------------------------
  const workers = navigator.serviceWorker; // missing on plain http and in some private windows
  const soonest = 10_000; // milliseconds before a broken-off visit is tried again
  const latest = 300_000;
  const betweenChecks = 600_000; // how often a page that is looked at again asks for news
  let controlled = Boolean(workers && workers.controller);
  let registration = null;
  let replaced = false; // another tab changed to the new version under this page
  let applying = false;
  let retryAfter = soonest;
  let retryTimer = 0;
  let lastCheck = 0;
  const followed = new WeakSet();

  window.fieldkitUpdateReady = false;
  function updateReady() {
    window.fieldkitUpdateReady = true;
    window.goappOnUpdate();
  }

  function reloadOnce() {
    if (!applying) return;
    applying = false;
    location.reload();
  }

  window.fieldkitApplyUpdate = () => {
    applying = true;
    const waiting = registration && registration.waiting;
    if (replaced || !waiting) {
      reloadOnce();
      return;
    }
    waiting.postMessage({ type: 'apply' });
    setTimeout(reloadOnce, 5_000); // in case the change is not announced
  };

  function follow(worker) {
    if (!worker || followed.has(worker)) return;
    followed.add(worker);
    let stored = false;
    worker.addEventListener('statechange', () => {
      if (worker.state === 'installed') {
        stored = true;
        retryAfter = soonest;
        if (controlled) updateReady();
      }
      if (worker.state === 'activated') announce();
      if (worker.state === 'redundant' && !stored) tryAgainLater(); // installing broke off
    });
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
      if (registration.waiting && controlled) updateReady();
      if (registration.active) announce();
    } catch (fault) {
      if (controlled) return; // no signal, and the stored copy is running
      offline('failed', { why: String(fault.message || fault) });
      tryAgainLater();
    }
  }

  function lookForNews() {
    clearTimeout(retryTimer);
    if (registration && registration.active) window.goappTryUpdate();
    else register();
  }

  window.goappTryUpdate = () => {
    if (!registration) return;
    lastCheck = Date.now();
    registration.update().catch(() => { /* no signal: ask again another time */ });
  };

  // announce says whether the stored copy is whole, after looking.
  async function announce() {
    const copy = await window.fieldkitOfflineReady();
    if (copy.ready) offline('ready');
    else offline('missing', { path: copy.missing.join(', '), why: copy.why });
  }

  function listen() {
    workers.addEventListener('message', (event) => {
      const said = event.data || {};
      if (said.from !== 'fieldkit-worker') return;
      // While a new version is being stored, the old copy is still whole.
      if (said.state !== 'missing' && registration && registration.active) return;
      offline(said.state, said);
    });
    workers.addEventListener('controllerchange', () => {
      if (applying) reloadOnce();
      else if (controlled) {
        replaced = true;
        updateReady();
      }
      controlled = true;
    });
  }

  function keepLooking() {
    addEventListener('online', lookForNews);
    document.addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'visible' && Date.now() - lastCheck > betweenChecks) lookForNews();
    });
  }

  window.fieldkitOfflineReady = async () => {
    const no = (why) => ({ ready: false, missing: [], version: site.version, why });
    if (!workers) return no('this browser cannot keep the program for places with no signal');
    const active = workers.controller || (registration && registration.active);
    if (!active) return no('the program is not stored yet');
    return new Promise((answer) => {
      const channel = new MessageChannel();
      const late = setTimeout(() => answer(no('the check took too long')), 30_000);
      channel.port1.onmessage = (event) => {
        clearTimeout(late);
        answer(event.data);
      };
      active.postMessage({ type: 'check' }, [channel.port2]);
    });
  };

  // ---- the program -------------------------------------------------------
  function say(text) {
    const line = document.getElementById('start-state');
    if (line) line.textContent = text;
  }

  // stop shows why the program is not running, and the one thing to do.
  function stop(state, text) {
    page.dataset.start = state;
    const words = document.createElement('p');
    words.textContent = text;
    const again = document.createElement('button');
    again.type = 'button';
    again.textContent = 'Open again';
    again.addEventListener('click', () => location.reload());
    const notice = document.createElement('div');
    notice.className = 'note';
    notice.setAttribute('role', 'alert');
    notice.append(words, again);
    const opening = document.querySelector('main.start');
    if (opening) opening.append(notice);
    else document.body.prepend(notice);
    say('');
  }

  async function load() {
    if (typeof WebAssembly !== 'object' || typeof Go !== 'function') {
      throw new Error('this browser does not run WebAssembly');
    }
    const go = new Go();
    const response = await fetch(site.base + 'app.wasm');
    if (!response.ok) throw new Error(`app.wasm: the server answered ${response.status}`);
    const type = response.headers.get('Content-Type') || '';
    // The response is handed over as it came: only then is compiled code kept.
    const streaming = WebAssembly.instantiateStreaming && type.startsWith('application/wasm');
    const program = streaming
      ? await WebAssembly.instantiateStreaming(response, go.importObject)
      : await WebAssembly.instantiate(await response.arrayBuffer(), go.importObject);
    const ended = go.run(program.instance); // returns after the first screen is drawn
    if (go.exited) throw new Error('the program ended at once');
    page.dataset.start = 'running';
    performance.mark('fieldkit-running');
    ended.then(() => {
      stop('stopped', 'The program stopped. What was shown as saved is kept.');
    });
  }

  async function start() {
    // With a stored copy in charge the worker is asked for news at once. On a first
    // visit the link is left to the program, and the worker then finds it in the
    // browser's cache instead of fetching it a second time.
    if (workers) listen();
    if (workers && controlled) register();
    try {
      await load();
    } catch (fault) {
      console.error(fault);
      stop('failed', `Could not load the program: ${fault.message || fault}. Open it again when you have signal.`);
    }
    if (!workers) return;
    if (!registration) register();
    keepLooking();
  }

  start();
})();
