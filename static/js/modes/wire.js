// @ts-check
// A press with a wire tool in hand: it begins a wire and, let go elsewhere, ends it.
import { same } from '../holes.js';
import { hold } from '../renew.js';
import { aimWire, beginWire, dropWire, pressWire, wireTool } from '../wire_tool.js';
/** @import { Mode, Spot } from './mode.js' */

/** @type {() => Mode} */
export const wiring = () => {
  /** @type {Spot} */
  let from;
  let fresh = false, free = () => {};
  return {
    down: (at) => {
      from = at;
      free = hold();
      fresh = wireTool() === 'draw' && beginWire(at.hole, at.screen);
      if (!fresh && wireTool() === 'draw') aimWire(at.hole, at.screen);
    },
    move: (at) => { if (wireTool() === 'draw') aimWire(at.hole, at.screen); },
    up: (at) => {
      free();
      pressWire(at.hole, !same(at.hole, from.hole), fresh);
    },
    cancel: () => {
      free();
      if (fresh) dropWire();
    },
  };
};
