// @ts-check
// The large drawing of the module by keyboard: Tab leads to one of its used pins, arrows to the
// others, Enter takes the pin's signal in hand.
import { carrying, pickUp } from './carry.js';
import { closest } from './dom.js';

/** The signal whose pin had the focus last, so that the focus survives a new drawing. */
let last = '';

/** @returns {SVGElement[]} the fields over the used pins; they have no words of their own to differ from their name */
const fields = () => [...document.querySelectorAll('#module-large .pin-used > .hit')].filter((f) => f instanceof SVGElement);

/** @param {EventTarget | null} target @returns {SVGElement | undefined} */
const fieldOf = (target) => fields().find((f) => f === target);

/** @param {Element | undefined} field */
const signalOf = (field) => closest(field ?? null, '.pin')?.dataset.signal ?? '';

/** @param {SVGElement | undefined} field makes it the one that Tab leads to */
const only = (field) => {
  for (const other of fields()) other.setAttribute('tabindex', other === field ? '0' : '-1');
};

const prepare = () => {
  const all = fields();
  for (const f of all) {
    f.setAttribute('role', 'button');
    f.setAttribute('aria-label', f.parentElement?.querySelector('title')?.textContent ?? '');
    f.setAttribute('aria-describedby', 'carry-says');
  }
  const again = all.find((f) => signalOf(f) === last);
  only(again ?? all[0]);
  // A new drawing took the focus away with the old one.
  if (again && document.activeElement === document.body && document.querySelector('#module-dialog[open]')) again.focus();
};

/** @param {KeyboardEvent} e */
const key = (e) => {
  const field = fieldOf(e.target);
  if (!field || carrying()) return;
  const all = fields(), now = all.indexOf(field);
  const to = { ArrowDown: now + 1, ArrowRight: now + 1, ArrowUp: now - 1, ArrowLeft: now - 1, Home: 0, End: all.length - 1 }[e.key];
  if (to !== undefined) {
    e.preventDefault();
    all[(to + all.length) % all.length]?.focus();
  } else if (e.key === 'Enter' || e.key === ' ') {
    e.preventDefault();
    const r = field.getBoundingClientRect();
    pickUp(signalOf(field), 'press', { x: r.left, y: r.bottom });
  }
};

export const startModuleKeys = () => {
  document.addEventListener('renewed', prepare);
  document.addEventListener('keydown', key);
  document.addEventListener('focusin', (e) => {
    const field = fieldOf(e.target);
    if (!field) return;
    last = signalOf(field);
    only(field);
  });
  document.addEventListener('focusout', (e) => { if (e.relatedTarget) last = ''; });
  prepare();
};
