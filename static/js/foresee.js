// @ts-check
// What an edit does to the drawing, shown in the frame in which it is made; the server's picture
// follows. Only what can be shown without working anything out: turning, flipping, taking away.
import { faceUp, partGroup } from './drawing.js';
/** @import { Edit } from './edits.js' */

/** @type {(g: SVGGElement) => [number, number]} the middle of a part's body, as the part is drawn */
const middle = (g) => {
  const hit = g.querySelector('.hit');
  const number = (/** @type {string} */ name) => Number(hit?.getAttribute(name) ?? 0);
  return [number('x') + number('width') / 2, number('y') + number('height') / 2];
};

/** @type {Record<string, (g: SVGGElement, edit: Edit) => () => void>} shows an edit of one part and returns what takes it back */
const SHOWN = {
  turn: (g, edit) => {
    const was = g.getAttribute('transform') ?? '', [x, y] = middle(g);
    // Turns count clockwise as seen from the front; from the back they run the other way.
    g.setAttribute('transform', `${was} rotate(${90 * Number(edit.quarters) * (faceUp() === 'back' ? -1 : 1)} ${x} ${y})`);
    return () => g.setAttribute('transform', was);
  },
  flip: (g) => {
    const here = g.classList.contains('this-face'), [from, to] = here ? ['this-face', 'other-face'] : ['other-face', 'this-face'];
    g.classList.replace(from, to);
    return () => g.classList.replace(to, from);
  },
  remove: (g) => {
    g.setAttribute('visibility', 'hidden');
    return () => g.removeAttribute('visibility');
  },
};

/** @type {(edit: Edit) => () => void} shows what it can of an edit, and returns what takes that back */
export const foresee = (edit) => {
  const show = SHOWN[edit.do];
  if (!show || !Array.isArray(edit.refs)) return () => {};
  const undone = edit.refs.map((ref) => partGroup(String(ref))).filter((g) => g !== null).map((g) => show(g, edit));
  return () => { for (const undo of undone) undo(); };
};
