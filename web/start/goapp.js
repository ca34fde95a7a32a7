// The theme, before the first paint, and what go-app asks of the page.

const page = document.documentElement;

try {
  const theme = localStorage.getItem('fieldkit.pref.theme');
  if (theme === 'night') page.dataset.theme = theme;
} catch { /* storage is switched off: the default theme */ }

// Plain pages and the change of versions are answered by the worker, not the program.
const ofTheWorker = ['plain/', 'previous-version', 'newest-version'].map((path) => location.origin + site.base + path);
site.env.GOAPP_INTERNAL_URLS = JSON.stringify([...JSON.parse(site.env.GOAPP_INTERNAL_URLS), ...ofTheWorker]);

// mendAddress gives the program an address that it can start at. It reads it as Go does,
// and would end at one with a stray per cent sign, as in a link that was scanned badly.
// One of the worker's for which that has nothing, as a plain page that is kept no more, it
// would leave to the worker again and again. Ours is asked before go-app's own listener.
function mendAddress() {
  let sound = location.href.replace(/%(?![0-9a-f]{2})/gi, '%25');
  if (ofTheWorker.some((address) => sound.startsWith(address))) sound = location.origin + site.base;
  if (sound !== location.href) history.replaceState(history.state, '', sound);
}
mendAddress();
addEventListener('popstate', mendAddress);

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
