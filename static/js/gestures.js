// @ts-check
// Pointer on the board: decides what a press means, and leads it to its end. Two fingers zoom and pan.
import { carrying } from './carry.js';
import { byId, closest } from './dom.js';
import { faceUp, pan, pixels, toBoard, under, zoomTo } from './drawing.js';
import { facts, onBoard, partOf } from './facts.js';
import { hover, inHand, letGo } from './held.js';
import { nearestHole } from './holes.js';
import { editLegend } from './legend.js';
import { cursor, putCursor, showWhere } from './cursor.js';
import { isSelected, select, selected, toggle } from './selection.js';
import { isTelling, pressChord } from './chords.js';
import { goToNote, goToWire, lightNet } from './light.js';
import { framing } from './modes/frame.js';
import { moving } from './modes/move.js';
import { panning } from './modes/pan.js';
import { placing } from './modes/place.js';
import { tying } from './modes/tie.js';
import { wiring } from './modes/wire.js';
import { boardPin } from './pinplaces.js';
import { signalOn } from './pins.js';
import { aimWire, wireTool } from './wire_tool.js';
/** @import { Mode, Spot } from './modes/mode.js' */
/** @import { Pixel } from './units.js' */

const board = byId('board');
/** @type {Mode | null} */
let mode = null;
/** @type {Map<number, Pixel>} fingers on the board */
const fingers = new Map();
let lastPress = { ref: '', time: 0 };

/** @param {PointerEvent} e @returns {Spot} */
const spot = (e) => {
  const screen = { x: e.clientX, y: e.clientY };
  const place = toBoard(screen);
  return { screen, place, hole: nearestHole(place) };
};

const several = () => byId('several').getAttribute('aria-pressed') === 'true';

/** @param {PointerEvent} e @returns {Mode} */
const begin = (e) => {
  const slack = e.pointerType === 'mouse' ? 4 : 9;
  const more = e.shiftKey || e.ctrlKey || e.metaKey || several();
  if (e.button === 1) return panning(0, () => {});
  if (inHand()) return placing();
  if (wireTool() && onBoard(nearestHole(toBoard({ x: e.clientX, y: e.clientY })))) return wiring();
  if (carrying()) return panning(slack, () => {});
  const hit = under({ x: e.clientX, y: e.clientY });
  const signal = facts().room === 'wire' ? signalOn(boardPin({ x: e.clientX, y: e.clientY })) : '';
  if (signal) return tying(slack, signal, (at) => { if (hit.ref) pressPart(hit.ref, more, at); else lightNet(hit.net); });
  if (hit.finding) return panning(slack, () => goToNote(Number(hit.finding)));
  if (hit.wire && facts().room === 'wire') return panning(slack, () => { goToWire(hit.wire); });
  if (hit.ref && facts().room === 'place') {
    return moving(slack, () => {
      if (!isSelected(hit.ref)) select([hit.ref]);
      return selected();
    }, (at) => pressPart(hit.ref, more, at));
  }
  if (hit.ref) return panning(slack, (at) => pressPart(hit.ref, more, at));
  if (e.shiftKey || several()) return framing();
  return panning(slack, (at) => {
    select([]);
    putCursor(at.hole, true);
    showWhere(at.hole);
    if (hit.net) lightNet(hit.net);
  });
};

/** @param {string} ref @param {boolean} more @param {Spot} at */
const pressPart = (ref, more, at) => {
  if (pressChord(ref)) return;
  const now = performance.now();
  const twice = lastPress.ref === ref && now - lastPress.time < 450;
  lastPress = { ref, time: now };
  if (onBoard(at.hole)) putCursor(at.hole, true);
  if (twice && partOf(ref)?.keys.length) {
    editLegend(partOf(ref)?.keys[0].id ?? '');
    return;
  }
  if (more) toggle(ref); else select([ref]);
};

/** @param {PointerEvent} e while a chord is told every finger presses the key under it, at once @returns {boolean} */
const pressKey = (e) => {
  const ref = isTelling() ? under({ x: e.clientX, y: e.clientY }).ref : '';
  return (partOf(ref)?.keys.length ?? 0) > 0 && pressChord(ref);
};

/** Two fingers: how far apart, and their middle. */
const pinch = () => {
  const [a, b] = [...fingers.values()];
  return { apart: Math.hypot(a.x - b.x, a.y - b.y), middle: { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 } };
};
let pinched = { apart: 1, middle: { x: 0, y: 0 } };

const movePinch = () => {
  const now = pinch();
  pan(pinched.middle.x - now.middle.x, pinched.middle.y - now.middle.y);
  zoomTo(pixels() * (now.apart / Math.max(pinched.apart, 1)), now.middle);
  pinched = now;
};

/** Ends the gesture under way without any change. @returns {boolean} whether there was one */
export const cancelGesture = () => {
  if (!mode) return false;
  mode.cancel();
  mode = null;
  return true;
};

/** @param {PointerEvent} e */
const down = (e) => {
  if (closest(e.target, '.legend-input') || (e.button !== 0 && e.button !== 1)) return;
  board.focus({ preventScroll: true });
  if (e.button === 0 && pressKey(e)) return;
  board.setPointerCapture(e.pointerId);
  if (e.pointerType === 'touch') fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
  if (fingers.size === 2) {
    cancelGesture();
    pinched = pinch();
    return;
  }
  if (fingers.size > 2 || mode) return;
  if (e.button === 1) e.preventDefault();
  mode = begin(e);
  mode.down(spot(e));
};

/** @param {PointerEvent} e */
const move = (e) => {
  if (fingers.has(e.pointerId)) fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
  if (fingers.size === 2) {
    movePinch();
    return;
  }
  const at = spot(e);
  if (mode) mode.move(at);
  else if (inHand()) hover(at.hole);
  else if (wireTool() === 'draw' && e.pointerType !== 'touch') aimWire(at.hole, at.screen);
  else if (e.pointerType === 'mouse') showWhere(at.hole);
};

/** @param {PointerEvent} e */
const up = (e) => {
  fingers.delete(e.pointerId);
  const ended = mode;
  mode = null;
  ended?.up(spot(e));
};

/** @param {PointerEvent} e */
const lost = (e) => {
  fingers.delete(e.pointerId);
  cancelGesture();
};

/** What the strip says while nothing is pointed at. */
const rest = () => {
  if (board.matches(':focus-visible')) showWhere(cursor());
  else byId('where').textContent = faceUp() === 'front' ? 'Front' : 'Back, mirrored';
};

export const startGestures = () => {
  rest();
  document.addEventListener('renewed', () => { if (!mode && !inHand()) rest(); });
  board.addEventListener('pointerdown', down);
  board.addEventListener('pointermove', move);
  board.addEventListener('pointerup', up);
  board.addEventListener('pointercancel', lost);
  board.addEventListener('pointerleave', () => { if (!mode && !inHand()) rest(); });
  board.addEventListener('dragstart', (e) => e.preventDefault());
  board.addEventListener('contextmenu', (e) => {
    if (inHand()) {
      e.preventDefault();
      letGo();
    }
  });
  const button = byId('several');
  button.addEventListener('click', () => button.setAttribute('aria-pressed', String(!several())));
};
