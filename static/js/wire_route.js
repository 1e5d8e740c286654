// @ts-check
// The way of a wire that is drawn by hand, from bend to bend, and the edit that asks for it. No document here.
import { holeName, same } from './holes.js';
/** @import { Hole, Face } from './units.js' */
/** @import { Edit } from './edits.js' */

/** @typedef {'bare' | 'solder' | 'insulated'} Way */
/** @typedef {{ from: string, to: string, kind: Way, face: Face, path?: string[], colour?: string }} Wire */

/** @type {(a: Hole, b: Hole) => Hole[]} where a run turns on its way between holes of no common row or column: along the longer side first */
const turn = (a, b) => {
  if (a.col === b.col || a.row === b.row) return [];
  return [Math.abs(b.col - a.col) >= Math.abs(b.row - a.row) ? { col: b.col, row: a.row } : { col: a.col, row: b.row }];
};

/** @type {(bends: readonly Hole[]) => Hole[]} leads a run along rows and columns through its bends */
export const alongRows = (bends) => bends.flatMap((b, i) => (i ? [...turn(bends[i - 1], b), b] : [b])).filter((h, i, all) => !i || !same(h, all[i - 1]));

/** @type {(kind: Way, face: Face, bends: readonly Hole[], more?: { colour?: string }) => Wire} without bends between its ends a bare run goes where it is shortest */
export const wireOf = (kind, face, bends, { colour = '' } = {}) => {
  const path = kind === 'bare' && bends.length > 2 ? alongRows(bends).map(holeName) : [];
  return { from: holeName(bends[0]), to: holeName(bends[bends.length - 1]), kind, face, ...(path.length ? { path } : {}), ...(colour && kind === 'insulated' ? { colour } : {}) };
};

/** @type {(wire: Wire) => Edit} */
export const wireEdit = (wire) => ({ do: 'wire', wire });
