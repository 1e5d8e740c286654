// @ts-check
// What the server told of where things are. It is read anew after each renewal of the page.
import { boardAt, same } from './holes.js';
/** @import { Hole, Face, Rect } from './units.js' */
/** @import { Board } from './holes.js' */

/** @typedef {{ id: string, legend: string, is: boolean }} Key */
/**
 * @typedef {{ ref: string, name: string, kind: string, face: Face, at: [number, number], holes: [number, number][],
 *   ends: string[], box: Rect, keys: Key[] }} Part
 */
/** @typedef {{ panel: string, name: string, rev: number, room: string, face: Face, boards: Board[], parts: Part[] }} Facts */

/** @type {Facts} */
let now = { panel: '', name: '', rev: 0, room: 'place', face: 'front', boards: [], parts: [] };

/** Reads the block of facts in the page. */
export const readFacts = () => {
  now = JSON.parse(document.getElementById('facts')?.dataset.facts ?? '{}');
};

export const facts = () => now;

/** @type {(ref: string) => Part | undefined} */
export const partOf = (ref) => now.parts.find((p) => p.ref === ref);

/** @type {(p: Part) => Hole} */
export const atOf = (p) => ({ col: p.at[0], row: p.at[1] });

/** @type {(p: Part) => Hole[]} */
export const legs = (p) => p.holes.map(([col, row]) => ({ col, row }));

/** @type {(h: Hole) => { part: Part, end: string }[]} whose legs are in a hole */
export const endsIn = (h) =>
  now.parts.flatMap((part) => legs(part).flatMap((leg, i) => (same(leg, h) ? [{ part, end: part.ends[i] }] : [])));

/** @type {(h: Hole, face: Face) => Part | undefined} the part with a leg in the hole or its body over it, that of the face in view first */
export const partAt = (h, face) => {
  const x = h.col * 2.54, y = h.row * 2.54;
  const over = now.parts.filter((p) => (x >= p.box[0] && x <= p.box[2] && y >= p.box[1] && y <= p.box[3]) || legs(p).some((l) => same(l, h)));
  return over.find((p) => p.face === face) ?? over[0];
};

/** @type {(p: Part) => string} how a part is called aloud */
export const called = (p) => {
  const legends = p.keys.map((k) => k.legend).filter(Boolean).join(', ');
  return legends ? `${p.ref}, key ${legends}` : `${p.ref}, ${p.name}`;
};

/** @type {(ref: string) => string} the part that a key or terminal belongs to */
export const refOf = (ref) => ref.split('.')[0];

/** @type {(h: Hole) => boolean} */
export const onBoard = (h) => boardAt(now.boards, h) !== undefined;

/** @type {() => Part[]} parts in reading order: row by row, left to right */
export const inOrder = () => [...now.parts].sort((a, b) => a.box[1] - b.box[1] || a.box[0] - b.box[0]);
