// @ts-check
// The drawing on screen: its size, where it is scrolled to, and what lies under a place on the
// screen. It moves nothing on the board.
import { byId, closest } from './dom.js';
import { facts } from './facts.js';
/** @import { Point, Pixel, Face, Rect } from './units.js' */

const LEAST = 1.2, MOST = 48; // pixels to a millimetre
const NEAR = 11, MIDDLE = 5.5; // below these, detail is left out

const board = byId('board'), box = byId('board-svg'), hand = byId('board-hand');
/** @type {number} */
let scale = 0;
let fitted = true;
let view = { x: 0, y: 0, width: 1, height: 1 };
let mirror = NaN;

/** @type {() => SVGSVGElement | null} */
export const drawing = () => box.querySelector('svg');

/** @type {() => Face} */
export const faceUp = () => (box.dataset.face === 'back' ? 'back' : 'front');

/** @type {() => number} pixels to a millimetre */
export const pixels = () => scale;

/** @type {() => { x: number, y: number, width: number, height: number }} what the drawing shows, in its own millimetres */
export const extent = () => view;

/** @type {(x: number) => number} a place on the board to one on the drawing, or back: the back is mirrored */
export const flipX = (x) => (Number.isNaN(mirror) ? x : mirror - x);

/** @type {(r: Rect) => Rect} */
export const flipRect = ([l, t, r, b]) => (Number.isNaN(mirror) ? [l, t, r, b] : [mirror - r, t, mirror - l, b]);

/** @type {(at: Pixel) => Point} */
export const toBoard = (at) => {
  const r = hand.getBoundingClientRect();
  return { x: flipX(view.x + (at.x - r.left) / scale), y: view.y + (at.y - r.top) / scale };
};

/** @type {(p: Point) => Pixel} */
export const toScreen = (p) => {
  const r = hand.getBoundingClientRect();
  return { x: r.left + (flipX(p.x) - view.x) * scale, y: r.top + (p.y - view.y) * scale };
};

/** @type {() => { width: number, height: number }} */
const room = () => ({ width: board.clientWidth - 16, height: board.clientHeight - 16 });

/** @type {() => number} */
const fitScale = () => {
  const r = room();
  return Math.max(LEAST, Math.min(MOST, r.width / view.width, r.height / view.height));
};

const apply = () => {
  for (const el of [box, hand]) {
    el.style.width = `${view.width * scale}px`;
    el.style.height = `${view.height * scale}px`;
  }
  box.classList.add('sized');
  const svg = drawing();
  svg?.classList.toggle('zoom-far', scale < MIDDLE);
  svg?.classList.toggle('zoom-middle', scale >= MIDDLE && scale < NEAR);
  board.classList.toggle('grabs', board.scrollWidth > board.clientWidth + 1 || board.scrollHeight > board.clientHeight + 1);
  const said = document.getElementById('scale');
  // A CSS pixel is a ninety-sixth of an inch.
  if (said) said.textContent = `${(scale * 25.4 / 96).toFixed(1)} : 1`;
  hand.dispatchEvent(new Event('resized', { bubbles: true }));
};

/** @type {(next: number, about?: Pixel) => void} zooms with one place staying under the pointer */
export const zoomTo = (next, about) => {
  const r = board.getBoundingClientRect();
  const at = about ?? { x: r.left + r.width / 2, y: r.top + r.height / 2 };
  const p = toBoard(at);
  scale = Math.max(LEAST, Math.min(MOST, next));
  fitted = false;
  apply();
  const now = toScreen(p);
  pan(now.x - at.x, now.y - at.y);
  keep();
};

/** @type {(factor: number, about?: Pixel) => void} */
export const zoomBy = (factor, about) => zoomTo(scale * factor, about);

export const fit = () => {
  fitted = true;
  scale = fitScale();
  apply();
  keep();
};

/** @type {(dx: number, dy: number) => void} */
export const pan = (dx, dy) => {
  board.scrollLeft += dx;
  board.scrollTop += dy;
};

/** @type {(p: Point) => void} scrolls only as far as it must */
export const showPlace = (p) => {
  const at = toScreen(p), r = board.getBoundingClientRect(), edge = Math.min(48, r.width / 4, r.height / 4);
  pan(Math.min(0, at.x - r.left - edge) || Math.max(0, at.x - r.right + edge), Math.min(0, at.y - r.top - edge) || Math.max(0, at.y - r.bottom + edge));
};

const key = () => `fascia view ${facts().panel}${facts().room === 'build' ? ' build' : ''}`;

const keep = () => {
  try {
    sessionStorage.setItem(key(), JSON.stringify({ fitted, scale, left: board.scrollLeft, top: board.scrollTop }));
  } catch { /* the zoom is then as at first */ }
};

/** Reads the picture's extent; called when a new one has been put in place. */
const read = () => {
  const v = drawing()?.viewBox.baseVal;
  if (v && v.width > 0) view = { x: v.x, y: v.y, width: v.width, height: v.height };
  mirror = parseFloat(drawing()?.dataset.mirror ?? '');
  if (fitted || !scale) scale = fitScale();
  apply();
};

/** @type {(at: Pixel) => { ref: string, wire: string, net: string, finding: string }} what lies under a place on the screen */
export const under = (at) => {
  const el = document.elementFromPoint(at.x, at.y);
  const inside = el && box.contains(el) ? el : null;
  return {
    ref: closest(inside, '[data-ref]')?.dataset.ref ?? '',
    wire: closest(inside, '[data-index]')?.dataset.index ?? '',
    net: closest(inside, '[data-net]')?.dataset.net ?? '',
    finding: closest(inside, '[data-finding]')?.dataset.finding ?? '',
  };
};

/** @type {(ref: string) => SVGGElement | null} the drawn part */
export const partGroup = (ref) => box.querySelector(`.part[data-ref="${CSS.escape(ref)}"]`);

export const startDrawing = () => {
  try {
    const was = JSON.parse(sessionStorage.getItem(key()) ?? 'null');
    if (was && !was.fitted) {
      fitted = false;
      scale = was.scale;
    }
    read();
    if (was && !was.fitted) board.scrollTo(was.left, was.top);
  } catch {
    read();
  }
  document.addEventListener('renewed', () => {
    const old = { ...view };
    read();
    // A part that now hangs over the edge widens the picture; the rest stays where it was.
    if (!fitted) pan((old.x - view.x) * scale, (old.y - view.y) * scale);
  });
  new ResizeObserver(() => { if (fitted) { scale = fitScale(); apply(); } }).observe(board);
  board.addEventListener('scroll', keep, { passive: true });
  board.addEventListener('wheel', (e) => {
    if (!e.ctrlKey && !e.metaKey) return;
    e.preventDefault();
    zoomBy(Math.exp(-e.deltaY * (e.deltaMode ? 0.05 : 0.0022)), { x: e.clientX, y: e.clientY });
  }, { passive: false });
  for (const button of document.querySelectorAll('[data-zoom]')) {
    if (!(button instanceof HTMLElement)) continue;
    button.addEventListener('click', () => {
      if (button.dataset.zoom === 'fit') fit(); else zoomBy(button.dataset.zoom === 'in' ? 1.3 : 1 / 1.3);
    });
  }
};
