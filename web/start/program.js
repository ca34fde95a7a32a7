// Loads the program and watches for its first screen.

function say(text) {
  const line = document.getElementById('start-state');
  if (line) line.textContent = text;
}

// stop shows why the program is not running, and what can be done without it.
function stop(state, text) {
  standStill(state, text, 'Open again', () => location.reload());
}

// asked lets the person say whether a version tries again that was opened more than once
// and has drawn no screen: one that hangs leaves no moment to choose the version before.
async function asked() {
  const before = document.querySelector(linkBefore);
  if (!before || Number(before.dataset.tries) < 2) return;
  await new Promise((again) => {
    standStill('asked', 'This version was opened here before and has shown no screen.', 'Try it again', again);
  });
  document.querySelector('.stopped').remove();
  page.dataset.start = 'loading';
  say('Opening the program …');
}

const linkBefore = 'main.start a[href$="previous-version"]'; // put there by the worker

// standStill says why nothing goes on, with a button and the ways out. They are shown all at
// once, on the first screen below what is there to be touched already: nothing moves under
// the thumb. Over a plain page they come on top, where they are seen.
async function standStill(state, text, label, act) {
  page.dataset.start = state;
  const over = document.getElementById('plain');
  const found = waysOut(over).catch(() => []);
  await Promise.race([found, new Promise((late) => setTimeout(late, 500))]);
  if (page.dataset.start !== state) return; // it goes on, or stands still for another reason
  document.querySelector('.stopped')?.remove();
  const words = document.createElement('p');
  words.textContent = text;
  const again = document.createElement('button');
  again.type = 'button';
  again.className = 'quiet';
  again.textContent = label;
  again.addEventListener('click', act);
  const notice = document.createElement('div');
  notice.className = 'note bad stopped';
  notice.setAttribute('role', 'alert');
  notice.append(words, again);
  found.then((links) => notice.append(...links)); // at once, unless the worker is slow to answer
  const opening = document.getElementById('start-state');
  if (over) over.prepend(notice);
  else if (opening) (document.querySelector(linkBefore)?.parentElement || opening).after(notice);
  else document.body.prepend(notice);
  say('');
}

// waysOut are the links to the version before and to the plain pages, where there are such
// and the page does not show them yet.
async function waysOut(over) {
  const shown = (what) => !over && document.querySelector(what);
  const active = inCharge();
  const [standing, plain] = await Promise.all([
    active && !shown(linkBefore) && ask(active, { type: 'standing' }, 5_000),
    cacheThere && !shown('main.start .plain-page') && openPlain().then((pages) => pages.match(under('plain/'))).catch(() => null),
  ]);
  const links = [];
  if (standing && standing.previous) links.push(linkTo('previous-version', 'Start the version before this one'));
  if (plain) links.push(linkTo('plain/', 'Read the pages kept as plain text'));
  return links;
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
  if (typeof WebAssembly !== 'object') throw new Error('this browser cannot run it. Open it in a newer browser.');
  if (typeof Go !== 'function') throw new Error(`a file that starts it is missing. ${withSignal}`);
  const go = new Go();
  const response = await fetch(site.base + 'app.wasm');
  if (!response.ok) throw new Error(`the server did not give its file (${response.status}). ${withSignal}`);
  const type = response.headers.get('Content-Type') || '';
  // The response is handed over as it came: only then is compiled code kept.
  const streaming = WebAssembly.instantiateStreaming && type.startsWith('application/wasm');
  const program = streaming
    ? await WebAssembly.instantiateStreaming(response, go.importObject)
    : await WebAssembly.instantiate(await response.arrayBuffer(), go.importObject);
  const ended = go.run(program.instance); // returns after the first screen is drawn
  if (go.exited) throw new Error(`it ended at once. ${withSignal}`);
  if (page.dataset.start === 'loading') page.dataset.start = 'running'; // not over what is said of a slow start
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

const withSignal = 'Open it again when you have signal.';

// why says in plain words what kept the program from loading, and what to do; the console
// has the rest.
function why(fault) {
  switch (fault.name) {
    case 'CompileError': case 'LinkError': case 'RuntimeError': return `its file is damaged, or no program. ${withSignal}`;
    case 'TypeError': return `its file did not come whole. ${withSignal}`;
    case 'RangeError': return 'this phone has too little memory free. Close other apps and open it again.';
  }
  return fault.message || String(fault);
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
  await asked();
  unwatch = watchFirstScreen();
  try {
    await load();
  } catch (fault) {
    unwatch();
    console.error(fault);
    stop('failed', `Could not load the program: ${why(fault)}`);
  }
  if (!workers) return;
  if (!registration) register();
  keepLooking();
}
