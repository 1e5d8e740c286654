// @ts-check
// The keyboard's place on the board: one hole, told aloud when it moves.
import { byId } from './dom.js';
import { faceUp, showPlace } from './drawing.js';
import { atOf, called, endsIn, facts, onBoard, partAt } from './facts.js';
import { showCursor } from './hand.js';
import { centre, clamp, holeName, step } from './holes.js';
import { whisper } from './say.js';
/** @import { Hole } from './units.js' */

/** @type {Hole} */
let at = { col: 0, row: 0 };

export const cursor = () => at;

/** @type {(h: Hole) => string} what is in and over a hole */
export const tell = (h) => {
  const ends = endsIn(h).map(({ part, end }) => `${called(part)}, leg ${end}`);
  const over = partAt(h, faceUp());
  if (!ends.length && over) ends.push(`under ${called(over)}`);
  if (!ends.length) ends.push(onBoard(h) ? 'empty' : 'off the board');
  return `${holeName(h)}: ${ends.join('; ')}`;
};

/** @type {(h: Hole) => void} shows a hole in the strip above the board */
export const showWhere = (h) => { byId('where').textContent = tell(h); };

/** @type {(h: Hole, quiet?: boolean) => void} */
export const putCursor = (h, quiet = false) => {
  at = clamp(facts().boards, h);
  showCursor(at);
  if (quiet) return;
  showPlace(centre(at));
  showWhere(at);
  whisper(tell(at));
};

/** @type {(cols: number, rows: number) => void} right on the screen is left on the board when its back is up */
export const moveCursor = (cols, rows) => putCursor(step(at, faceUp() === 'back' ? -cols : cols, rows));

export const startCursor = () => {
  const b = facts().boards[0];
  const first = facts().parts[0];
  putCursor(first ? atOf(first) : { col: b?.col ?? 0, row: b?.row ?? 0 }, true);
  document.addEventListener('renewed', () => putCursor(at, true));
};
