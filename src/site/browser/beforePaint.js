// Runs before the first paint, as a plain script since the content security policy allows none in the page:
// a chosen drawing (light or dark) and the projector must not flash up in another one first.
(() => {
  const page = document.documentElement;
  page.dataset.scripts = 'on';
  try {
    const theme = localStorage.getItem('plumb-theme');
    if (theme === 'light' || theme === 'dark') page.dataset.theme = theme;
  } catch {
    // Storage may be forbidden; the system's choice stands then.
  }
  if (new URLSearchParams(location.search).has('projector')) page.dataset.projector = '';
})();
