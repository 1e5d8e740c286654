// @ts-check
// Keeps the page current: fetches it anew and puts the marked regions in place of the old ones, with
// focus, open sheets, scroll and half-typed text kept.
import { byId } from './dom.js';
import { readFacts } from './facts.js';

/** The regions, in the order in which they are put in place. */
const REGIONS = ['facts', 'tabs', 'saved', 'history', 'faces', 'board-svg', 'room', 'module-large', 'slip', 'notes', 'title-block', 'thumbs'];

let held = 0;
let wanted = false;
/** @type {Promise<void> | null} */
let running = null;

/** @type {() => Promise<Document>} */
const load = () => new Promise((done, failed) => {
  const ask = new XMLHttpRequest();
  ask.open('GET', location.pathname + location.search);
  ask.responseType = 'document';
  ask.setRequestHeader('Accept', 'text/html');
  ask.onload = () => (ask.status === 200 && ask.responseXML ? done(ask.responseXML) : failed(new Error(`page: ${ask.status}`)));
  ask.onerror = () => {
    setTimeout(() => { void renew(); }, 2000); // the server is away; what it knows will be wanted still
    failed(new Error('page: no connection'));
  };
  ask.send();
});

/** @param {Element} old @param {Element} fresh keeps what the reader opened and began to type */
const carryOver = (old, fresh) => {
  for (const was of old.querySelectorAll('details[id]')) {
    const now = fresh.querySelector(`#${CSS.escape(was.id)}`);
    if (now instanceof HTMLDetailsElement && was instanceof HTMLDetailsElement) now.open = was.open;
  }
  for (const form of old.querySelectorAll('form[data-dirty]')) {
    if (form.id) fresh.querySelector(`#${CSS.escape(form.id)}`)?.replaceWith(form);
  }
};

/** @param {string} id @param {Document} page */
const replace = (id, page) => {
  const old = document.getElementById(id);
  const next = page.getElementById(id);
  if (!old || !next || old.isEqualNode(next)) return;
  const fresh = document.importNode(next, true);
  carryOver(old, fresh);
  for (const { name, value } of [...fresh.attributes]) {
    if (name !== 'class' && name !== 'style') old.setAttribute(name, value);
  }
  old.replaceChildren(...fresh.childNodes);
};

/** Remembers where the focus is; the answer puts it back. @returns {() => void} */
const keepFocus = () => {
  const el = document.activeElement;
  if (!(el instanceof HTMLElement) || el === document.body) return () => {};
  const field = el instanceof HTMLInputElement || el instanceof HTMLTextAreaElement ? el : null;
  const typed = field && field.type !== 'checkbox' && field.value !== field.defaultValue ? field.value : null;
  const caret = field && /^(text|search|textarea)$/.test(field.type) ? /** @type {const} */ ([field.selectionStart, field.selectionEnd]) : null;
  return () => {
    if (document.activeElement === el) return;
    const again = el.id ? document.getElementById(el.id) : null;
    if (!again) {
      if (!document.contains(el)) byId('board').focus({ preventScroll: true });
      return;
    }
    again.focus({ preventScroll: true });
    if (again instanceof HTMLInputElement || again instanceof HTMLTextAreaElement) {
      if (typed !== null) again.value = typed;
      if (caret) again.setSelectionRange(...caret);
    }
  };
};

/** @param {Document} page whether it comes from a newer program, whose pieces may not fit ours */
const isNewer = (page) => {
  const style = (/** @type {Document} */ d) => [...d.querySelectorAll('link[rel="stylesheet"]')].map((l) => l.getAttribute('href')).join();
  return style(page) !== style(document);
};

/** @param {Document} page */
const putInPlace = (page) => {
  if (isNewer(page)) {
    location.reload();
    return;
  }
  const refocus = keepFocus();
  for (const id of REGIONS) replace(id, page);
  document.title = page.title;
  const board = byId('board');
  const next = page.getElementById('board');
  for (const name of ['aria-label', 'data-face']) board.setAttribute(name, next?.getAttribute(name) ?? '');
  const name = document.getElementById('name');
  const named = page.getElementById('name');
  if (name instanceof HTMLInputElement && named instanceof HTMLInputElement && document.activeElement !== name) name.value = named.value;
  readFacts();
  document.dispatchEvent(new Event('renewed'));
  refocus();
};

const run = async () => {
  while (wanted && held === 0) {
    wanted = false;
    const page = await load();
    if (held > 0) { // a gesture began meanwhile; what it moves must stay under the hand
      wanted = true;
      return;
    }
    putInPlace(page);
  }
};

/** Asks for a renewal; many at once are one. @returns {Promise<void>} */
export const renew = () => {
  wanted = true;
  running ??= run().catch(() => {}).finally(() => {
    running = null;
    if (wanted && held === 0) void renew();
  });
  return running;
};

/** Holds renewals back while a gesture is under way; the answer lets them go. @returns {() => void} */
export const hold = () => {
  held++;
  let done = false;
  return () => {
    if (done) return;
    done = true;
    held--;
    if (held === 0 && wanted) void renew();
  };
};
