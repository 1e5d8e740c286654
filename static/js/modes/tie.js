// @ts-check
// Drags a signal from its pin on the board to another. A press that did not move is handed on.
import { aimAt, carrying, letFall, pickUp, putDown } from '../carry.js';
import { pinUnder } from '../pinplaces.js';
/** @import { Mode, Spot } from './mode.js' */

/** @type {(slack: number, signal: string, pressed: (at: Spot) => void) => Mode} */
export const tying = (slack, signal, pressed) => {
  let from = { x: 0, y: 0 }, begun = false;
  return {
    down: (at) => { from = at.screen; },
    move: (at) => {
      if (!begun && Math.hypot(at.screen.x - from.x, at.screen.y - from.y) > slack) begun = pickUp(signal, 'drag', at.screen);
      if (begun && carrying()) aimAt(pinUnder(at.screen), at.screen);
    },
    up: (at) => {
      if (!begun) pressed(at);
      else if (carrying()) void putDown();
    },
    cancel: () => { letFall(); },
  };
};
