// @ts-check
// Takes signals to pins by mouse, pen and finger, by press and press, and by keys. It finds what was
// meant; what that does is for the signal in hand.
import { ableAfter, aimAt, carried, carrying, letFall, pickUp, putDown } from './carry.js';
import { byId, closest } from './dom.js';
import { PLACES, pinUnder } from './pinplaces.js';
import { signalOn } from './pins.js';
/** @import { Pixel } from './units.js' */

const SLACK = 5, HOLD = 280; // pixels before a press is a drag; milliseconds before a finger's is one on a drawing

/** A press that may become a drag. @type {{ signal: string, at: Pixel, id: number, late: boolean, timer: number } | null} */
let pressed = null;
let swallow = false; // the click that ends a drag, or that comes of the key that put down
let scrolling = 0;

/** @param {MouseEvent} e @returns {Pixel} */
const place = (e) => ({ x: e.clientX, y: e.clientY });

/** @param {Element} el @returns {Pixel} */
const middleOf = (el) => {
  const r = el.getBoundingClientRect();
  return { x: r.left + r.width / 2, y: r.top + r.height / 2 };
};

/** @param {MouseEvent} e @returns {string} the signal whose name is under the pointer */
const nameUnder = (e) => {
  const button = closest(e.target, '[data-carry]');
  if (button) return button.dataset.carry ?? '';
  return closest(e.target, '.module-small, #module-large') ? signalOn(pinUnder(place(e))) : '';
};

/** What scrolls when a drag comes to its edge. */
const scroller = () => {
  const open = document.querySelector('#module-dialog[open] #module-large'), room = byId('room');
  if (open) return open;
  return room.scrollHeight > room.clientHeight + 1 && getComputedStyle(room).overflowY !== 'visible' ? room : document.scrollingElement ?? room;
};

/** @param {Pixel} at scrolls on while the pointer rests at an edge */
const scrollAt = (at) => {
  cancelAnimationFrame(scrolling);
  if (carrying() !== 'drag') return;
  const el = scroller(), r = el === document.scrollingElement ? { top: 0, bottom: innerHeight, left: 0, right: innerWidth } : el.getBoundingClientRect();
  if (at.x < r.left || at.x > r.right) return;
  const by = at.y < r.top + 40 ? -8 : at.y > r.bottom - 40 ? 8 : 0;
  if (!by) return;
  scrolling = requestAnimationFrame(() => {
    el.scrollBy({ top: by, behavior: 'instant' });
    aimAt(pinUnder(at), at);
    scrollAt(at);
  });
};

const forget = () => {
  clearTimeout(pressed?.timer);
  pressed = null;
};

/** @param {PointerEvent} e */
const down = (e) => {
  swallow = false;
  if (e.button !== 0 || !e.isPrimary || carrying()) return;
  const signal = nameUnder(e);
  if (!signal) return;
  // A finger on a drawing may mean to scroll it: it rests a moment first. On a name's handle it drags at once.
  const late = e.pointerType === 'touch' && !closest(e.target, '.carry .icon');
  pressed = { signal, at: place(e), id: e.pointerId, late, timer: 0 };
  if (late) pressed.timer = window.setTimeout(() => { if (pressed) pickUp(pressed.signal, 'drag', pressed.at); }, HOLD);
};

/** @param {PointerEvent} e */
const move = (e) => {
  const at = place(e);
  if (pressed && e.pointerId === pressed.id && carrying() !== 'drag' && Math.hypot(at.x - pressed.at.x, at.y - pressed.at.y) > SLACK) {
    if (pressed.late) forget(); else pickUp(pressed.signal, 'drag', at);
  }
  if (pressed && carrying() === 'drag') {
    aimAt(pinUnder(at), at);
    scrollAt(at);
  } else if (carrying() === 'press' && e.pointerType === 'mouse') {
    aimAt(pinUnder(at), at);
  }
};

/** @param {PointerEvent} e */
const up = (e) => {
  if (!pressed || e.pointerId !== pressed.id) return;
  forget();
  if (carrying() !== 'drag') return;
  cancelAnimationFrame(scrolling);
  swallow = true;
  setTimeout(() => { swallow = false; }, 0);
  void putDown();
};

const lost = () => {
  if (pressed && carrying() === 'drag') letFall();
  forget();
};

/** @param {MouseEvent} e a press with a signal in hand ties it; without, it takes one in hand */
const click = (e) => {
  if (swallow) {
    swallow = false;
    stop(e);
    return;
  }
  const button = closest(e.target, '[data-carry]');
  if (carrying() === 'press') {
    if (closest(e.target, 'select, input, label, [data-close]')) {
      letFall();
      return;
    }
    const at = place(e), gpio = button && button.dataset.carry === carried() ? '' : pinUnder(at);
    if (gpio || button || closest(e.target, '.module-small, #module-large')) stop(e);
    if (gpio) aimAt(gpio, at);
    if (gpio) void putDown(); else letFall();
    return;
  }
  const signal = button?.dataset.carry ?? (closest(e.target, '#module-large') ? signalOn(pinUnder(place(e))) : '');
  if (signal) {
    stop(e);
    pickUp(signal, 'press', button ? middleOf(button) : place(e));
  }
};

/** @param {Event} e */
const stop = (e) => {
  e.preventDefault();
  e.stopPropagation();
};

/** @type {Record<string, number | 'first' | 'last'>} */
const STEPS = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1, Home: 'first', End: 'last' };

/** @param {KeyboardEvent} e */
const key = (e) => {
  if (!carrying()) return;
  if (e.key === 'Escape') {
    stop(e);
    forget();
    letFall();
  } else if (e.key === 'Tab') {
    letFall();
  } else if (carrying() === 'press' && e.key in STEPS) {
    stop(e);
    walk(STEPS[e.key]);
  } else if (carrying() === 'press' && (e.key === 'Enter' || e.key === ' ')) {
    stop(e);
    swallow = true;
    void putDown();
  }
};

/** @param {number | 'first' | 'last'} by aims at the next pin that can do it, and shows it where it is in view */
const walk = (by) => {
  const gpio = ableAfter(by);
  const open = document.querySelector('#module-dialog[open] #module-large');
  const places = [...(open ?? byId('room')).querySelectorAll(PLACES)].filter((el) => el.matches(`[data-gpio="${gpio}"], [data-pin="${gpio}"]`));
  const seen = places.find((el) => el.closest('.table, .chips')) ?? places[0];
  seen?.scrollIntoView({ block: 'nearest' });
  aimAt(gpio, middleOf(document.activeElement?.closest('[data-carry]') ?? seen ?? byId('room')));
};

/** @type {WeakSet<Element>} */
const still = new WeakSet();

/** Keeps a drawing from scrolling under the finger that drags on it. */
const holdStill = () => {
  for (const el of document.querySelectorAll('.module-small, #module-large')) {
    if (!still.has(el)) el.addEventListener('touchmove', (e) => { if (carrying() === 'drag') e.preventDefault(); }, { passive: false });
    still.add(el);
  }
};

export const startCarrying = () => {
  document.addEventListener('pointerdown', down);
  document.addEventListener('pointermove', move);
  document.addEventListener('pointerup', up);
  document.addEventListener('pointercancel', lost);
  document.addEventListener('click', click, true);
  document.addEventListener('keydown', key, true);
  document.addEventListener('keyup', () => { swallow = false; });
  document.addEventListener('cancel', (e) => { if (carrying()) stop(e); }, true);
  document.addEventListener('contextmenu', (e) => { if (carrying() === 'drag') e.preventDefault(); });
  document.addEventListener('renewed', holdStill);
  holdStill();
};
