// @ts-check
// What belongs to the gesture under way, drawn over the board: the cursor, the part in hand, the
// frame that selects, the rings round holes. It has the drawing's own millimetres.
import { byId, svg } from './dom.js';
import { faceUp, flipRect, flipX, extent } from './drawing.js';
import { facts } from './facts.js';
import { boardAt, centre, holesOf, rectOf } from './holes.js';
/** @import { Hole, Rect, Face } from './units.js' */
/** @import { Pose } from './holes.js' */

/** @typedef {{ kind: string, holes: [number, number][], bodies: { face: Face, rect: Rect, round: boolean }[], contacts: string[] }} Shape */

const layer = svg('svg', { focusable: 'false' });
const cursorMark = svg('g', { class: 'cursor-mark' }), ghosts = svg('g'), frame = svg('g'), rings = svg('g');
layer.append(rings, ghosts, frame, cursorMark);

const box = () => {
  const v = extent();
  layer.setAttribute('viewBox', `${v.x} ${v.y} ${v.width} ${v.height}`);
};

/** @param {Rect} r @param {string} name @param {number} [corner] */
const rect = (r, name, corner = 0.4) => {
  const [l, t, ri, b] = flipRect(r);
  return svg('rect', { class: name, x: l, y: t, width: ri - l, height: b - t, rx: corner });
};

/** @param {Hole} h @param {number} r @param {string} name */
const dot = (h, r, name) => svg('circle', { class: name, cx: flipX(centre(h).x), cy: centre(h).y, r });

/** @type {(h: Hole) => void} */
export const showCursor = (h) => {
  const c = { x: flipX(centre(h).x), y: centre(h).y };
  cursorMark.replaceChildren(
    svg('rect', { class: 'cursor', x: c.x - 1.27, y: c.y - 1.27, width: 2.54, height: 2.54 }),
    svg('path', { class: 'cursor-cross', d: `M${c.x - 2.4} ${c.y}h1.1M${c.x + 1.3} ${c.y}h1.1M${c.x} ${c.y - 2.4}v1.1M${c.x} ${c.y + 1.3}v1.1` }),
  );
};

/** @type {(shape: Shape, pose: Pose) => boolean} shows a part where it would lie; the answer is whether all its legs are on a board */
export const showGhost = (shape, pose) => {
  const holes = holesOf(pose, shape.holes);
  const fits = holes.every((h) => boardAt(facts().boards, h));
  const g = svg('g', { class: fits ? 'ghost' : 'ghost ghost-off' });
  for (const b of shape.bodies) {
    const side = pose.face === 'back' ? (b.face === 'back' ? 'front' : 'back') : b.face;
    const r = rectOf(pose, b.rect);
    g.append(rect(r, side === faceUp() ? 'ghost-body' : 'ghost-body far', b.round ? (r[2] - r[0]) / 2 : 0.4));
  }
  holes.forEach((h, i) => g.append(dot(h, i ? 0.5 : 0.75, i ? 'ghost-lead' : 'ghost-first')));
  ghosts.replaceChildren(g);
  return fits;
};

/** @type {(boxes: readonly Rect[], holes: readonly Hole[]) => void} shows copies of placed parts */
export const showCopies = (boxes, holes) => {
  const off = !holes.every((h) => boardAt(facts().boards, h));
  const g = svg('g', { class: off ? 'ghost ghost-off' : 'ghost' });
  g.append(...boxes.map((b) => rect(b, 'ghost-body')), ...holes.map((h) => dot(h, 0.5, 'ghost-lead')));
  ghosts.replaceChildren(g);
};

export const hideGhost = () => ghosts.replaceChildren();

/** @type {(r: Rect | null) => void} the frame that selects, in millimetres of the board */
export const showFrame = (r) => frame.replaceChildren(...(r ? [rect(r, 'marquee', 0)] : []));

/** @type {(holes: readonly Hole[], aim?: Hole | null) => void} rings round holes, and a wider one round what is aimed at */
export const showRings = (holes, aim) => rings.replaceChildren(...holes.map((h) => dot(h, 1.3, 'halo')), ...(aim ? [dot(aim, 2.1, 'halo aim')] : []));

export const startHand = () => {
  byId('board-hand').prepend(layer);
  box();
  byId('board-hand').addEventListener('resized', box);
};
