// @ts-check
// The lines of the scan on the drawn keys: each key carries its row's colour at its side and its column's
// over its head, and a key that is pointed at lights its cell.
import { cursor } from './cursor.js';
import { byId, closest, svg } from './dom.js';
import { faceUp, flipX } from './drawing.js';
import { facts, partAt, partOf, refOf } from './facts.js';
import { light } from './light.js';

const marks = svg('g', { class: 'cell-marks' });

/** @returns {HTMLElement[]} */
const cells = () => [...document.querySelectorAll('[data-cell]')].filter((c) => c instanceof HTMLElement);

const paint = () => {
  /** @type {Map<string, number>} */
  const times = new Map();
  marks.replaceChildren(...cells().flatMap(({ dataset: { cell = '', row, column } }) => {
    const p = partOf(refOf(cell));
    if (!p || !row || !column) return [];
    const nth = times.get(p.ref) ?? 0;
    times.set(p.ref, nth + 1);
    const [l, t, r, b] = p.box, away = 0.55 + nth * 0.8;
    const left = Math.min(flipX(l), flipX(r)), right = Math.max(flipX(l), flipX(r));
    return [svg('path', { class: `cell-row row-${row}`, d: `M${left - away} ${t}V${b}` }), svg('path', { class: `cell-column col-${column}`, d: `M${left} ${t - away}H${right}` })];
  }));
};

/** @param {string | undefined} ref */
const lightCell = (ref) => {
  const cell = ref && cells().find((c) => refOf(c.dataset.cell ?? '') === ref);
  if (cell) light(cell);
};

export const startCells = () => {
  if (facts().room !== 'scan') return;
  byId('board-hand').querySelector('svg')?.prepend(marks);
  paint();
  document.addEventListener('renewed', paint);
  byId('board').addEventListener('pointerover', (e) => {
    if (!byId('board').matches('.grabbing, .telling')) lightCell(closest(e.target, '.part')?.dataset.ref);
  });
  byId('board').addEventListener('keydown', (e) => {
    if (/^(Arrow|Home|End|Page)|^n$/i.test(e.key)) lightCell(partAt(cursor(), faceUp())?.ref);
  });
};
