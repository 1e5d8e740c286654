// @ts-check
// A wire told by the names of its holes.
import { parseHole } from './holes.js';
import { wireEdit, wireOf } from './wire_route.js';
/** @import { Edit } from './edits.js' */
/** @import { Face } from './units.js' */
/** @import { Way } from './wire_route.js' */

/** @type {(members: { [name: string]: unknown }) => Edit | string} a string says what is wrong */
export const wireFormEdit = ({ from, to, kind, face, bends, colour }) => {
  const names = [String(from), ...(kind === 'bare' ? /** @type {string[]} */ (bends) : []), String(to)];
  const holes = [];
  for (const name of names) {
    const h = parseHole(name);
    if (!h) return `“${name}” is no hole. Write a column and a row, such as C7.`;
    holes.push(h);
  }
  return wireEdit(wireOf(/** @type {Way} */ (kind), /** @type {Face} */ (face), holes, { colour: String(colour) }));
};
