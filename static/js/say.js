// @ts-check
// What the page says to its reader: a status that is read out and shown for a while, and a quiet
// voice for the cursor that is only read out.
import { byId } from './dom.js';

let hide = 0;

/** @type {(text: string) => void} */
export const say = (text) => show(text, false);

/** @type {(text: string) => void} something was refused or failed */
export const warn = (text) => show(text, true);

/** @param {string} text @param {boolean} trouble */
const show = (text, trouble) => {
  const el = byId('say');
  el.textContent = text;
  el.classList.add('seen');
  el.classList.toggle('trouble', trouble);
  clearTimeout(hide);
  hide = window.setTimeout(() => el.classList.remove('seen', 'trouble'), trouble ? 9000 : 3500);
};

const voice = document.createElement('div');
voice.className = 'unseen';
voice.setAttribute('aria-live', 'polite');
document.body.append(voice);
let later = 0;

/** @type {(text: string) => void} read out once the hand rests, so that a run of steps is not a stutter */
export const whisper = (text) => {
  clearTimeout(later);
  later = window.setTimeout(() => { voice.textContent = text; }, 180);
};
