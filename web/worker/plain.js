// Plain pages over the page of the program.

// plainPage looks for the plain page of an address; null for the first screen, which
// has none of its own.
async function plainPage(path) {
  if (path === shell) return null;
  const found = await (await caches.open(plainStore)).match(address(path.startsWith('plain/') ? path : `plain/${path}`));
  return found || null;
}

// withPlainPage puts into the stored page what can be read before, or without, the
// program: the plain page of this address, else the list of all; and the way back to
// the version before while this one has not proven that it starts. Plain pages are
// escaped where they are made and hold no script; the page's policy runs none.
async function withPlainPage(stored, text, kept, tries) {
  const page = kept ? await kept.text() : '';
  let filled = part(part(text, 'not stored', ''),
    'version before', tries ? `<p><a class="quiet wide" data-tries="${tries}" href="${build.base}previous-version">Start the version before this one</a></p>` : '');
  const over = between(page, 'main');
  if (over) {
    // It is painted first, in its own theme; the files of the program come after it.
    const program = partOf(filled, 'program');
    filled = part(part(filled, 'program', ''), 'plain page', `<div id="plain">${over}</div>\n${program}`);
    if (/<html[^>]* data-theme="night"/.test(page)) filled = filled.replace('<html ', '<html data-theme="night" ');
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
