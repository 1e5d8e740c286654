// @ts-check
// What the board shows of a wire being drawn: its way, its ends, and the holes where its net is.
import { byId, svg } from './dom.js';
import { flipX } from './drawing.js';
import { centre, parseHole } from './holes.js';
/** @import { Hole, Pixel } from './units.js' */
/** @import { Way } from './wire_route.js' */

/** @typedef {{ kind: Way, way: Hole[], state: '' | 'yes' | 'no' }} Draft */

const over = svg('g', { class: 'wire-drafts' });
const tag = document.createElement('div');
tag.className = 'carried wire-tag';
tag.setAttribute('aria-hidden', 'true');

/** @param {Hole} h @returns {[number, number]} */
const at = (h) => [flipX(centre(h).x), centre(h).y];

/** @type {() => Map<string, Hole[]>} the holes of each net, as the page tells */
const nets = () => new Map(Object.entries(JSON.parse(document.getElementById('wire-holes')?.dataset.nets ?? '{}')).map(
  ([net, holes]) => [net, holes.flatMap((/** @type {string} */ name) => parseHole(name) ?? [])]));

/** @type {(h: Hole) => string} the net that has a lead in a hole; '' for none */
export const netIn = (h) => [...nets()].find(([, holes]) => holes.some((o) => o.col === h.col && o.row === h.row))?.[0] ?? '';

/** @type {(draft: Draft | null, net: string) => void} */
export const showDraft = (draft, net) => {
  const rings = (net && nets().get(net)) || [];
  over.replaceChildren(...rings.map((h) => svg('circle', { class: 'wire-goal', cx: at(h)[0], cy: at(h)[1], r: 1.25 })));
  if (!draft) return;
  const d = draft.way.map((h, i) => `${i ? 'L' : 'M'}${at(h).join(' ')}`).join('');
  const kind = `draft-${draft.kind} ${draft.state}`;
  if (draft.way.length > 1) over.append(svg('path', { class: `draft-edge ${kind}`, d }), svg('path', { class: `draft-core ${kind}`, d }));
  for (const h of [draft.way[0], draft.way[draft.way.length - 1]]) over.append(svg('circle', { class: `draft-end ${kind}`, cx: at(h)[0], cy: at(h)[1], r: 0.75 }));
};

/** @type {(text: string, no: boolean, place: Pixel | null) => void} says beside the pointer what the wire would be; '' takes it away */
export const showTag = (text, no, place) => {
  if (!text || !place) {
    tag.remove();
    return;
  }
  document.body.append(tag);
  tag.textContent = text;
  tag.classList.toggle('no', no);
  const { width, height } = tag.getBoundingClientRect();
  tag.style.left = `${Math.max(4, Math.min(place.x + 16, innerWidth - width - 4))}px`;
  tag.style.top = `${Math.max(4, place.y - height - 18)}px`;
};

/** Puts what is drawn in place, under what else belongs to the hand. */
export const startDraft = () => byId('board-hand').querySelector('svg')?.prepend(over);
