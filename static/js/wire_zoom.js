// @ts-check
// One press on a wire of the list brings it near: its face up, the board as large as shows it well.
import { setAsked } from './address.js';
import { byId, closest } from './dom.js';
import { drawing, faceUp, pan, pixels, toScreen, zoomTo } from './drawing.js';
import { facts } from './facts.js';
import { centre, parseHole } from './holes.js';
import { light } from './light.js';
import { renew } from './renew.js';
import { say } from './say.js';
import { openDrawer } from './sheets.js';

const ROOM = 12, NEAREST = 15; // millimetres round a wire; pixels to a millimetre that are near enough

/** @param {string} index */
const endsOf = (index) => {
  const g = drawing()?.querySelector(`.wire[data-index="${CSS.escape(index)}"]`);
  return g instanceof SVGElement ? [g.dataset.from, g.dataset.to].flatMap((name) => parseHole(name ?? '') ?? []) : [];
};

/** @param {string} index */
const bringNear = (index) => {
  const points = endsOf(index).map(centre), board = byId('board').getBoundingClientRect();
  if (!points.length) return;
  const xs = points.map((p) => p.x), ys = points.map((p) => p.y);
  const width = Math.max(...xs) - Math.min(...xs) + 2 * ROOM, height = Math.max(...ys) - Math.min(...ys) + 2 * ROOM;
  const middle = { x: (Math.max(...xs) + Math.min(...xs)) / 2, y: (Math.max(...ys) + Math.min(...ys)) / 2 };
  zoomTo(Math.min(NEAREST, Math.max(pixels() / 2, Math.min(board.width / width, board.height / height))));
  const at = toScreen(middle);
  pan(at.x - board.left - board.width / 2, at.y - board.top - board.height / 2);
};

/** @param {string} index @param {string} face */
const show = async (index, face) => {
  openDrawer('');
  if (face && face !== faceUp()) {
    setAsked({ face: face === 'back' ? 'back' : '' });
    await renew();
    say(face === 'back' ? 'The back, mirrored as you see it when you turn the board over.' : 'The front.');
  }
  bringNear(index);
  const row = document.querySelector(`#wires [data-wire="${CSS.escape(index)}"]`);
  if (row instanceof HTMLElement) light(row);
};

export const startWireZoom = () => {
  if (facts().room !== 'wire') return;
  document.addEventListener('click', (e) => {
    const row = closest(e.target, '#wires [data-wire]');
    if (!row || closest(e.target, 'button:not([data-zoom-wire]), a, input, select')) return;
    void show(row.dataset.wire ?? '', row.dataset.face ?? '');
  });
};
