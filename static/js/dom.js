// @ts-check
// The document, with types.

/** @type {(id: string) => HTMLElement} the element that every page of a panel has */
export const byId = (id) => {
  const el = document.getElementById(id);
  if (!el) throw new Error(`the page has no #${id}`);
  return el;
};

/** @type {(from: EventTarget | null, selector: string) => HTMLElement | null} */
export const closest = (from, selector) => {
  const el = from instanceof Element ? from.closest(selector) : null;
  return /** @type {HTMLElement | null} */ (el);
};

const SVG = 'http://www.w3.org/2000/svg';

/**
 * A new SVG element.
 * @template {keyof SVGElementTagNameMap} K
 * @param {K} name
 * @param {Record<string, string | number>} [attributes]
 * @returns {SVGElementTagNameMap[K]}
 */
export const svg = (name, attributes = {}) => {
  const el = document.createElementNS(SVG, name);
  for (const [k, v] of Object.entries(attributes)) el.setAttribute(k, String(v));
  return el;
};

/** @type {(name: string, className: string, ...inside: (Node | string)[]) => HTMLElement} a new element with what it holds */
export const make = (name, className, ...inside) => {
  const el = document.createElement(name);
  if (className) el.className = className;
  el.append(...inside);
  return el;
};

/** @type {(text: string | undefined) => string[]} the words of a list in an attribute */
export const words = (text) => (text ?? '').split(/[\s,]+/).filter(Boolean);

/** @type {() => boolean} whether typing goes into a field, so that single keys are letters */
export const typing = () => {
  const el = document.activeElement;
  return el instanceof HTMLElement && (el.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(el.tagName));
};
