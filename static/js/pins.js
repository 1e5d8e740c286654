// @ts-check
// Signals and pins: where each signal could be tied, the edit that ties it, and in words what that
// cost.
import { change } from './edits.js';
import { say, warn } from './say.js';
/** @import { Edit } from './edits.js' */

/** @typedef {{ net: string, gpio: string, ties: string[], able: string[], bars: { [gpio: string]: string } }} Reach */
/** @typedef {{ cost: number, crossings: number, possible: boolean }} Figures */

/** @type {() => Map<string, Reach>} by signal, as the page tells */
const reaches = () => new Map(Object.entries(JSON.parse(document.getElementById('pin-reach')?.dataset.reach ?? '{}')));

/** @type {(signal: string) => Reach | undefined} */
export const reachOf = (signal) => reaches().get(signal);

/** @type {(gpio: string) => string} the id of the signal on a pin; '' for none */
export const signalOn = (gpio) => [...reaches()].find(([, r]) => r.gpio === gpio)?.[0] ?? '';

/** @type {(gpio: string) => string} what is on a pin now, in a word or two */
const contents = (gpio) => reachOf(signalOn(gpio))?.net ?? 'free';

/** @type {(r: Reach, gpio: string) => string} what it would mean to tie a signal to a pin */
export const judge = (r, gpio) => {
  if (r.bars[gpio]) return `${gpio} ${r.bars[gpio]}.`;
  if (!r.able.includes(gpio)) return `${gpio} carries no signal.`;
  if (r.gpio === gpio) return r.ties.length ? `${r.net} is tied to ${gpio} already` : `Tie ${r.net} to ${gpio}, where it is`;
  return `Tie ${r.net} to ${gpio}, now ${contents(gpio)}`;
};

/** @type {() => Figures} how good the pins are, as the page says */
export const figures = () => {
  const el = document.getElementById('pin-figures');
  const number = (/** @type {string | undefined} */ text) => (text ? Number(text) : NaN);
  return { cost: number(el?.dataset.cost), crossings: number(el?.dataset.crossings), possible: !document.getElementById('pin-conflict') };
};

/** @param {number} by @param {string} one @param {string} many @param {string} more @param {string} less */
const changed = (by, one, many, more, less) => (by ? `${Math.abs(by)} ${Math.abs(by) === 1 ? one : many} ${by > 0 ? more : less}` : '');

/** @type {(before: Figures, after: Figures) => string} 4 holes more wire, 1 crossing fewer */
export const difference = (before, after) => {
  const parts = [changed(after.cost - before.cost, 'hole', 'holes', 'more wire', 'less wire'),
    changed(after.crossings - before.crossings, 'crossing', 'crossings', 'more', 'fewer')].filter(Boolean);
  return parts.join(', ') || 'no more wire';
};

/** @type {(deed: string, before: Figures) => string} says what a change of the pins cost, once the page shows it */
export const sayCost = (deed, before) => {
  const after = figures();
  let text = `${deed}.`;
  if (!after.possible) {
    text = `${deed}, but now the wishes cannot all be met. Under Pins stands why, and what mends it.`;
    warn(text);
    return text;
  }
  if (before.possible) text = `${deed}: ${difference(before, after)}.`;
  say(text);
  return text;
};

/** @typedef {{ do: 'lock-pin', signal: string, gpio: string }} Lock */

/** @type {(edit: Edit) => Lock | undefined} what an edit ties or unties, if it does nothing else */
const lockOf = (edit) => {
  const all = edit.do === 'together' && Array.isArray(edit.edits) ? edit.edits : [edit];
  return all.every((one) => one.do === 'lock-pin') ? all.at(-1) : undefined;
};

/** @type {(edit: Edit) => string} Locked display SDA to GP8; '' for an edit that ties nothing */
export const deedOf = (edit) => {
  const lock = lockOf(edit);
  if (!lock) return '';
  const net = reachOf(lock.signal)?.net ?? lock.signal;
  return lock.gpio ? `Locked ${net} to ${lock.gpio}` : `Unlocked ${net}`;
};

/** @type {(signal: string, gpio: string) => Edit} ties a signal to a pin, or with '' unties it, under whatever name it was tied */
export const lockEdit = (signal, gpio) => {
  /** @type {Lock} */
  const lock = { do: 'lock-pin', signal, gpio };
  const others = reachOf(signal)?.ties.filter((name) => name !== signal) ?? [];
  if (!others.length) return lock;
  return { do: 'together', label: deedOf(lock).replace('ocked', 'ock'), edits: [...others.map((name) => ({ ...lock, signal: name, gpio: '' })), lock] };
};

/** @type {(signal: string, gpio: string) => Promise<string>} ties a signal, and returns what was said; '' when it was refused */
export const tie = async (signal, gpio) => {
  const before = figures(), edit = lockEdit(signal, gpio), deed = deedOf(edit);
  return (await change(edit)) ? sayCost(deed, before) : '';
};
