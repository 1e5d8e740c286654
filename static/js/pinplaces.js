// @ts-check
// Where the module's pins are on the page: on its drawings, in the pin table, and on the board.
import { byId, closest } from './dom.js';
import { drawing, toBoard } from './drawing.js';
import { legs, partOf } from './facts.js';
import { centre } from './holes.js';
/** @import { Hole, Pixel } from './units.js' */

/** Whatever stands for a pin and can be aimed at. */
export const PLACES = '.module-drawing .pin[data-gpio], #pins tr[data-pin], #pins li[data-pin]';

/** @type {(el: Element) => string} the GPIO that an element stands for */
export const gpioOf = (el) => (el instanceof HTMLElement ? el.dataset.pin : el instanceof SVGElement ? el.dataset.gpio : '') ?? '';

/** @type {() => { gpio: string, net: string, hole: Hole }[]} the module's pins as they lie on the board */
const onBoard = () => {
  const module = document.querySelector('.module-drawing');
  const part = module instanceof SVGElement ? partOf(module.dataset.ref ?? '') : undefined;
  if (!part) return [];
  const holes = legs(part);
  return [...module?.querySelectorAll('.pin[data-gpio]') ?? []].flatMap((g) => {
    if (!(g instanceof SVGElement)) return [];
    const hole = holes[part.ends.indexOf(g.dataset.terminal ?? '')];
    return hole ? [{ gpio: g.dataset.gpio ?? '', net: g.dataset.net ?? '', hole }] : [];
  });
};

/** @type {(gpio: string) => Hole | undefined} */
export const holeOf = (gpio) => onBoard().find((p) => p.gpio === gpio)?.hole;

const NEAR = 1.6; // millimetres from a hole that still mean it

/** @type {(at: Pixel) => string} the GPIO whose hole, or whose signal's name beside it, lies there on the board */
export const boardPin = (at) => {
  const p = toBoard(at), pins = onBoard();
  const near = pins.find(({ hole }) => Math.hypot(centre(hole).x - p.x, centre(hole).y - p.y) < NEAR);
  if (near) return near.gpio;
  const name = [...drawing()?.querySelectorAll('.used-name') ?? []].find((t) => {
    const r = t.getBoundingClientRect();
    return at.x >= r.left - 2 && at.x <= r.right + 2 && at.y >= r.top - 2 && at.y <= r.bottom + 2;
  });
  return (name && pins.find((q) => q.net === name.textContent)?.gpio) ?? '';
};

/** @type {(at: Pixel) => string} the GPIO under a place on the screen; '' for none */
export const pinUnder = (at) => {
  for (const el of document.elementsFromPoint(at.x, at.y)) {
    const place = closest(el, PLACES);
    if (place) return gpioOf(place);
    if (byId('board').contains(el)) return boardPin(at);
  }
  return '';
};
