// @ts-check
// The board by keyboard alone. Single keys count only while the board has the focus; a few with
// Ctrl work everywhere but in fields.
import { setAsked } from './address.js';
import { change, sayDone, stepBack } from './edits.js';
import { cursor, moveCursor, putCursor } from './cursor.js';
import { byId, typing } from './dom.js';
import { faceUp, fit, zoomBy } from './drawing.js';
import { atOf, facts, inOrder, partAt, partOf } from './facts.js';
import { cancelGesture } from './gestures.js';
import { flipHeld, hover, inHand, letGo, lift, putDown, turnHeld } from './held.js';
import { boardAt } from './holes.js';
import { editLegend } from './legend.js';
import { renew } from './renew.js';
import { say } from './say.js';
import { pressChord } from './chords.js';
import { isSelected, select, selected, toggle } from './selection.js';

/** @type {(face?: string) => void} shows the other face */
export const turnOver = (face = faceUp() === 'front' ? 'back' : 'front') => {
  letGo();
  setAsked({ face: face === 'back' || facts().room === 'build' ? face : '' });
  void renew().then(() => {
    putCursor(cursor(), true);
    say(face === 'back' ? 'The back, mirrored as you see it when you turn the board over.' : 'The front.');
  });
};

/** What single deeds work on: the selection, else the part under the cursor. @returns {string[]} */
const meant = () => {
  if (selected().length) return selected();
  const p = partAt(cursor(), faceUp());
  return p ? [p.ref] : [];
};

/** @param {number} cols @param {number} rows @param {KeyboardEvent} e */
const go = (cols, rows, e) => {
  const n = e.shiftKey ? 5 : 1;
  moveCursor(cols * n, rows * n);
  if (inHand()) hover(cursor());
};

/** @param {boolean} last @param {boolean} all */
const goToEnd = (last, all) => {
  const b = boardAt(facts().boards, cursor()) ?? facts().boards[0];
  const right = last !== (faceUp() === 'back');
  putCursor({ col: right ? b.col + b.columns - 1 : b.col, row: all ? (last ? b.row + b.rows - 1 : b.row) : cursor().row });
  if (inHand()) hover(cursor());
};

/** @param {boolean} back */
const nextPart = (back) => {
  const all = inOrder();
  if (!all.length) return;
  const now = all.findIndex((p) => p.ref === (selected()[0] ?? partAt(cursor(), faceUp())?.ref));
  const p = all[(now + (back ? -1 : 1) + all.length) % all.length];
  putCursor(atOf(p));
  select([p.ref]);
};

/** @param {KeyboardEvent} e */
const enter = (e) => {
  if (inHand()) {
    void putDown(cursor());
    return;
  }
  const p = partAt(cursor(), faceUp());
  if (!p) {
    select([]);
    say('No part here. Take one from the shelf first.');
  } else if (pressChord(p.ref)) {
    return;
  } else if (e.shiftKey) {
    toggle(p.ref);
  } else if (isSelected(p.ref) && p.keys.length) {
    editLegend(p.keys[0].id);
  } else {
    select([p.ref]);
    say(`${p.ref} selected.`);
  }
};

const space = () => {
  if (inHand()) {
    void putDown(cursor());
    return;
  }
  const p = partAt(cursor(), faceUp());
  if (p && pressChord(p.ref)) return;
  if (!p || facts().room !== 'place') return;
  if (!isSelected(p.ref)) select([p.ref]);
  lift(selected(), false, cursor());
};

/** @param {() => boolean} held @param {string} edit @param {object} more */
const deed = (held, edit, more) => {
  if (held() || !meant().length) return;
  void change({ do: edit, refs: meant(), ...more }).then((done) => { if (done) sayDone(); });
};

/** @type {Record<string, (e: KeyboardEvent) => void>} */
const KEYS = {
  ArrowLeft: (e) => go(-1, 0, e), ArrowRight: (e) => go(1, 0, e), ArrowUp: (e) => go(0, -1, e), ArrowDown: (e) => go(0, 1, e),
  Home: (e) => goToEnd(false, e.ctrlKey), End: (e) => goToEnd(true, e.ctrlKey),
  PageUp: () => moveCursor(0, -10), PageDown: () => moveCursor(0, 10),
  Enter: enter, ' ': space,
  F2: () => { const key = partOf(meant()[0] ?? '')?.keys[0]; if (key) editLegend(key.id); },
  Escape: () => { if (!cancelGesture() && !letGo()) select([]); },
  Delete: () => deed(letGo, 'remove', {}), Backspace: () => deed(letGo, 'remove', {}),
  r: () => deed(() => turnHeld(1), 'turn', { quarters: 1 }), R: () => deed(() => turnHeld(-1), 'turn', { quarters: -1 }),
  f: () => deed(flipHeld, 'flip', {}),
  d: () => { if (meant().length && !inHand()) lift(meant(), true, cursor()); },
  n: () => nextPart(false), N: () => nextPart(true),
  b: () => turnOver(), '+': () => zoomBy(1.3), '=': () => zoomBy(1.3), '-': () => zoomBy(1 / 1.3), 0: fit,
  '?': () => { const d = byId('keys-dialog'); if (d instanceof HTMLDialogElement) d.showModal(); },
};

/** @param {KeyboardEvent} e */
const onBoardKey = (e) => {
  if (e.isComposing || e.altKey || e.target !== byId('board')) return;
  if ((e.ctrlKey || e.metaKey) && !['Home', 'End'].includes(e.key)) return;
  const act = KEYS[e.key] ?? KEYS[e.key.toLowerCase()];
  if (!act) return;
  e.preventDefault();
  act(e);
};

/** @param {KeyboardEvent} e */
const onAnyKey = (e) => {
  if (!(e.ctrlKey || e.metaKey) || e.altKey || e.isComposing) return;
  const key = e.key.toLowerCase();
  if (key === 's') {
    e.preventDefault();
    say('Everything is saved as you go.');
    return;
  }
  if (typing()) return;
  if (key === 'z' || key === 'y') {
    e.preventDefault();
    letGo();
    void stepBack(key === 'y' || e.shiftKey ? 'redo' : 'undo');
  } else if (key === 'a' && document.activeElement === byId('board')) {
    e.preventDefault();
    select(facts().parts.map((p) => p.ref));
  }
};

export const startKeyboard = () => {
  byId('board').addEventListener('keydown', onBoardKey);
  document.addEventListener('keydown', onAnyKey);
};
