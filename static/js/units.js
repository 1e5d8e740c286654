// @ts-check
/** Distance between neighbouring hole centres, in millimetres. */
export const PITCH = 2.54;

/** @typedef {number & { readonly unit?: 'mm' }} Millimetre */
/** @typedef {{ readonly col: number, readonly row: number }} Hole counted from the top left of the front, from 0 */
/** @typedef {{ readonly x: Millimetre, readonly y: Millimetre }} Point from the centre of hole A1, seen from the front */
/** @typedef {{ readonly x: number, readonly y: number }} Pixel on the screen */
/** @typedef {'front' | 'back'} Face */
/** @typedef {readonly [number, number, number, number]} Rect left, top, right, bottom */
