// @ts-check
// The parts shelf: search, and taking a part in hand by press, by key or by dragging it to the board.
import { byId, closest } from './dom.js';
import { cursor } from './cursor.js';
import { toBoard } from './drawing.js';
import { hover, inHand, letGo, lift, putDown, takePart } from './held.js';
import { nearestHole } from './holes.js';
import { selected } from './selection.js';

/** Hides what the search does not mean. */
const filter = () => {
  const field = document.getElementById('shelf-search');
  if (!(field instanceof HTMLInputElement)) return;
  const wanted = field.value.toLowerCase().split(/\s+/).filter(Boolean);
  let shown = 0;
  for (const kind of document.querySelectorAll('.shelf-kind')) {
    let here = 0;
    for (const item of kind.querySelectorAll('.shelf-item')) {
      if (!(item instanceof HTMLElement)) continue;
      item.hidden = !wanted.every((w) => item.dataset.words?.includes(w));
      if (!item.hidden) here++;
    }
    if (kind instanceof HTMLDetailsElement) {
      kind.hidden = here === 0;
      if (wanted.length) kind.open = true;
    }
    shown += here;
  }
  byId('shelf-none').hidden = shown > 0;
};

/** @param {PointerEvent} e begins to drag a part off the shelf */
const drag = (e) => {
  const button = closest(e.target, '.shelf-part');
  if (!button || e.button !== 0) return;
  const from = { x: e.clientX, y: e.clientY };
  let dragged = false;
  const stop = new AbortController();
  const on = (/** @type {'pointermove' | 'pointerup' | 'pointercancel'} */ type, /** @type {(e: PointerEvent) => void} */ act) =>
    document.addEventListener(type, act, { signal: stop.signal });
  const overBoard = (/** @type {PointerEvent} */ ev) => {
    const r = byId('board').getBoundingClientRect();
    return ev.clientX > r.left && ev.clientX < r.right && ev.clientY > r.top && ev.clientY < r.bottom;
  };
  on('pointermove', (ev) => {
    if (!dragged && Math.hypot(ev.clientX - from.x, ev.clientY - from.y) > 8) {
      dragged = true;
      button.setPointerCapture(ev.pointerId);
      takePart(button);
      delete document.body.dataset.drawer;
    }
    if (dragged && overBoard(ev)) hover(nearestHole(toBoard({ x: ev.clientX, y: ev.clientY })));
  });
  on('pointerup', (ev) => {
    stop.abort();
    if (!dragged) return;
    button.addEventListener('click', (c) => c.stopImmediatePropagation(), { once: true, capture: true });
    setTimeout(() => button.blur(), 0);
    if (!overBoard(ev)) {
      letGo();
      return;
    }
    void putDown(nearestHole(toBoard({ x: ev.clientX, y: ev.clientY }))).then(letGo);
  });
  on('pointercancel', () => {
    stop.abort();
    if (dragged) letGo();
  });
};

/** @param {MouseEvent} e */
const press = (e) => {
  const button = closest(e.target, '.shelf-part');
  if (button) {
    const now = inHand();
    if (now?.what === 'part' && now.id === button.dataset.part) {
      letGo();
      return;
    }
    takePart(button);
    delete document.body.dataset.drawer;
    byId('board').focus({ preventScroll: true });
    if (e.detail === 0) hover(cursor()); // by key: the cursor aims
  } else if (closest(e.target, '[data-let-go]')) {
    letGo();
  } else if (closest(e.target, '[data-lift]')) {
    lift(selected(), false);
    byId('board').focus({ preventScroll: true });
  } else if (closest(e.target, '[data-duplicate]')) {
    lift(selected(), true);
    byId('board').focus({ preventScroll: true });
  }
};

export const startShelf = () => {
  document.addEventListener('pointerdown', drag);
  document.addEventListener('click', press);
  document.addEventListener('input', (e) => { if (closest(e.target, '#shelf-search')) filter(); });
  document.addEventListener('renewed', filter);
};
