// @ts-check
// Puts down what is in hand where the pointer is let go.
import { hover, putDown } from '../held.js';
/** @import { Mode } from './mode.js' */

/** @type {() => Mode} */
export const placing = () => ({
  down: (at) => hover(at.hole),
  move: (at) => hover(at.hole),
  up: (at) => { void putDown(at.hole); },
  cancel: () => {},
});
