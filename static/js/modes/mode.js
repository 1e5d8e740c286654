// @ts-check
/** @import { Pixel, Point, Hole } from '../units.js' */

/** @typedef {{ screen: Pixel, place: Point, hole: Hole }} Spot where the pointer is */
/**
 * A mode is what one press of the pointer means until it is let go. Only up changes the panel.
 * @typedef {{ down: (at: Spot) => void, move: (at: Spot) => void, up: (at: Spot) => void, cancel: () => void }} Mode
 */
export {};
