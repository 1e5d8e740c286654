// @ts-check
// Legends typed straight on the keys: a field lies over the cap; Enter and Tab go on to the next.
import { byId } from './dom.js';
import { change } from './edits.js';
import { facts, inOrder, partOf, refOf } from './facts.js';
import { showPlace, toScreen } from './drawing.js';

/** @typedef {{ id: string, legend: string }} Key */

/** Keys in reading order. @returns {Key[]} */
const keys = () => inOrder().flatMap((p) => p.keys);

/** @param {string} id @param {number} way @returns {string} */
const neighbour = (id, way) => {
  const all = keys();
  const at = all.findIndex((k) => k.id === id);
  return all[at + way]?.id ?? '';
};

/** @param {HTMLInputElement} field @param {string} id */
const seat = (field, id) => {
  const p = partOf(refOf(id));
  if (!p) return;
  const middle = { x: (p.box[0] + p.box[2]) / 2, y: (p.box[1] + p.box[3]) / 2 };
  showPlace(middle);
  const at = toScreen(middle), frame = byId('board-hand').getBoundingClientRect();
  field.style.left = `${at.x - frame.left}px`;
  field.style.top = `${at.y - frame.top}px`;
};

/** @type {(id: string) => void} opens the field over a key */
export const editLegend = (id) => {
  const key = keys().find((k) => k.id === id);
  if (!key || facts().room === 'build') return;
  const field = document.createElement('input');
  field.className = 'legend-input';
  field.value = key.legend;
  field.maxLength = 24;
  field.setAttribute('aria-label', `Legend of ${id}`);
  let open = true;
  const shut = () => {
    open = false;
    field.remove();
  };
  const keep = () => {
    if (!open) return;
    const legend = field.value.trim();
    shut();
    if (legend !== key.legend) void change({ do: 'legend', key: id, legend });
  };
  field.addEventListener('blur', keep);
  field.addEventListener('keydown', (e) => {
    e.stopPropagation();
    if (e.isComposing) return;
    if (e.key === 'Escape') {
      shut();
      byId('board').focus({ preventScroll: true });
    } else if (e.key === 'Enter' || e.key === 'Tab') {
      e.preventDefault();
      const next = neighbour(id, e.shiftKey ? -1 : 1);
      keep();
      if (next) editLegend(next); else byId('board').focus({ preventScroll: true });
    }
  });
  byId('board-hand').append(field);
  seat(field, id);
  field.focus({ preventScroll: true });
  field.select();
};
