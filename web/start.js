// Starts the program: loads the WebAssembly, registers the worker that keeps the
// files for places with no signal, and passes on that a new version is waiting.
'use strict';

(() => {
  const site = SITE_DATA; // {base, version, worker, plainPolicy, env}, filled in by web.Render
  const page = document.documentElement;

  // ---- theme, before the first paint -------------------------------------
  try {
    const theme = localStorage.getItem('fieldkit.pref.theme');
    if (theme === 'night') page.dataset.theme = theme;
  } catch { /* storage is switched off: the default theme */ }

  // ---- what go-app asks of the page --------------------------------------
  // Plain pages and the change of versions are answered by the worker, not the program.
  site.env.GOAPP_INTERNAL_URLS = JSON.stringify([...JSON.parse(site.env.GOAPP_INTERNAL_URLS),
    ...['plain/', 'previous-version', 'newest-version'].map((path) => location.origin + site.base + path)]);
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
    const line = document.getElementById('start-offline');
    if (line && state === 'ready') line.textContent = 'Ready for no signal.';
    else if (line && state === 'saving') line.textContent = `Not ready for no signal yet: ${window.fieldkitOffline.done} of ${window.fieldkitOffline.total} files stored.`;
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
        if (controlled) offerUpdate(worker);
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
    if (copy && copy.ready && (await vouched(copy))) {
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

  // ask puts a question to a worker; null if it does not answer in time.
  function ask(worker, question, limit) {
    return new Promise((answer) => {
      const channel = new MessageChannel();
      const late = setTimeout(() => answer(null), limit);
      channel.port1.onmessage = (event) => {
        clearTimeout(late);
        answer(event.data);
      };
      worker.postMessage(question, [channel.port2]);
    });
  }

  function lookForNews() {
    clearTimeout(retryTimer);
    if (!registration || !registration.active) {
      register();
      return;
    }
    window.goappTryUpdate();
    if (window.fieldkitOffline.state === 'missing') announce();
  }

  window.goappTryUpdate = () => {
    if (!registration) return;
    lastCheck = Date.now();
    registration.update().catch(() => { /* no signal: ask again another time */ });
  };

  // announce says whether the stored copy is whole, after looking. What the system
  // cleared of it is fetched again while there is signal. The latest look counts: another
  // worker may have taken over since an earlier one.
  let looks = 0;
  async function announce() {
    const look = ++looks;
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

  function inCharge() {
    return workers && (workers.controller || (registration && registration.active));
  }

  window.fieldkitOfflineReady = async (mend) => {
    const no = (why) => ({ ready: false, missing: [], version: site.version, why });
    if (!workers) return no('this browser cannot keep the program for places with no signal');
    const active = inCharge();
    if (!active) return no('the program is not stored yet');
    const copy = await ask(active, { type: 'check', mend: Boolean(mend) }, mend ? 120_000 : 30_000);
    if (!copy) return no('the check took too long');
    return faithful(copy) ? copy : { ...no('what keeps the program arrived damaged'), missing: ['worker.js'] };
  };

  // faithful says whether the worker that answers is, letter for letter, that of this
  // version. One of another version is vouched for by the pages of that version.
  function faithful({ build, self }) {
    const another = /^[0-9a-f]{16}$/.test(build) && build !== site.version;
    return another || self === site.worker;
  }

  // ---- what is kept beside the program -----------------------------------
  // Plain pages are read when the program cannot start; the note is found when the
  // kit's database was cleared. Both live in the browser's cache, apart from the
  // database and from the program's own files.
  const cacheThere = typeof caches === 'object';
  const under = (path) => new URL(site.base + path, location.origin).href;
  const openPlain = () => caches.open(`trail-field-kit-plain:${site.base}`);
  const openState = () => caches.open(`trail-field-kit-state:${site.base}`);

  window.fieldkitPlain = cacheThere ? {
    async list() {
      const cache = await openPlain();
      const pages = [];
      for (const request of await cache.keys()) {
        const page = await cache.match(request);
        pages.push({ path: request.url.slice(under('').length), mark: page.headers.get('Fieldkit-Mark') || '' });
      }
      return pages;
    },
    async keep(path, mark, html) {
      await (await openPlain()).put(under(path), new Response(html, { headers: {
        'Content-Type': 'text/html; charset=utf-8',
        'Content-Security-Policy': site.plainPolicy,
        'X-Content-Type-Options': 'nosniff',
        'Referrer-Policy': 'no-referrer',
        'Fieldkit-Mark': mark,
      } }));
    },
    async drop(path) {
      await (await openPlain()).delete(under(path));
    },
    async note(text) {
      await (await openState()).put(under('kit-note'), new Response(text));
    },
    async noted() {
      const kept = await (await openState()).match(under('kit-note'));
      return kept ? kept.text() : '';
    },
  } : null;

  // ---- the program -------------------------------------------------------
  function say(text) {
    const line = document.getElementById('start-state');
    if (line) line.textContent = text;
  }

  // stop shows why the program is not running, and what can be done without it.
  async function stop(state, text) {
    page.dataset.start = state;
    document.querySelector('.stopped')?.remove();
    const words = document.createElement('p');
    words.textContent = text;
    const again = document.createElement('button');
    again.type = 'button';
    again.className = 'quiet';
    again.textContent = 'Open again';
    again.addEventListener('click', () => location.reload());
    const notice = document.createElement('div');
    notice.className = 'note bad stopped';
    notice.setAttribute('role', 'alert');
    notice.append(words, again);
    const over = document.getElementById('plain');
    const opening = document.querySelector('main.start');
    if (over) over.prepend(notice);
    else if (opening) document.getElementById('start-state').after(notice);
    else document.body.prepend(notice);
    say('');
    const active = inCharge();
    const standing = active && (await ask(active, { type: 'standing' }, 5_000));
    const offered = !over && document.querySelector('main.start a[href$="previous-version"]'); // by the worker
    if (standing && standing.previous && !offered) notice.append(linkTo('previous-version', 'Start the version before this one'));
    if (cacheThere && (await (await openPlain()).match(under('plain/')))) {
      notice.append(linkTo('plain/', 'Read the pages kept as plain text'));
    }
  }

  function linkTo(path, text) {
    const link = document.createElement('a');
    link.className = 'quiet';
    link.href = site.base + path;
    link.textContent = text;
    return link;
  }

  // watchFirstScreen waits for the first screen that shows more than that the kit is
  // being opened. Then the plain page over it has done its work, and a new version has
  // proven that it starts. A kit that could not be opened is no proof.
  const patience = 25_000; // milliseconds
  let unwatch = () => {};

  function watchFirstScreen() {
    const late = setTimeout(() => {
      stop('slow', 'The program takes long to open. What was shown as saved is kept.');
    }, patience);
    const look = () => {
      const phase = document.querySelector('[data-phase]')?.dataset.phase;
      if (!phase || phase === 'opening' || page.dataset.start === 'loading') return;
      clearTimeout(late);
      watch.disconnect();
      document.getElementById('plain')?.remove();
      document.querySelector('.stopped')?.remove();
      page.dataset.start = 'running';
      performance.mark('fieldkit-shown');
      const active = inCharge();
      if (active && phase !== 'closed') active.postMessage({ type: 'started', version: site.version });
    };
    const watch = new MutationObserver(look);
    watch.observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-phase', 'data-start'] });
    return () => { clearTimeout(late); watch.disconnect(); };
  }

  // askStanding notes for the program which version this is, beside the others kept.
  window.fieldkitStanding = { version: site.version, newest: site.version, previous: false };
  async function askStanding() {
    const active = inCharge();
    const standing = active && (await ask(active, { type: 'standing' }, 10_000));
    if (standing) window.fieldkitStanding = standing;
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
    const stopped = () => {
      unwatch();
      stop('stopped', 'The program stopped. What was shown as saved is kept.');
    };
    ended.then(stopped, (fault) => {
      console.error(fault);
      stopped();
    });
  }

  // painted waits, where a plain page lies over everything, until it can be read: the
  // program takes all there is of the processor.
  function painted() {
    if (!document.getElementById('plain') || document.visibilityState === 'hidden') return null;
    return new Promise((done) => {
      setTimeout(done, 1_000); // in case this browser does not tell
      new PerformanceObserver((list) => {
        if (list.getEntriesByName('first-contentful-paint').length) done();
      }).observe({ type: 'paint', buffered: true });
    }).then(() => performance.mark('fieldkit-plain'));
  }

  async function start() {
    await painted();
    // With a stored copy in charge the worker is asked for news at once. On a first
    // visit the link is left to the program, and the worker then finds it in the
    // browser's cache instead of fetching it a second time.
    if (workers) listen();
    if (workers && controlled) {
      register();
      askStanding();
    }
    unwatch = watchFirstScreen();
    try {
      await load();
    } catch (fault) {
      unwatch();
      console.error(fault);
      stop('failed', `Could not load the program: ${fault.message || fault}. Open it again when you have signal.`);
    }
    if (!workers) return;
    if (!registration) register();
    keepLooking();
  }

  start();
})();
