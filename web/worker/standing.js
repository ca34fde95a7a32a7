// Which version answers.

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
  if (to === 'newest-version') await standFor({ ...state, serving: build.version, tried: 1 }); // it need not ask
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
