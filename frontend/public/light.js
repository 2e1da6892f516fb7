// Runs before the first paint, so that no page flashes in the other light.
(function () {
  var chosen = null;
  try {
    chosen = localStorage.getItem('rounds.light');
  } catch {
    // A browser that keeps nothing follows the phone.
  }
  var dark = matchMedia('(prefers-color-scheme: dark)').matches;
  var light = chosen === 'lantern' || chosen === 'daylight' ? chosen : dark ? 'lantern' : 'daylight';
  document.documentElement.dataset.light = light;
  document.querySelector('meta[name="theme-color"]').content = light === 'lantern' ? '#14100a' : '#f4ede0';
})();
