// @ts-check
// The one form in which a chord is told: all of some keys, and any so many of others. Groups come and go;
// a chord that is kept can be taken up again.
import { closest } from './dom.js';
import { facts } from './facts.js';
import { say } from './say.js';
/** @import { Edit } from './edits.js' */

/** @typedef {{ count: number, of: string[] }} AnyOf */
/** @typedef {{ name: string, keys: string[], any?: AnyOf[] }} Chord */

/** The most groups of which some keys are chosen. */
const MOST = 4;

/** @type {() => HTMLFormElement | null} */
export const form = () => {
  const f = document.getElementById('chord-new');
  return f instanceof HTMLFormElement ? f : null;
};

/** @type {() => HTMLElement[]} the groups of keys in the form, the one of all its keys first */
export const groups = () => [...(form()?.querySelectorAll('[data-group]') ?? [])].filter((g) => g instanceof HTMLElement);

/** @type {(group: Element | undefined) => HTMLInputElement[]} */
export const boxes = (group) => [...(group?.querySelectorAll('input[type="checkbox"]') ?? [])].filter((b) => b instanceof HTMLInputElement);

/** @param {Element | undefined} group @returns {string[]} */
const ticked = (group) => boxes(group).filter((b) => b.checked).map((b) => b.value);

/** @param {Element} group */
const countIn = (group) => Number(group.querySelector('input[type="number"]') instanceof HTMLInputElement ? /** @type {HTMLInputElement} */ (group.querySelector('input[type="number"]')).value : 1);

/** @type {() => { keys: string[], any: AnyOf[] }} what the form says now */
export const chordIn = () => {
  const [all, ...some] = groups();
  return { keys: ticked(all), any: some.map((g) => ({ count: countIn(g) || 1, of: ticked(g) })).filter((a) => a.of.length > 0) };
};

/** @type {(members: { [name: string]: unknown }) => Edit | string} the edit that keeps a chord; a string says what is missing */
export const chordEdit = ({ name, was, keys, any }) => {
  const all = /** @type {string[]} */ (keys);
  const some = /** @type {AnyOf[]} */ (Object.values(any ?? {})).filter((a) => a.of.length > 0);
  const short = some.find((a) => a.of.length < a.count);
  if (short) return `Any ${short.count} of ${short.of.length} cannot be. Add keys, or ask for fewer.`;
  if (all.length + some.reduce((n, a) => n + a.count, 0) < 2) return 'A chord needs two keys at least. Press them on the board, or tick them in the list.';
  /** @type {Edit} */
  const chord = { do: 'chord', name, keys: all, ...(some.length ? { any: some } : {}) };
  if (!was || was === name) return chord;
  return { do: 'together', label: `Chord ${name}`, edits: [{ do: 'remove-chord', name: was }, chord] };
};

let made = 0;

/** @type {() => HTMLElement | null} one more group, empty */
const addGroup = () => {
  const template = document.getElementById('chord-choice'), place = document.getElementById('chord-choices');
  const group = template instanceof HTMLTemplateElement ? template.content.firstElementChild?.cloneNode(true) : null;
  if (!place || !(group instanceof HTMLElement)) return null;
  const n = ++made;
  for (const el of [group, ...group.querySelectorAll('[id]')]) if (el.id) el.id = el.id.replace('-any', `-any${n}`);
  for (const f of group.querySelectorAll('[name]')) f.setAttribute('name', (f.getAttribute('name') ?? '').replace('any.0', `any.${n}`));
  place.append(group);
  return group;
};

/** Says that the form is another one, so that what shows its keys follows. */
const changed = () => {
  const add = document.getElementById('chord-add');
  if (add instanceof HTMLButtonElement) add.disabled = groups().length > MOST;
  document.dispatchEvent(new Event('chord-form'));
};

/** @param {Chord | null} chord to be changed; null for a new one */
const fill = (chord) => {
  const f = form();
  if (!f) return;
  f.reset();
  document.getElementById('chord-choices')?.replaceChildren();
  const set = (/** @type {string} */ name, /** @type {string} */ value) => {
    const field = f.elements.namedItem(name);
    if (field instanceof HTMLInputElement) field.value = value;
  };
  set('was', chord?.name ?? '');
  set('name', chord?.name ?? f.dataset.fresh ?? '');
  const tick = (/** @type {Element | undefined} */ group, /** @type {string[]} */ keys) => {
    for (const b of boxes(group)) b.checked = keys.includes(b.value);
  };
  tick(groups()[0], chord?.keys ?? []);
  for (const a of chord?.any ?? []) {
    const group = addGroup();
    tick(group ?? undefined, a.of);
    const count = group?.querySelector('input[type="number"]');
    if (count instanceof HTMLInputElement) count.value = String(a.count);
  }
  const label = document.getElementById('chord-label');
  if (label) label.textContent = chord ? `Chord ${chord.name}, to be changed` : 'A new chord';
  if (chord) f.dataset.dirty = ''; else delete f.dataset.dirty;
  changed();
};

/** @param {MouseEvent} e */
const onClick = (e) => {
  const change = closest(e.target, '[data-change-chord]');
  if (change) {
    fill(JSON.parse(change.dataset.changeChord ?? 'null'));
    form()?.scrollIntoView({ block: 'nearest' });
    document.getElementById('chord-press-new')?.focus({ preventScroll: true });
  } else if (closest(e.target, '[data-leave-chord]')) {
    fill(null);
    say('A new chord.');
  } else if (closest(e.target, '[data-add-choice]')) {
    const f = form();
    if (f) f.dataset.dirty = '';
    const button = addGroup()?.querySelector('[data-chord-mode]');
    changed();
    if (button instanceof HTMLElement) button.click();
    if (button instanceof HTMLElement) button.focus();
  } else if (closest(e.target, '[data-drop-choice]')) {
    closest(e.target, '[data-group]')?.remove();
    changed();
    document.getElementById('chord-add')?.focus();
  }
};

export const startChordForm = () => {
  if (facts().room === 'scan') document.addEventListener('click', onClick);
};
