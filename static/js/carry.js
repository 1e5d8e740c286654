// @ts-check
// A signal in hand, on its way to another pin. While it is, the pins that can do its job are lit, the
// others are dim, and a tag says what putting it down would do. Only putting it down changes anything.
import { drawing } from './drawing.js';
import { showRings } from './hand.js';
import { gpioOf, holeOf, PLACES } from './pinplaces.js';
import { judge, reachOf, tie } from './pins.js';
import { hold } from './renew.js';
import { whisper } from './say.js';
/** @import { Pixel } from './units.js' */
/** @import { Reach } from './pins.js' */

/** @typedef {'drag' | 'press'} Way */
/** @type {{ signal: string, reach: Reach, way: Way, aim: string, free: () => void } | null} */
let held = null;

const tag = document.createElement('div');
tag.className = 'carried';
tag.setAttribute('aria-hidden', 'true');

/** @type {() => Way | ''} how a signal is being carried; '' when none is */
export const carrying = () => held?.way ?? '';

/** @type {() => string} */
export const carried = () => held?.signal ?? '';

/** @param {string} text tells where it is heard: the page behind a dialog is not */
const tell = (text) => {
  const says = document.querySelector('#module-dialog[open] #carry-says');
  if (says) says.textContent = text; else whisper(text);
};

const paint = () => {
  for (const el of document.querySelectorAll(PLACES)) {
    const gpio = gpioOf(el), able = held?.reach.able.includes(gpio) ?? false;
    el.classList.toggle('able', able);
    el.classList.toggle('barred', held !== null && !able);
    el.classList.toggle('aimed', held !== null && gpio === held.aim);
  }
  for (const b of document.querySelectorAll('[data-carry]')) {
    if (b instanceof HTMLElement) b.setAttribute('aria-pressed', String(held?.signal === b.dataset.carry));
  }
  document.body.classList.toggle('carrying', held !== null);
  drawing()?.classList.toggle('lighting', held !== null);
  const holes = held?.reach.able.flatMap((gpio) => holeOf(gpio) ?? []) ?? [];
  showRings(holes, held && holeOf(held.aim));
};

/** @param {Pixel} at */
const putTag = (at) => {
  if (!held) return;
  (document.querySelector('#module-dialog[open]') ?? document.body).append(tag);
  tag.textContent = held.aim ? judge(held.reach, held.aim) : held.reach.net;
  tag.classList.toggle('no', held.aim !== '' && !held.reach.able.includes(held.aim));
  const { width, height } = tag.getBoundingClientRect();
  tag.style.left = `${Math.max(4, Math.min(at.x + 14, innerWidth - width - 4))}px`;
  tag.style.top = `${Math.max(4, Math.min(at.y + 18, innerHeight - height - 4))}px`;
};

/** @type {(signal: string, way: Way, at: Pixel) => boolean} takes a signal in hand */
export const pickUp = (signal, way, at) => {
  letFall();
  const reach = reachOf(signal);
  if (!reach) return false;
  held = { signal, reach, way, aim: '', free: hold() };
  paint();
  if (way === 'drag') putTag(at);
  if (way === 'press') tell(`${reach.net} in hand. ${reach.able.length} pins can do it: choose one with the arrow keys or press it. Escape lets go.`);
  return true;
};

/** @type {(gpio: string, at: Pixel) => void} points the signal in hand at a pin; '' for none */
export const aimAt = (gpio, at) => {
  if (!held) return;
  if (held.aim !== gpio) {
    held.aim = gpio;
    paint();
    if (gpio) tell(judge(held.reach, gpio));
  }
  if (gpio || held.way === 'drag') putTag(at); else tag.remove();
};

/** @type {(by: number | 'first' | 'last') => string} the able pin that many after the one aimed at, in order of number */
export const ableAfter = (by) => {
  const able = held?.reach.able ?? [];
  if (!held || !able.length) return '';
  if (by === 'first' || by === 'last') return able[by === 'first' ? 0 : able.length - 1];
  const now = able.indexOf(held.aim || held.reach.gpio);
  return able[(now + by + able.length) % able.length];
};

/** @type {() => boolean} lets the signal go without any change; false when none is in hand */
export const letFall = () => {
  if (!held) return false;
  held.free();
  held = null;
  tag.remove();
  paint();
  return true;
};

/** @type {() => Promise<void>} ties the signal to the pin it is aimed at */
export const putDown = async () => {
  if (!held) return;
  const { signal, reach, aim } = held;
  letFall();
  if (!aim) return;
  const able = reach.able.includes(aim);
  const text = able && !(reach.gpio === aim && reach.ties.length) ? await tie(signal, aim) : judge(reach, aim);
  const says = document.getElementById('carry-says');
  if (says) says.textContent = text;
  if (!able || text === '') whisper(text);
};
