// @ts-check
// Day or blueprint. A plain script in the head, so that the choice holds before the first paint.
(() => {
  const KEY = 'fascia theme';
  const root = document.documentElement;
  /** @returns {string} day, blueprint, or '' for what the system asks for */
  const kept = () => {
    try { return localStorage.getItem(KEY) ?? ''; } catch { return ''; }
  };
  /** @param {string} theme */
  const show = (theme) => {
    if (theme) root.dataset.theme = theme; else delete root.dataset.theme;
  };
  show(kept());
  document.addEventListener('DOMContentLoaded', () => {
    const dark = matchMedia('(prefers-color-scheme: dark)');
    for (const button of document.querySelectorAll('[data-theme-switch]')) {
      if (!(button instanceof HTMLElement)) continue;
      button.hidden = false;
      button.addEventListener('click', () => {
        const now = root.dataset.theme ?? (dark.matches ? 'blueprint' : 'day');
        const next = now === 'day' ? 'blueprint' : 'day';
        const asSystem = next === (dark.matches ? 'blueprint' : 'day') ? '' : next;
        show(asSystem);
        try { localStorage.setItem(KEY, asSystem); } catch { /* it then holds for this page only */ }
        const say = document.getElementById('say');
        if (say) say.textContent = next === 'day' ? 'Day colours' : 'Blueprint colours';
      });
    }
  });
})();
