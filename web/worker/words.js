// Small words of all parts.

function address(path) {
  return new URL(build.base + path, self.location.origin).href;
}

const named = address; // of what is kept beside the files

function label(file) {
  return file.path || 'the page';
}

// mediaType gives the bare type of a response or of a listed file. Both names of
// JavaScript are one.
function mediaType(of) {
  const whole = of.headers ? of.headers.get('Content-Type') || '' : of.type;
  const bare = whole.split(';')[0].trim().toLowerCase();
  return bare === 'application/javascript' ? 'text/javascript' : bare;
}

async function tell(what) {
  const pages = await self.clients.matchAll({ type: 'window', includeUncontrolled: true });
  for (const page of pages) page.postMessage({ from: 'fieldkit-worker', version: build.version, ...what });
}
