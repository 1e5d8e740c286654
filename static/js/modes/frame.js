// @ts-check
// Draws a frame; what lies wholly in it is added to the selection.
import { facts } from '../facts.js';
import { showFrame } from '../hand.js';
import { rectBetween, within } from '../holes.js';
import { select, selected } from '../selection.js';
/** @import { Mode, Spot } from './mode.js' */

/** @type {() => Mode} */
export const framing = () => {
  /** @type {Spot} */
  let from;
  return {
    down: (at) => { from = at; },
    move: (at) => showFrame(rectBetween(from.place, at.place)),
    up: (at) => {
      showFrame(null);
      const r = rectBetween(from.place, at.place);
      const inside = facts().parts.filter((p) => within(p.box, r)).map((p) => p.ref);
      select([...new Set([...selected(), ...inside])]);
    },
    cancel: () => showFrame(null),
  };
};
