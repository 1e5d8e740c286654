// @ts-check
// What is in hand: a part from the shelf, or placed parts that were lifted to be moved or copied.
// It follows the pointer or the cursor until it is put down or let go.
import { byId } from './dom.js';
import { faceUp, flipX, partGroup } from './drawing.js';
import { change } from './edits.js';
import { atOf, legs, partOf } from './facts.js';
import { hideGhost, showCopies, showGhost } from './hand.js';
import { centre, holeName, step } from './holes.js';
import { hold } from './renew.js';
import { say, whisper } from './say.js';
import { PITCH } from './units.js';
/** @import { Hole, Face, Rect } from './units.js' */
/** @import { Shape } from './hand.js' */

/** @typedef {{ what: 'part', id: string, name: string, shape: Shape, definition: object | null, turn: number, face: Face }} FromShelf */
/** @typedef {{ what: 'lift', refs: string[], copy: boolean, from: Hole, release: () => void }} Lifted */

/** Kinds of which a panel rarely has a second; after one is placed the hand is empty. */
const ONCE = new Set(['module', 'display', 'joystick', 'charger', 'battery', 'power switch', 'expander']);

/** @type {FromShelf | Lifted | null} */
let held = null;
/** @type {Hole} */
let over = { col: 0, row: 0 };

export const inHand = () => held;

const showState = () => {
  const bar = document.getElementById('in-hand');
  if (bar) {
    bar.hidden = held?.what !== 'part';
    const name = bar.querySelector('.in-hand-name');
    if (name && held?.what === 'part') name.textContent = held.name;
  }
  byId('board').classList.toggle('aiming', held !== null);
  for (const b of document.querySelectorAll('.shelf-part')) {
    if (b instanceof HTMLElement) b.setAttribute('aria-pressed', String(held?.what === 'part' && b.dataset.part === held.id));
  }
};

/** @type {(button: HTMLElement) => void} takes a part off the shelf */
export const takePart = (button) => {
  letGo();
  const { part = '', name = '', shape = '{}', definition = '' } = button.dataset;
  held = { what: 'part', id: part, name, shape: JSON.parse(shape), definition: definition ? JSON.parse(definition) : null, turn: 0, face: faceUp() };
  showState();
  say(`${name} in hand. Pick a hole for its first leg.`);
};

/** @type {(refs: string[], copy: boolean, from?: Hole) => void} lifts placed parts */
export const lift = (refs, copy, from) => {
  const first = partOf(refs[0] ?? '');
  if (!first) return;
  letGo();
  held = { what: 'lift', refs, copy, from: from ?? atOf(first), release: hold() };
  over = held.from;
  showState();
  say(`${copy ? 'A copy of ' : ''}${refs.join(', ')} in hand. Pick a hole for ${holeName(held.from)}.`);
};

/** @param {string[]} refs @param {number} cols @param {number} rows shows parts shifted on the drawing itself */
export const shift = (refs, cols, rows) => {
  for (const ref of refs) {
    const p = partOf(ref);
    const g = partGroup(ref);
    if (!p || !g) continue;
    const c = centre(step(atOf(p), cols, rows));
    g.setAttribute('transform', `translate(${flipX(c.x)} ${c.y})`);
  }
};

/** @type {(h: Hole) => void} shows what is in hand at a hole */
export const hover = (h) => {
  over = h;
  if (held?.what === 'part') {
    const fits = showGhost(held.shape, { at: h, turn: held.turn, face: held.face });
    byId('where').textContent = `${held.name}: first leg in ${holeName(h)}${fits ? '' : ', off the board'}`;
  } else if (held) {
    const cols = h.col - held.from.col, rows = h.row - held.from.row;
    byId('where').textContent = `${held.refs.join(', ')}: ${holeName(held.from)} to ${holeName(h)}`;
    if (!held.copy) {
      shift(held.refs, cols, rows);
      return;
    }
    const parts = held.refs.flatMap((ref) => partOf(ref) ?? []);
    showCopies(parts.map(({ box: [l, t, r, b] }) => /** @type {Rect} */ ([l + cols * PITCH, t + rows * PITCH, r + cols * PITCH, b + rows * PITCH])),
      parts.flatMap(legs).map((leg) => step(leg, cols, rows)));
  }
};

/** @type {(quarters: number) => boolean} turns a part from the shelf; false when there is none in hand */
export const turnHeld = (quarters) => {
  if (held?.what !== 'part') return false;
  held.turn = (held.turn + quarters + 4) % 4;
  hover(over);
  whisper(`turned ${['not at all', 'by a quarter', 'half round', 'by three quarters'][held.turn]}`);
  return true;
};

/** @type {() => boolean} */
export const flipHeld = () => {
  if (held?.what !== 'part') return false;
  held.face = held.face === 'front' ? 'back' : 'front';
  hover(over);
  whisper(`on the ${held.face}`);
  return true;
};

/** @type {() => boolean} lets go of what is in hand; false when there was nothing */
export const letGo = () => {
  if (!held) return false;
  const was = held;
  held = null;
  hideGhost();
  showState();
  if (was.what === 'lift') {
    shift(was.refs, 0, 0);
    was.release();
  }
  return true;
};

/** @type {(h: Hole) => Promise<void>} puts down what is in hand */
export const putDown = async (h) => {
  const was = held;
  if (!was) return;
  hover(h);
  if (was.what === 'part') {
    if (ONCE.has(was.shape.kind)) {
      held = null;
      showState();
    }
    const placed = { ref: '', part: was.id, at: holeName(h), turn: was.turn, face: was.face };
    const done = await change({ do: 'place', placed, ...(was.definition ? { definition: was.definition } : {}) });
    if (held === null) hideGhost();
    if (done) say(`${was.name} placed at ${holeName(h)}.`);
    return;
  }
  held = null;
  hideGhost();
  showState();
  const columns = h.col - was.from.col, rows = h.row - was.from.row;
  const sent = columns || rows || was.copy
    ? change({ do: was.copy ? 'duplicate' : 'move', refs: was.refs, columns, rows }, () => shift(was.refs, 0, 0))
    : Promise.resolve(false);
  was.release();
  if (await sent) say(`${was.refs.join(', ')} ${was.copy ? 'copied' : 'moved'} to ${holeName(h)}.`);
};

export const startHeld = () => document.addEventListener('renewed', showState);
