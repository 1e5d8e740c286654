// @ts-check
// Holes and how parts lie on them. No document here.
import { PITCH } from './units.js';
/** @import { Hole, Point, Face, Rect, Millimetre } from './units.js' */

/** The largest column or row index that has a name. */
const LAST = 26 * 27 - 1;

/** @type {(col: number) => string} letters of a column: A … Z, AA … ZZ */
export const columnName = (col) => (col < 26 ? '' : String.fromCharCode(64 + Math.floor(col / 26))) + String.fromCharCode(65 + (col % 26));

/** @type {(h: Hole) => boolean} */
export const hasName = (h) => h.col >= 0 && h.row >= 0 && h.col <= LAST && h.row <= LAST;

/** @type {(h: Hole) => string} its name, such as C7; off the grid its column and row */
export const holeName = (h) => (hasName(h) ? columnName(h.col) + (h.row + 1) : `(${h.col + 1},${h.row + 1})`);

/** @type {(name: string) => Hole | null} */
export const parseHole = (name) => {
  const m = /^([A-Z]{1,2})([1-9][0-9]{0,2})$/.exec(name.trim().toUpperCase());
  if (!m) return null;
  const col = [...m[1]].reduce((n, c) => n * 26 + c.charCodeAt(0) - 64, 0) - 1;
  const h = { col, row: Number(m[2]) - 1 };
  return hasName(h) ? h : null;
};

/** @type {(p: Point) => Hole} the hole whose centre is nearest */
export const nearestHole = (p) => ({ col: Math.round(p.x / PITCH), row: Math.round(p.y / PITCH) });

/** @type {(h: Hole) => Point} */
export const centre = (h) => ({ x: h.col * PITCH, y: h.row * PITCH });

/** @type {(a: Hole, cols: number, rows: number) => Hole} */
export const step = (a, cols, rows) => ({ col: a.col + cols, row: a.row + rows });

/** @type {(a: Hole, b: Hole) => boolean} */
export const same = (a, b) => a.col === b.col && a.row === b.row;

/** @typedef {{ at: Hole, turn: number, face: Face }} Pose */

/**
 * Where an offset of a part comes to lie: mirrored when on the back, then turned.
 * @type {(turn: number, face: Face, x: number, y: number) => [number, number]}
 */
const swing = (turn, face, x, y) => {
  if (face === 'back') x = -x;
  for (let i = 0; i < turn % 4; i++) [x, y] = [-y, x];
  return [x, y];
};

/** @type {(pose: Pose, offsets: readonly (readonly [number, number])[]) => Hole[]} */
export const holesOf = (pose, offsets) =>
  offsets.map(([c, r]) => {
    const [x, y] = swing(pose.turn, pose.face, c, r);
    return step(pose.at, x, y);
  });

/** @type {(pose: Pose, rect: Rect) => Rect} where a body comes to lie, in millimetres */
export const rectOf = (pose, [l, t, r, b]) => {
  const [x1, y1] = swing(pose.turn, pose.face, l, t);
  const [x2, y2] = swing(pose.turn, pose.face, r, b);
  const c = centre(pose.at);
  return [c.x + Math.min(x1, x2), c.y + Math.min(y1, y2), c.x + Math.max(x1, x2), c.y + Math.max(y1, y2)];
};

/** @typedef {{ id: string, col: number, row: number, columns: number, rows: number }} Board */

/** @type {(b: Board, h: Hole) => boolean} */
export const holds = (b, h) => h.col >= b.col && h.row >= b.row && h.col < b.col + b.columns && h.row < b.row + b.rows;

/** @type {(boards: readonly Board[], h: Hole) => Board | undefined} */
export const boardAt = (boards, h) => boards.find((b) => holds(b, h));

/** @type {(boards: readonly Board[], h: Hole) => Hole} the hole nearest to h that is inside the boards' common frame */
export const clamp = (boards, h) => {
  const cols = boards.flatMap((b) => [b.col, b.col + b.columns - 1]);
  const rows = boards.flatMap((b) => [b.row, b.row + b.rows - 1]);
  const into = (/** @type {number} */ n, /** @type {number[]} */ all) => Math.max(Math.min(...all), Math.min(Math.max(...all), n));
  return { col: into(h.col, cols), row: into(h.row, rows) };
};

/** @type {(a: Rect, b: Rect) => boolean} whether a lies in b */
export const within = (a, b) => a[0] >= b[0] && a[1] >= b[1] && a[2] <= b[2] && a[3] <= b[3];

/** @type {(a: Point, b: Point) => Rect} */
export const rectBetween = (a, b) => [Math.min(a.x, b.x), Math.min(a.y, b.y), Math.max(a.x, b.x), Math.max(a.y, b.y)];

/** @type {(mm: Millimetre) => number} millimetres to whole holes */
export const toSteps = (mm) => Math.round(mm / PITCH);
