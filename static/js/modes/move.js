// @ts-check
// Drags the selected parts from hole to hole. A press that did not move is handed on.
import { byId } from '../dom.js';
import { change } from '../edits.js';
import { shift } from '../held.js';
import { holeName, step } from '../holes.js';
import { hold } from '../renew.js';
import { say } from '../say.js';
import { toSteps } from '../holes.js';
/** @import { Mode, Spot } from './mode.js' */

/** @type {(slack: number, refs: () => string[], pressed: (at: Spot) => void) => Mode} */
export const moving = (slack, refs, pressed) => {
  /** @type {Spot} */
  let from;
  let begun = false, cols = 0, rows = 0;
  /** @type {string[]} */
  let parts = [];
  let release = () => {};
  const board = byId('board');
  const end = () => {
    board.classList.remove('grabbing');
    release();
  };
  return {
    down: (at) => { from = at; },
    move: (at) => {
      if (!begun && Math.hypot(at.screen.x - from.screen.x, at.screen.y - from.screen.y) <= slack) return;
      if (!begun) {
        begun = true;
        parts = refs();
        release = hold();
        board.classList.add('grabbing');
      }
      const c = toSteps(at.place.x - from.place.x), r = toSteps(at.place.y - from.place.y);
      if (c === cols && r === rows) return;
      [cols, rows] = [c, r];
      shift(parts, cols, rows);
      byId('where').textContent = `${parts.join(', ')}: ${holeName(from.hole)} to ${holeName(step(from.hole, cols, rows))}`;
    },
    up: async (at) => {
      if (!begun) {
        pressed(at);
        return;
      }
      const sent = cols || rows ? change({ do: 'move', refs: parts, columns: cols, rows }, () => shift(parts, 0, 0)) : null;
      end();
      if (await sent) say(`${parts.join(', ')} moved.`);
    },
    cancel: () => {
      if (!begun) return;
      shift(parts, 0, 0);
      end();
    },
  };
};
