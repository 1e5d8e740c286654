// @ts-check
// Wires by hand: while the tool is out, a press on a hole begins a wire and a press on another ends it; in
// between, presses on empty holes are bends of a bare run. With the other tool a press keeps a hole clear.
import { byId, closest } from './dom.js';
import { change, sayDone } from './edits.js';
import { faceUp } from './drawing.js';
import { facts, onBoard } from './facts.js';
import { holeName, same } from './holes.js';
import { whisper } from './say.js';
import { openDrawer } from './sheets.js';
import { netIn, showDraft, showTag, startDraft } from './wire_draft.js';
import { alongRows, wireEdit, wireOf } from './wire_route.js';
import { forgetTrial, tryWire } from './wire_trial.js';
/** @import { Hole, Pixel } from './units.js' */
/** @import { Way } from './wire_route.js' */
/** @import { Trial } from './wire_trial.js' */

/** @typedef {'' | 'draw' | 'clear'} Tool */
/** @type {Tool} */
let tool = '';
/** @type {Hole[]} the start and the bends so far */
let bends = [];
/** @type {Hole | null} */
let aim = null;
/** @type {Pixel | null} where the pointer is */
let place = null;
/** @type {Trial | null} */
let trial = null;

/** @type {() => Tool} */
export const wireTool = () => tool;

/** @returns {Way} */
const kind = () => {
  const box = document.querySelector('#wire-kinds input:checked');
  return /** @type {Way} */ (box instanceof HTMLInputElement ? box.value : 'bare');
};

/** @param {string} text @param {boolean} [no] */
const tell = (text, no = false) => {
  const says = byId('wire-says');
  says.textContent = text;
  says.classList.toggle('no', no);
};

const HOW = { draw: 'Press the hole where it begins and the hole where it ends, or drag.', clear: 'Press a hole to keep it clear of wires; press it again to allow them.' };

const rest = () => {
  if (tool === '') return;
  if (!bends.length) tell(HOW[tool]);
  else {
    const last = holeName(bends[bends.length - 1]), again = bends.length > 1 ? 'end there' : 'take it back';
    tell(`From ${holeName(bends[0])}, ${netIn(bends[0]) || 'which has no net'}. ${kind() === 'bare' ? 'Empty holes are bends; press' : 'Press'} ${last} again to ${again}.`);
  }
};

/** @param {Hole | null} h whether a press there is a bend: nothing of the net is there to end at */
const mayBend = (h) => h !== null && kind() === 'bare' && !netIn(h) && onBoard(h) && !trial?.can;

const paint = () => {
  if (!bends.length) {
    showDraft(null, '');
    showTag('', false, null);
    return;
  }
  const ends = aim ? [...bends, aim] : bends, net = netIn(bends[0]), other = aim ? netIn(aim) : '';
  const short = net && other && net !== other ? `It would join ${net} with ${other}.` : '';
  const known = trial && trial.path.length > 1;
  const way = known ? trial?.path ?? [] : kind() === 'bare' ? alongRows(ends) : [ends[0], ends[ends.length - 1]];
  const no = short !== '' || trial?.can === false;
  showDraft({ kind: kind(), way, state: no && !mayBend(aim) ? 'no' : trial?.can ? 'yes' : '' }, net);
  const bend = mayBend(aim);
  const text = short || (bend ? `A bend at ${aim ? holeName(aim) : ''}` : trial?.says ?? '');
  if (text) tell(text, no && !bend); else rest();
  showTag(text, no && !bend, place);
};

/** @type {(h: Hole, at: Pixel | null) => void} points the wire at a hole */
export const aimWire = (h, at) => {
  place = at;
  if (!bends.length) return;
  if (aim && same(aim, h)) {
    paint();
    return;
  }
  aim = same(h, bends[bends.length - 1]) ? null : h;
  look();
};

/** Asks how the wire would run as it is now aimed. */
const look = () => {
  trial = null;
  forgetTrial();
  const other = aim ? netIn(aim) : '';
  if (aim && bends.length && (!other || other === netIn(bends[0]))) {
    const to = aim;
    tryWire(wireOf(kind(), faceUp(), [...bends, aim]), (t) => {
      if (!aim || !same(aim, to)) return;
      trial = t;
      paint();
      if (place === null) whisper(t.says);
    });
  } else if (aim && place === null) {
    whisper(`It would join ${netIn(bends[0]) || 'no net'} with ${other}.`);
  }
  paint();
};

const drop = () => {
  bends = [];
  aim = trial = place = null;
  forgetTrial();
  paint();
  rest();
};

/** @param {Hole} to */
const finish = async (to) => {
  const wire = wireOf(kind(), faceUp(), [...bends, to]);
  drop();
  if (await change(wireEdit(wire))) sayDone();
};

/** @param {Hole} h keeps it clear, or allows it again */
const clearHole = async (h) => {
  const kept = document.querySelector(`#keep-outs button[data-hole="${holeName(h)}"]`) !== null;
  if (await change({ do: 'keep-out', hole: holeName(h), keep: !kept })) sayDone();
};

/** @type {(h: Hole, at: Pixel | null) => boolean} begins a wire at a hole unless one is begun; true when it did */
export const beginWire = (h, at) => {
  if (bends.length || !onBoard(h)) return false;
  bends = [h];
  aimWire(h, at);
  rest();
  return true;
};

/** @type {(h: Hole, dragged: boolean, fresh: boolean) => void} a press let go: it ends the wire, bends it, or leaves it begun */
export const pressWire = (h, dragged, fresh) => {
  if (tool === 'clear') {
    if (onBoard(h)) void clearHole(h);
    return;
  }
  if (!bends.length || (fresh && !dragged)) return;
  const last = bends[bends.length - 1];
  if (same(h, last)) {
    if (bends.length > 1) void finish(bends.pop() ?? h); else drop(); // pressed twice, a bend is the end
  } else if (!dragged && mayBend(h)) {
    bends.push(h);
    look();
    whisper(`Bend at ${holeName(h)}`);
  } else {
    void finish(h);
  }
};

/** @type {() => void} ends a drag under way without a wire */
export const dropWire = () => { if (tool === 'draw') drop(); };

/** @type {(next: Tool) => void} takes a tool in hand, or with '' puts it away */
export const takeTool = (next) => {
  tool = next;
  drop();
  for (const b of document.querySelectorAll('[data-wire-tool]')) if (b instanceof HTMLElement) b.setAttribute('aria-pressed', String(b.dataset.wireTool === tool));
  byId('wire-bar').hidden = tool === '';
  byId('wire-kinds').hidden = tool !== 'draw';
  byId('board').classList.toggle('aiming', tool !== '');
  document.body.classList.toggle('wiring', tool !== '');
  if (tool) {
    openDrawer('');
    byId('board').focus({ preventScroll: true });
  }
};

/** @type {() => boolean} takes the last bend back, or the start; false when there is nothing */
export const takeBack = () => {
  if (bends.length > 1) {
    bends.pop();
    look();
    return true;
  }
  if (!bends.length) return false;
  drop();
  return true;
};

export const startWireTool = () => {
  if (facts().room !== 'wire') return;
  startDraft();
  document.addEventListener('click', (e) => {
    const button = closest(e.target, '[data-wire-tool]');
    if (button) takeTool(tool === button.dataset.wireTool ? '' : /** @type {Tool} */ (button.dataset.wireTool ?? ''));
    else if (closest(e.target, '#wire-done')) takeTool('');
  });
  byId('wire-kinds').addEventListener('change', () => {
    look();
    rest();
  });
  byId('board').addEventListener('pointerleave', () => showTag('', false, null));
  document.addEventListener('renewed', () => {
    for (const b of document.querySelectorAll('[data-wire-tool]')) if (b instanceof HTMLElement) b.setAttribute('aria-pressed', String(b.dataset.wireTool === tool));
    if (bends.length) look();
  });
};

