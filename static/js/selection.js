// @ts-check
// Which parts are selected. The address remembers it; the slip in the margin tells about it.
import { asked, setAsked } from './address.js';
import { words } from './dom.js';
import { partGroup, drawing } from './drawing.js';
import { facts } from './facts.js';
import { renew } from './renew.js';

/** @type {Set<string>} */
const chosen = new Set();

/** @type {() => string[]} */
export const selected = () => [...chosen];

/** @type {(ref: string) => boolean} */
export const isSelected = (ref) => chosen.has(ref);

const paint = () => {
  for (const g of drawing()?.querySelectorAll('.part.selected') ?? []) g.classList.remove('selected');
  for (const ref of chosen) partGroup(ref)?.classList.add('selected');
};

/** @type {(refs: readonly string[]) => void} */
export const select = (refs) => {
  const next = refs.filter((ref) => facts().parts.some((p) => p.ref === ref));
  if (next.length === chosen.size && next.every((ref) => chosen.has(ref))) return;
  chosen.clear();
  for (const ref of next) chosen.add(ref);
  paint();
  setAsked({ select: next.join(',') });
  void renew();
};

/** @type {(ref: string) => void} adds it, or takes it out */
export const toggle = (ref) => select(chosen.has(ref) ? selected().filter((r) => r !== ref) : [...chosen, ref]);

/** Takes up what the address says; parts that are gone drop out. */
const read = () => {
  chosen.clear();
  for (const ref of words(asked('select'))) if (facts().parts.some((p) => p.ref === ref)) chosen.add(ref);
  paint();
};

export const startSelection = () => {
  read();
  document.addEventListener('renewed', read);
};
