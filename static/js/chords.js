// @ts-check
// Chords told by pressing keys on the board: while a chord's button is down, a press on a key adds it
// or takes it out, and the keys of the chord are marked.
import { byId, closest } from './dom.js';
import { drawing, partGroup } from './drawing.js';
import { partOf, refOf } from './facts.js';
import { say, whisper } from './say.js';

/** @type {string} id of the form whose chord is being told; '' for none */
let telling = '';

const form = () => document.getElementById(telling);

/** @param {Element | null} f @returns {HTMLInputElement[]} */
const boxes = (f) => [...(f?.querySelectorAll('input[name="keys"]') ?? [])].filter((b) => b instanceof HTMLInputElement);

const paint = () => {
  for (const el of document.querySelectorAll('.in-chord')) el.classList.remove('in-chord');
  for (const b of document.querySelectorAll('[data-chord-mode]')) b.setAttribute('aria-pressed', String(telling !== '' && b.closest('form')?.id === telling));
  byId('board').classList.toggle('telling', telling !== '');
  drawing()?.classList.toggle('telling', telling !== '');
  const f = form();
  const count = document.querySelector('[data-chord-count]');
  const fresh = boxes(document.getElementById('chord-new')).filter((b) => b.checked).length;
  if (count) count.textContent = fresh ? `${fresh} chosen` : 'none yet';
  for (const box of boxes(f)) {
    if (!box.checked) continue;
    partGroup(refOf(box.value))?.classList.add('in-chord');
    document.querySelector(`[data-chord-key="${CSS.escape(box.value)}"]`)?.classList.add('in-chord');
  }
};

/** @type {(ref: string) => boolean} a press on a part; false when no chord is being told */
export const pressChord = (ref) => {
  if (!telling) return false;
  const keys = partOf(ref)?.keys ?? [];
  const box = boxes(form()).find((b) => b.value === keys[0]?.id);
  if (!box || !keys.length) {
    say(`${ref} is no key.`);
  } else if (keys.length > 1) {
    say(`${ref} has several keys: tick the ones you mean in the list.`);
  } else {
    box.checked = !box.checked;
    box.dispatchEvent(new Event('input', { bubbles: true }));
    paint();
    whisper(`${keys[0].legend || ref} ${box.checked ? 'added to' : 'taken out of'} the chord`);
  }
  return true;
};

export const startChords = () => {
  document.addEventListener('click', (e) => {
    const button = closest(e.target, '[data-chord-mode]');
    if (button) {
      const id = button.closest('form')?.id ?? '';
      telling = telling === id ? '' : id;
      if (telling) {
        const more = button.closest('form')?.querySelector('details');
        if (more) more.open = true;
        say('Press the keys of the chord on the board, then keep the chord.');
      }
      paint();
      return;
    }
    const cell = closest(e.target, '[data-chord-key]');
    if (cell && telling && pressChord(refOf(cell.dataset.chordKey ?? ''))) {
      e.preventDefault();
      e.stopPropagation();
    }
  }, true);
  document.addEventListener('submit', (e) => {
    if (e.target instanceof HTMLFormElement && e.target.id === telling) {
      telling = '';
      paint();
    }
  });
  document.addEventListener('change', (e) => { if (closest(e.target, '[data-chord]')) paint(); });
  document.addEventListener('reset', () => setTimeout(paint, 0));
  document.addEventListener('renewed', paint);
};
