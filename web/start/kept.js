// What is kept beside the program.
//
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
      if (page) pages.push({ path: request.url.slice(under('').length), mark: page.headers.get('Fieldkit-Mark') || '' });
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
