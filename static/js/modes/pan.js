// @ts-check
// Pulls the sheet along. A press that did not move is handed on.
import { byId } from '../dom.js';
import { pan } from '../drawing.js';
/** @import { Mode, Spot } from './mode.js' */

/** @type {(slack: number, pressed: (at: Spot) => void) => Mode} */
export const panning = (slack, pressed) => {
  let last = { x: 0, y: 0 }, travelled = 0;
  const board = byId('board');
  return {
    down: (at) => { last = at.screen; },
    move: (at) => {
      travelled = Math.max(travelled, travelled + Math.abs(at.screen.x - last.x) + Math.abs(at.screen.y - last.y));
      if (travelled <= slack) return;
      board.classList.add('grabbing');
      pan(last.x - at.screen.x, last.y - at.screen.y);
      last = at.screen;
    },
    up: (at) => {
      board.classList.remove('grabbing');
      if (travelled <= slack) pressed(at);
    },
    cancel: () => board.classList.remove('grabbing'),
  };
};
