// @ts-check
// Chords told by pressing keys: while a group's button is down, a press on a key adds it to the group or
// takes it out, on the board, in the matrix, by mouse, finger or keyboard. What the keys make read is
// asked and shown after every press.
import { boxes, chordIn, form, groups } from './chord_form.js';
import { byId, closest } from './dom.js';
import { drawing } from './drawing.js';
import { facts, partOf } from './facts.js';
import { readChord, showKeys } from './ghosts.js';
import { say, whisper } from './say.js';

/** @type {HTMLElement | null} the group whose keys are being told */
let telling = null;

export const isTelling = () => telling !== null;

/** @param {HTMLElement} group @returns {string} */
const chosenText = (group) => boxes(group).filter((b) => b.checked).map((b) => b.dataset.legend || b.value).join(', ') || 'none yet';

/** Marks the cells as buttons while they press keys, for those who hear the page. */
const markCells = () => {
  const held = new Set(telling ? boxes(telling).filter((b) => b.checked).map((b) => b.value) : []);
  for (const el of document.querySelectorAll('[data-chord-key] a')) {
    if (telling) {
      el.setAttribute('role', 'button');
      el.setAttribute('aria-pressed', String(held.has(closest(el, '[data-chord-key]')?.dataset.chordKey ?? '')));
    } else {
      el.removeAttribute('role');
      el.removeAttribute('aria-pressed');
    }
  }
};

const paint = () => {
  if (telling && !telling.isConnected) telling = null;
  for (const group of groups()) {
    const said = group.querySelector('[data-chosen]');
    if (said) said.textContent = chosenText(group);
    group.classList.toggle('telling', group === telling);
    group.querySelector('[data-chord-mode]')?.setAttribute('aria-pressed', String(group === telling));
  }
  byId('board').classList.toggle('telling', isTelling());
  drawing()?.classList.toggle('telling', isTelling());
  markCells();
  if (form()) {
    showKeys(chordIn());
    void readChord(chordIn());
  }
};

const stop = () => {
  telling = null;
  paint();
};

/** @param {string} id a key's, pressed anywhere @returns {boolean} false when it cannot be of a chord */
const press = (id) => {
  const box = telling && boxes(telling).find((b) => b.value === id);
  if (!box) return false;
  box.checked = !box.checked;
  box.dispatchEvent(new Event('input', { bubbles: true }));
  paint();
  whisper(`${box.dataset.legend || id} ${box.checked ? 'is down' : 'is up'}`);
  return true;
};

/** @type {(ref: string) => boolean} a press on a part; false when no chord is being told */
export const pressChord = (ref) => {
  if (!telling) return false;
  const keys = partOf(ref)?.keys ?? [];
  if (!keys.length) {
    say(`${ref} is no key.`);
  } else if (keys.length > 1) {
    const list = telling.querySelector('details');
    if (list) list.open = true;
    boxes(telling).find((b) => b.value === keys[0].id)?.focus();
    say(`${ref} has several keys: tick the ones you mean, or press them in the matrix.`);
  } else if (!press(keys[0].id)) {
    say(`${ref} is new here: reload the page to press it.`);
  }
  return true;
};

/** @param {HTMLElement} button */
const switchTelling = (button) => {
  const group = closest(button, '[data-group]');
  telling = telling === group ? null : group;
  const f = form();
  if (telling && f) {
    f.dataset.dirty = ''; // it stays through renewals from now on
    say('Press keys on the board or in the matrix. Press the button again when that is all.');
  }
  paint();
};

/** @param {Event} e @returns {boolean} whether it pressed a key by its cell */
const pressCell = (e) => {
  const cell = telling && closest(e.target, '[data-chord-key]');
  if (!cell || !press(cell.dataset.chordKey ?? '')) return false;
  e.preventDefault();
  e.stopPropagation();
  return true;
};

export const startChords = () => {
  if (facts().room !== 'scan') return;
  document.addEventListener('click', (e) => {
    const button = closest(e.target, '[data-chord-mode]');
    if (button) switchTelling(button); else pressCell(e);
  }, true);
  document.addEventListener('keydown', (e) => {
    if (e.key === ' ') pressCell(e);
    if (e.key === 'Escape' && telling) {
      e.stopPropagation();
      stop();
      say('No longer pressing keys of the chord.');
    }
  }, true);
  // The space that presses a key must not move the page as well.
  document.addEventListener('keypress', (e) => {
    if (e.key === ' ' && telling && closest(e.target, '[data-chord-key]')) e.preventDefault();
  }, true);
  document.addEventListener('change', (e) => { if (closest(e.target, '[data-chord] input[type="checkbox"]')) paint(); });
  document.addEventListener('input', (e) => { if (closest(e.target, '[data-chord] input[type="number"]')) paint(); });
  document.addEventListener('submit', (e) => { if (e.target === form()) stop(); }, true);
  document.addEventListener('chord-form', paint);
  document.addEventListener('renewed', paint);
  paint();
};
