// @ts-check
// A part of the maker's own, told by a simple form: which holes its legs take and how large its body
// is. The server judges the definition; here it is only put together.
import { byId, closest } from './dom.js';
import { takePart } from './held.js';
import { columnName } from './holes.js';
import { send } from './remote.js';
import { renew } from './renew.js';
import { PITCH } from './units.js';
/** @import { Hole } from './units.js' */

const COLUMNS = 12, ROWS = 9;
/** @type {Hole[]} in the order of pressing */
let legs = [];

/** @param {string} name @returns {string} a short name for files */
const slug = (name) => name.toLowerCase().normalize('NFKD').replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '').slice(0, 40) || 'part';

const paint = () => {
  for (const b of byId('define-grid').children) {
    if (!(b instanceof HTMLButtonElement)) continue;
    const at = legs.findIndex((h) => h.col === Number(b.dataset.col) && h.row === Number(b.dataset.row));
    b.textContent = at < 0 ? '' : String(at + 1);
    b.setAttribute('aria-pressed', String(at >= 0));
  }
};

const makeGrid = () => {
  for (let row = 0; row < ROWS; row++) {
    for (let col = 0; col < COLUMNS; col++) {
      const b = document.createElement('button');
      b.type = 'button';
      b.dataset.col = String(col);
      b.dataset.row = String(row);
      b.tabIndex = row || col ? -1 : 0;
      b.setAttribute('aria-label', `hole ${columnName(col)}${row + 1}`);
      byId('define-grid').append(b);
    }
  }
  paint();
};

/** @param {KeyboardEvent} e arrows go from hole to hole, so that the grid is one stop of the Tab key */
const walk = (e) => {
  const [x, y] = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key] ?? [0, 0];
  const b = e.target;
  if (!(b instanceof HTMLButtonElement) || (!x && !y)) return;
  e.preventDefault();
  const col = Math.max(0, Math.min(COLUMNS - 1, Number(b.dataset.col) + x)), row = Math.max(0, Math.min(ROWS - 1, Number(b.dataset.row) + y));
  const next = byId('define-grid').children[row * COLUMNS + col];
  if (next instanceof HTMLButtonElement) {
    b.tabIndex = -1;
    next.tabIndex = 0;
    next.focus();
  }
};

/** Legs named with one letter and a number, such as A1 and A2, are one metal. @param {string[]} names */
const joined = (names) => {
  /** @type {Map<string, string[]>} */
  const sets = new Map();
  for (const n of names) {
    const m = /^([A-Za-z])[0-9]+$/.exec(n);
    if (m) sets.set(m[1], [...(sets.get(m[1]) ?? []), n]);
  }
  return [...sets.values()].filter((s) => s.length > 1);
};

/** @param {HTMLFormElement} form @returns {{ id: string, definition: object }} */
const definitionOf = (form) => {
  const data = new FormData(form);
  const text = (/** @type {string} */ n) => String(data.get(n) ?? '').trim(), num = (/** @type {string} */ n) => Number(data.get(n));
  const kind = form.querySelector('[name="kind"]');
  const prefix = kind instanceof HTMLSelectElement ? kind.selectedOptions[0].dataset.prefix : 'X';
  const given = text('legs').split(/[\s,]+/).filter(Boolean);
  const names = legs.map((_, i) => given[i] ?? String(i + 1));
  const first = legs[0] ?? { col: 0, row: 0 };
  const at = legs.map((h) => /** @type {[number, number]} */ ([h.col - first.col, h.row - first.row]));
  const middle = (/** @type {0 | 1} */ i) => (Math.min(...at.map((o) => o[i])) + Math.max(...at.map((o) => o[i]))) / 2 * PITCH;
  const round = (/** @type {number} */ v) => Math.round(v * 100) / 100;
  const [x, y, w, d] = [middle(0), middle(1), num('width') / 2, num('depth') / 2];
  const isSwitch = text('kind') === 'switch';
  return {
    id: slug(text('name')),
    definition: {
      name: text('name'), kind: text('kind'), prefix,
      terminals: names.map((name, i) => ({ name, at: at[i], mm: at[i].map((n) => round(n * PITCH)) })),
      joined: joined(names),
      ...(isSwitch ? { contacts: [{ name: 'press', between: [names[0], names.at(-1)] }] } : {}),
      bodies: [{ face: 'front', rect: [round(x - w), round(y - d), round(x + w), round(y + d)], height: num('height'), stand_off: num('standoff') }],
      needs: [], facts: {}, bom: { text: text('name') }, sources: [{ figure: 'all', source: 'measured by the maker' }],
    },
  };
};

/** @param {HTMLFormElement} form */
const save = async (form) => {
  const problem = byId('define-problem');
  problem.textContent = '';
  if (!legs.length) {
    problem.textContent = 'Press at least one hole for a leg.';
    return;
  }
  const made = definitionOf(form);
  const answer = await send('/parts', made);
  if (!answer.ok) {
    problem.textContent = `${answer.error} ${answer.fix}`;
    return;
  }
  const dialog = byId('define-dialog');
  if (dialog instanceof HTMLDialogElement) dialog.close();
  form.reset();
  legs = [];
  paint();
  await renew();
  const button = document.getElementById(`part-${made.id}`);
  if (button) takePart(button);
  byId('board').focus({ preventScroll: true });
};

export const startDefine = () => {
  const form = document.getElementById('define-form');
  if (!(form instanceof HTMLFormElement)) return;
  makeGrid();
  const contact = () => { byId('define-contact').hidden = new FormData(form).get('kind') !== 'switch'; };
  contact();
  form.addEventListener('change', contact);
  byId('define-grid').addEventListener('keydown', walk);
  form.addEventListener('click', (e) => {
    const b = closest(e.target, '.define-grid button');
    if (!b) return;
    const h = { col: Number(b.dataset.col), row: Number(b.dataset.row) };
    const has = legs.some((l) => l.col === h.col && l.row === h.row);
    legs = has ? legs.filter((l) => l.col !== h.col || l.row !== h.row) : [...legs, h];
    const names = form.querySelector('[name="legs"]');
    if (names instanceof HTMLInputElement && /^[0-9\s]*$/.test(names.value)) names.value = legs.map((_, i) => i + 1).join(' ');
    paint();
  });
  form.addEventListener('submit', (e) => {
    e.preventDefault();
    void save(form);
  });
};
