// @ts-check
// What is read while keys are held: asked of the server after every press, which answers from the plan it
// has, and shown in words, in the matrix and on the board with the way of the current.
import { byId, make, svg } from './dom.js';
import { flipX, partGroup } from './drawing.js';
import { facts, partOf, refOf } from './facts.js';
/** @import { AnyOf } from './chord_form.js' */
/** @import { Part } from './facts.js' */

/** @typedef {{ keys: string[], any: AnyOf[] }} Held */
/** @typedef {{ key: string, says: string, way: string, pressed: string[], perhaps: boolean }} Ghost */
/** @typedef {{ keys: string[], state: string, says: string, ghosts: Ghost[], fix: string }} Reading */

/** What the board shows of it, over the drawing and in its millimetres. */
const over = svg('g', { class: 'reading-marks' });

/** @param {Part} p */
const middle = (p) => ({ x: flipX((p.box[0] + p.box[2]) / 2), y: (p.box[1] + p.box[3]) / 2 });

/** @param {string[]} keys @returns {string} lines from each to the next, which leave the keys themselves readable */
const between = (keys) => {
  const parts = keys.flatMap((k) => partOf(refOf(k)) ?? []);
  return parts.slice(1).map((to, i) => {
    const a = middle(parts[i]), b = middle(to), long = Math.hypot(b.x - a.x, b.y - a.y);
    const cut = Math.min(long / 3, Math.min(to.box[2] - to.box[0], to.box[3] - to.box[1]) / 2);
    const [x, y] = [(b.x - a.x) / (long || 1), (b.y - a.y) / (long || 1)];
    const bow = long > 20 ? 8 : 0; // round the keys that lie on the straight way
    return `M${a.x + x * cut} ${a.y + y * cut}Q${(a.x + b.x) / 2 + y * bow} ${(a.y + b.y) / 2 - x * bow} ${b.x - x * cut} ${b.y - y * cut}`;
  }).join('');
};

/** @param {string} key @param {string} word marks a key that reads as pressed */
const flag = (key, word) => {
  const p = partOf(refOf(key));
  if (!p) return [];
  const { x } = middle(p);
  const [l, r] = [flipX(p.box[0]), flipX(p.box[2])];
  const text = svg('text', { class: 'ghost-word', x, y: p.box[1] - 0.9 });
  text.textContent = word;
  return [svg('rect', { class: 'ghost-box', x: Math.min(l, r) - 0.6, y: p.box[1] - 0.6, width: Math.abs(r - l) + 1.2, height: p.box[3] - p.box[1] + 1.2, rx: 0.6 }), text];
};

const clearMarks = () => {
  for (const el of document.querySelectorAll('.ghosting')) el.classList.remove('ghosting');
  for (const el of document.querySelectorAll('.live-flag')) el.remove();
  over.replaceChildren();
};

/** @type {(held: Held) => void} marks the keys of the chord on the board and in the matrix */
export const showKeys = (held) => {
  for (const el of document.querySelectorAll('.in-chord, .in-choice')) el.classList.remove('in-chord', 'in-choice');
  const mark = (/** @type {string} */ key, /** @type {string} */ name) => {
    partGroup(refOf(key))?.classList.add(name);
    document.querySelector(`[data-cell="${CSS.escape(key)}"]`)?.classList.add(name);
  };
  for (const a of held.any) for (const key of a.of) mark(key, 'in-choice');
  for (const key of held.keys) mark(key, 'in-chord');
  byId('room').classList.toggle('trying', held.keys.length + held.any.length > 0);
};

/** @param {Reading} reading */
const showMarks = (reading) => {
  clearMarks();
  const seen = new Set();
  for (const g of reading.ghosts) {
    const word = g.perhaps ? 'ghost?' : 'ghost';
    over.append(svg('path', { class: 'ghost-way', d: between(g.pressed) }), svg('path', { class: 'ghost-way far', d: between([g.pressed.at(-1) ?? '', g.key, g.pressed[0]]) }));
    if (seen.has(g.key)) continue;
    seen.add(g.key);
    over.append(...flag(g.key, word));
    partGroup(refOf(g.key))?.classList.add('ghosting');
    const cell = document.querySelector(`[data-cell="${CSS.escape(g.key)}"]`);
    cell?.classList.add('ghosting');
    if (cell instanceof HTMLTableCellElement) cell.append(make('span', 'ghost-flag live-flag', word));
  }
};

/** @param {Reading} reading */
const showWords = (reading) => {
  const place = document.getElementById('chord-reading');
  if (!place) return;
  place.dataset.state = reading.state;
  const items = reading.ghosts.map((g) => {
    const item = make('li', '', make('span', '', g.says), make('span', 'way', g.way));
    item.dataset.light = '';
    item.dataset.keys = [...g.pressed, g.key].join(' ');
    return item;
  });
  place.replaceChildren(make('p', 'reading-says', reading.says), ...(items.length ? [make('ul', 'plain reading-ghosts', ...items)] : []),
    ...(reading.fix ? [make('p', 'pencil', reading.fix)] : []));
};

let asked = 0;

/** @type {(held: Held) => Promise<void>} */
export const readChord = async ({ keys, any }) => {
  const turn = ++asked;
  if (!keys.length && !any.length) {
    clearMarks();
    document.getElementById('chord-reading')?.replaceChildren();
    return;
  }
  const q = new URLSearchParams([['keys', keys.join(',')], ...any.map((a) => ['any', `${a.count}:${a.of.join(',')}`])]);
  try {
    const answer = await fetch(`/panels/${facts().panel}/ghosts?${q}`, { headers: { Accept: 'application/json' } });
    const said = await answer.json();
    if (turn !== asked) return; // a later press has been asked about since
    if (!answer.ok) throw new Error(said.error);
    showMarks(said);
    showWords(said);
  } catch {
    if (turn !== asked) return;
    clearMarks();
    showWords({ keys, state: 'none', says: 'The server does not answer, so ghosts cannot be told right now.', ghosts: [], fix: '' });
  }
};

/** Puts what the board shows in place. */
export const startGhosts = () => {
  if (facts().room === 'scan') byId('board-hand').querySelector('svg')?.prepend(over);
};
