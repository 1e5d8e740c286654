// @ts-check
// What each wish about wires costs. The server reckons that once it is asked, which takes a while, so the
// page asks only once wishes are looked at and nothing else goes on.
import { facts } from './facts.js';

const PAUSE = 500; // milliseconds without an edit
let timer = 0;
/** @type {{ rev: number, says: { [wish: string]: string } }} */
let known = { rev: -1, says: {} };

/** @returns {HTMLElement[]} */
const places = () => [...document.querySelectorAll('[data-price]')].filter((el) => el instanceof HTMLElement);

const show = () => {
  for (const el of places()) el.textContent = (known.rev === facts().rev && known.says[el.dataset.price ?? '']) || '';
};

const ask = async () => {
  try {
    const answer = await fetch(`/panels/${facts().panel}/wire-prices`, { headers: { Accept: 'application/json' } });
    if (!answer.ok) return;
    known = await answer.json();
    show();
  } catch { /* without the server there are no prices */ }
};

const later = () => {
  clearTimeout(timer);
  show();
  if (known.rev === facts().rev || !places().some((el) => el.dataset.price && (el.closest('details')?.open ?? true))) return;
  timer = window.setTimeout(() => { void ask(); }, PAUSE);
};

export const startWirePrices = () => {
  if (facts().room !== 'wire') return;
  document.addEventListener('renewed', later);
  document.addEventListener('toggle', later, true); // a list of wishes opens
  later();
};
