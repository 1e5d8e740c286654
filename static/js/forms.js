// @ts-check
// Forms and buttons that name an edit. A form's fields are the members of its edit; data-as says how
// a field's text is read, data-root under which member they stand, data-base what they start from.
import { chordEdit } from './chord_form.js';
import { change, sayDone } from './edits.js';
import { closest, words } from './dom.js';
import { atOf, facts, partOf } from './facts.js';
import { holeName, parseHole, step, toSteps } from './holes.js';
import { deedOf, figures, lockEdit, sayCost } from './pins.js';
import { send } from './remote.js';
import { renew } from './renew.js';
import { say, warn } from './say.js';
import { PITCH } from './units.js';
import { wireFormEdit } from './wire_form.js';
/** @import { Edit } from './edits.js' */

/** @typedef {HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement} Field */
/** @typedef {{ [name: string]: unknown }} Members */

/** @type {(text: string) => string} the code in what the picker shows, such as "Keypad + (07:57)"; a name or a code may be typed alone */
const usageOf = (text) => {
  const code = (/** @type {string} */ t) => /\(([0-9A-Fa-f]{2}:[0-9A-Fa-f]{2,4})\)\s*$/.exec(t)?.[1];
  const named = [...document.querySelectorAll('#usages option')].map((o) => o.getAttribute('value') ?? '')
    .find((v) => text && v.toLowerCase().startsWith(`${text.toLowerCase()} (`));
  return code(text) ?? code(named ?? '') ?? text;
};

/** @param {Field} f */
const read = (f) => {
  if (f instanceof HTMLInputElement && f.type === 'checkbox' && f.dataset.as !== 'many') return f.checked;
  switch (f.dataset.as) {
    case 'number': return Number(f.value);
    case 'list': return words(f.value);
    case 'flag': return f.value === 'true';
    case 'usage': return usageOf(f.value.trim());
    default: return f.value;
  }
};

/** @param {Members} into @param {string} path such as seam.across_mm @param {unknown} value */
const put = (into, path, value) => {
  const [first, ...rest] = path.split('.');
  if (!rest.length) {
    into[first] = value;
    return;
  }
  const inner = /** @type {Members} */ (into[first] ?? {});
  into[first] = inner;
  put(inner, rest.join('.'), value);
};

/** @param {HTMLFormElement} form @returns {Members} */
const membersOf = (form) => {
  const all = /** @type {Members} */ (form.dataset.base ? JSON.parse(form.dataset.base) : {});
  const root = form.dataset.root ? /** @type {Members} */ (all[form.dataset.root] ??= {}) : all;
  /** @type {Map<string, unknown[]>} */
  const lists = new Map();
  for (const f of form.elements) {
    if (!(f instanceof HTMLInputElement || f instanceof HTMLSelectElement || f instanceof HTMLTextAreaElement) || !f.name || f.disabled) continue;
    if (f.dataset.as === 'numbers') lists.set(f.name, [...(lists.get(f.name) ?? []), Number(f.value)]);
    else if (f.dataset.as === 'names') lists.set(f.name, [...(lists.get(f.name) ?? []), ...(f.value ? [f.value] : [])]);
    else if (f.dataset.as === 'many') lists.set(f.name, [...(lists.get(f.name) ?? []), ...(f instanceof HTMLInputElement && f.checked ? [f.value] : [])]);
    else put(root, f.name, read(f));
  }
  for (const [name, list] of lists) put(root, name, list);
  return all;
};

/** Edits whose fields are not their members. @type {Record<string, (m: Members) => Edit | string>} a string says what is missing */
const SPECIAL = {
  'move-to': ({ ref, hole }) => {
    const p = partOf(String(ref)), to = parseHole(String(hole));
    if (!p || !to) return `“${hole}” is no hole. Write a column and a row, such as C7.`;
    const from = atOf(p);
    return { do: 'move', refs: [p.ref], columns: to.col - from.col, rows: to.row - from.row };
  },
  chord: chordEdit,
  wire: wireFormEdit,
  'lock-pin': ({ signal, gpio }) => lockEdit(String(signal), String(gpio)),
  'join-board': ({ id, board, side, size, skip, misfit }) => {
    const old = facts().boards.find((b) => b.id === board);
    const [columns, rows] = String(size).split('x').map(Number);
    if (!old) return 'That board is gone.';
    const gap = Number(skip);
    const shift = { right: [old.columns - 1 + gap, 0], bottom: [0, old.rows - 1 + gap], left: [-(columns - 1 + gap), 0], top: [0, -(rows - 1 + gap)] }[String(side)] ?? [0, 0];
    const at = step({ col: old.col, row: old.row }, shift[0], shift[1]);
    if (at.col < 0 || at.row < 0) return `There is no grid left of A or above 1. Join it at the ${side === 'left' ? 'right' : 'bottom'}, or move board ${board} first.`;
    const option = document.querySelector(`#join-size option[value="${size}"]`);
    const margins = words(option instanceof HTMLElement ? option.dataset.margins : '').map(Number);
    const form = document.getElementById(`board-form-${board}`);
    const made = form?.dataset.base ? JSON.parse(form.dataset.base).board : {};
    return { do: 'board', board: { id, columns, rows, at: holeName(at), copper: made.copper === 'strips' ? 'strips' : 'pads', plated: made.plated ?? true,
      ...(made.faces ? { faces: made.faces } : {}), margins, seam: { board, side, across_mm: Number(misfit), along_mm: 0 } } };
  },
};

/** @param {HTMLFormElement} form @returns {Edit | string} */
const editOf = (form) => {
  const name = form.dataset.edit ?? '', members = membersOf(form);
  return SPECIAL[name]?.(members) ?? { do: name, ...members };
};

/** What each form said last, so that Enter after a change says it once. @type {WeakMap<HTMLFormElement, string>} */
const said = new WeakMap();

/** @param {Edit} edit @returns {() => void} tells of an edit once it is done; what a tie cost can only be told then */
const teller = (edit) => {
  const before = figures(), deed = deedOf(edit);
  if (!deed) return sayDone;
  return () => { sayCost(deed, before); };
};

/** @param {HTMLFormElement} form */
const submit = async (form) => {
  if (!form.reportValidity()) return;
  const edit = editOf(form);
  if (typeof edit === 'string') {
    warn(edit);
    return;
  }
  const text = JSON.stringify(edit);
  if (form.hasAttribute('data-auto') && said.get(form) === text) return;
  said.set(form, text);
  delete form.dataset.dirty;
  const tell = teller(edit);
  const done = await change(edit, () => {
    said.delete(form);
    if (form.hasAttribute('data-auto')) form.reset();
  });
  if (!done) return;
  tell();
  if (form.hasAttribute('data-clear')) form.reset();
};

/** @param {HTMLElement} el a button or box that is an edit by itself @returns {Edit} */
const deedEdit = (el) => {
  const { do: name = '', whole, ...more } = el.dataset;
  if (whole) return JSON.parse(whole);
  /** @type {Edit} */
  const edit = { do: name };
  for (const [k, v] of Object.entries(more)) edit[k] = v === 'true' || v === 'false' ? v === 'true' : v;
  if (el instanceof HTMLInputElement) edit.keep = el.checked;
  return edit;
};

/** @param {HTMLElement} el */
const deed = async (el) => {
  const edit = deedEdit(el), tell = teller(edit);
  if (await change(edit, () => { if (el instanceof HTMLInputElement) el.checked = !el.checked; })) tell();
};

/** @param {HTMLFormElement} form keeps how many of a part there are */
const keepStock = async (form) => {
  const have = Number(new FormData(form).get('have'));
  if (!form.reportValidity()) return;
  const answer = await send(`/parts/${form.dataset.stock}/stock`, { have });
  if (!answer.ok) warn(`${answer.error} ${answer.fix}`);
  await renew();
};

/** @param {HTMLFormElement} form saves a placed part's definition as the maker's own */
const savePart = async (form) => {
  const data = new FormData(form), id = String(data.get('id'));
  const definition = { ...JSON.parse(form.dataset.savePart ?? '{}'), name: String(data.get('name')) };
  const answer = await send('/parts', { id, definition });
  if (!answer.ok) {
    warn(`${answer.error} ${answer.fix}`);
    return;
  }
  await renew();
  say(`${definition.name} is on your shelf.`);
};

/** @param {HTMLSelectElement} choice fills a board form from a common size */
const fillSize = (choice) => {
  const { columns, rows, margins } = choice.selectedOptions[0]?.dataset ?? {};
  const form = choice.form;
  if (!form || !columns) return;
  const set = (/** @type {string} */ name, /** @type {string[]} */ values) => {
    [...form.querySelectorAll(`[name="${name}"]`)].forEach((f, i) => { if (f instanceof HTMLInputElement) f.value = values[i] ?? f.value; });
  };
  set('columns', [columns]);
  set('rows', [rows ?? '']);
  set('margins', words(margins));
};

/** Fills in how far apart two boards lie when they are put edge to edge as they are sold. */
const fillJoin = () => {
  const form = document.getElementById('join-board');
  if (!(form instanceof HTMLFormElement)) return;
  const data = new FormData(form), side = ['left', 'top', 'right', 'bottom'].indexOf(String(data.get('side')));
  const old = document.getElementById(`board-form-${data.get('board')}`)?.dataset.base;
  const size = document.querySelector(`#join-size option[value="${data.get('size')}"]`);
  if (!old || side < 0 || !(size instanceof HTMLElement)) return;
  const edges = (JSON.parse(old).board.margins?.[side] ?? PITCH / 2) + Number(words(size.dataset.margins)[(side + 2) % 4]);
  const steps = Math.max(1, toSteps(edges));
  const set = (/** @type {string} */ id, /** @type {number} */ v) => {
    const f = document.getElementById(id);
    if (f instanceof HTMLInputElement) f.value = String(Math.round(v * 100) / 100);
  };
  set('join-skip', steps);
  set('join-misfit', edges - steps * PITCH);
};

/** Shows what belongs to a choice only while it is chosen. */
const showWhen = () => {
  for (const el of document.querySelectorAll('[data-when]')) {
    if (!(el instanceof HTMLElement)) continue;
    const [name, value] = (el.dataset.when ?? '').split('=');
    const field = el.closest('form')?.querySelector(`[name="${name}"]`);
    el.hidden = !(field instanceof HTMLSelectElement && field.value === value);
  }
};

export const startForms = () => {
  document.addEventListener('submit', (e) => {
    if (!(e.target instanceof HTMLFormElement)) return;
    const { edit, stock, savePart: save } = e.target.dataset;
    if (edit === undefined && stock === undefined && save === undefined) return;
    e.preventDefault();
    if (edit !== undefined) void submit(e.target);
    else if (stock !== undefined) void keepStock(e.target);
    else void savePart(e.target);
  });
  document.addEventListener('input', (e) => {
    const form = closest(e.target, 'form[data-edit]');
    if (form && !form.hasAttribute('data-auto')) form.dataset.dirty = '';
  });
  document.addEventListener('change', (e) => {
    const el = e.target;
    if (el instanceof HTMLSelectElement && el.matches('[data-size]')) fillSize(el);
    if (el instanceof HTMLSelectElement && closest(el, '#join-board')) fillJoin();
    if (el instanceof HTMLElement && el.matches('input[data-do], input[data-whole]')) void deed(el);
    const form = closest(el, 'form');
    if (form instanceof HTMLFormElement && form.hasAttribute('data-auto')) void submit(form);
    if (form instanceof HTMLFormElement && form.dataset.stock !== undefined) void keepStock(form);
    showWhen();
  });
  document.addEventListener('click', (e) => {
    const button = closest(e.target, 'button[data-do], button[data-whole]');
    if (button) void deed(button);
  });
  const settle = () => {
    showWhen();
    fillJoin();
  };
  document.addEventListener('renewed', settle);
  settle();
};
