// @ts-check
// The start page works without scripts; this only keeps a half-second of doubt away: a press on a
// deed's button is taken once.
document.addEventListener('submit', (e) => {
  if (!(e.target instanceof HTMLFormElement)) return;
  for (const b of e.target.querySelectorAll('button')) setTimeout(() => { b.disabled = true; }, 0);
});
addEventListener('pageshow', () => {
  for (const b of document.querySelectorAll('form button')) if (b instanceof HTMLButtonElement) b.disabled = false;
});
