// The theme, before the first paint, and what go-app asks of the page.

const page = document.documentElement;

try {
  const theme = localStorage.getItem('fieldkit.pref.theme');
  if (theme === 'night') page.dataset.theme = theme;
} catch { /* storage is switched off: the default theme */ }

// The program reads its address as Go does, and would end at one with a stray per cent
// sign, as in a link that was scanned badly. Ours is asked before its own listener.
function mendAddress() {
  const sound = location.href.replace(/%(?![0-9a-f]{2})/gi, '%25');
  if (sound !== location.href) history.replaceState(history.state, '', sound);
}
mendAddress();
addEventListener('popstate', mendAddress);

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

// Putting it on the home screen.
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
