// @ts-check
// Pointing at a note, a net, a wire or a row of a table lights what it speaks of on the board, with a
// thin line that leads there; and the other way round.
import { carrying } from './carry.js';
import { byId, closest, svg, words } from './dom.js';
import { drawing, partGroup, toScreen } from './drawing.js';
import { legs, partOf, refOf } from './facts.js';
import { showRings } from './hand.js';
import { centre, parseHole } from './holes.js';
/** @import { Hole } from './units.js' */

const leader = svg('svg', { class: 'leader', focusable: 'false', 'aria-hidden': 'true' });
/** @type {HTMLElement | null} */
let source = null;

const clear = () => {
  const all = drawing();
  all?.classList.remove('lighting');
  for (const el of document.querySelectorAll('.lit')) if (!el.closest('.others, .parts')) el.classList.remove('lit');
  for (const el of all?.querySelectorAll('.pointed') ?? []) el.classList.remove('pointed');
  for (const el of all?.querySelectorAll('.this-wire') ?? []) el.classList.remove('this-wire');
  showRings([]);
  leader.replaceChildren();
  source = null;
};

/** @param {string} selector @returns {Hole[]} the ends of the wires lit */
const lightWires = (selector) => {
  const found = [...(drawing()?.querySelectorAll(selector) ?? [])];
  if (found.length) drawing()?.classList.add('lighting');
  return found.flatMap((g) => {
    g.classList.add('lit');
    const at = g instanceof SVGElement ? [g.dataset.from, g.dataset.to] : [];
    return at.flatMap((name) => parseHole(name ?? '') ?? []);
  });
};

/** @param {string} net */
const ofNet = (net) => `.wire[data-net="${CSS.escape(net)}"]`;

/** @param {string} net lights the head of a line in the scan matrix */
const lightHeads = (net) => {
  for (const head of document.querySelectorAll(`[data-line="${CSS.escape(net)}"]`)) head.classList.add('lit');
};

/** @param {readonly string[]} nets lights the lines of a cell; their ends would be too many rings */
const lightLines = (nets) => {
  for (const net of nets) {
    lightWires(ofNet(net));
    lightHeads(net);
  }
};

/** @param {string} index lights the net of a wire on both faces, and the wire above all */
const lightWire = (index) => {
  const same = drawing()?.querySelectorAll(`.wire[data-index="${CSS.escape(index)}"]`) ?? [];
  for (const g of same) {
    if (g instanceof SVGElement) lightWires(ofNet(g.dataset.net ?? ''));
    g.classList.add('this-wire');
  }
};

/** @type {(net: string) => void} lights a whole net */
export const lightNet = (net) => {
  clear();
  if (net) showRings(lightWires(ofNet(net)));
};

/** @param {HTMLElement} el @param {readonly Hole[]} holes */
const lead = (el, holes) => {
  const board = byId('board').getBoundingClientRect(), from = el.getBoundingClientRect();
  const place = holes[0] && centre(holes[0]);
  if (!place || !el.closest('.margin, .room')) return;
  const at = toScreen(place);
  if (at.x < board.left || at.x > board.right || at.y < board.top || at.y > board.bottom) return;
  const right = from.left > at.x;
  const x = right ? Math.max(from.left, board.right) : Math.min(from.right, board.left);
  const y = Math.max(from.top + 12, Math.min(from.bottom, innerHeight) - Math.min(from.height - 12, from.height / 2));
  if (x < 0 || x > innerWidth) return;
  const knee = x + (right ? -18 : 18);
  const length = Math.hypot(at.x - knee, at.y - y) || 1, stop = Math.max(0, 1 - 11 / length);
  leader.replaceChildren(
    svg('path', { d: `M${x} ${y}H${knee}L${knee + (at.x - knee) * stop} ${y + (at.y - y) * stop}` }),
    svg('circle', { cx: at.x, cy: at.y, r: 11 }),
    svg('circle', { class: 'dot', cx: x, cy: y, r: 2.5 }),
  );
  leader.setAttribute('class', `leader ${el.dataset.severity ?? ''}`);
};

/** @type {(el: HTMLElement) => void} lights what el speaks of */
export const light = (el) => {
  if (el === source) return;
  clear();
  source = el;
  el.classList.add('lit');
  const d = el.dataset;
  let holes = words(d.holes).flatMap((name) => parseHole(name) ?? []);
  for (const ref of new Set([...words(d.refs), ...words(d.keys)].map(refOf))) {
    partGroup(ref)?.classList.add('pointed');
    const p = partOf(ref);
    if (!p) continue;
    if (!d.holes) holes = [...holes, ...legs(p)];
    drawing()?.classList.add('lighting');
  }
  if (d.wire) lightWire(d.wire);
  else if (d.cross) lightLines([d.net ?? '', d.cross]);
  else if (d.net) {
    holes = [...holes, ...lightWires(ofNet(d.net))];
    lightHeads(d.net);
  }
  showRings(holes);
  const first = words(d.refs)[0];
  const box = !d.holes && first ? partOf(refOf(first))?.box : undefined;
  lead(el, box ? [{ col: (box[0] + box[2]) / 2 / 2.54, row: (box[1] + box[3]) / 2 / 2.54 }] : holes);
};

/** @param {EventTarget | null} target */
const onPoint = (target) => {
  if (carrying()) return;
  const pin = closest(target, '.pin[data-net]');
  const el = closest(target, '[data-light]');
  if (pin) {
    lightNet(pin.dataset.net ?? '');
    source = pin;
  } else if (el) {
    light(el);
  } else if (source && !closest(target, '.leader')) {
    clear();
  }
};

/** @param {PointerEvent} e the row of the wire under the pointer */
const onBoard = (e) => {
  const g = closest(e.target, '.wire');
  if (!g && source?.matches('[data-cell]') && !closest(e.target, '.part')) clear();
  if (!g || carrying() || byId('board').matches('.aiming, .grabbing')) return;
  clear();
  lightWire(g.dataset.index ?? '');
  document.querySelector(`[data-wire="${CSS.escape(g.dataset.index ?? '')}"]`)?.classList.add('lit');
};

/** @type {(index: string) => void} goes to a wire's row in the list */
export const goToWire = (index) => {
  const row = document.querySelector(`[data-wire="${CSS.escape(index)}"]`);
  if (!(row instanceof HTMLElement)) return;
  row.scrollIntoView({ block: 'nearest' });
  light(row);
};

/** @type {(index: number) => void} goes to a note in the margin */
export const goToNote = (index) => {
  const note = document.querySelector(`[data-finding-note="${index}"]`);
  if (!(note instanceof HTMLElement)) return;
  const asides = note.closest('details');
  if (asides) asides.open = true;
  document.body.dataset.drawer = 'margin';
  note.scrollIntoView({ block: 'nearest' });
  note.querySelector('a')?.focus({ preventScroll: true });
};

export const startLight = () => {
  document.body.append(leader);
  document.addEventListener('pointerover', (e) => {
    if (closest(e.target, '#board')) onBoard(e); else onPoint(e.target);
  });
  byId('board').addEventListener('pointerleave', () => { if (!carrying()) clear(); });
  document.addEventListener('focusin', (e) => {
    if (e.target instanceof HTMLElement && e.target.matches(':focus-visible')) onPoint(e.target);
  });
  document.addEventListener('keydown', (e) => { if (e.key === 'Escape') clear(); });
  document.addEventListener('scroll', () => leader.replaceChildren(), { capture: true, passive: true });
  document.addEventListener('renewed', clear);
};
