// @ts-check
// Sheets that open and shut: dialogs, and the columns that slide over the board on a narrow page.
import { byId, closest } from './dom.js';

/** @type {(name: string) => void} room, margin, or '' */
export const openDrawer = (name) => {
  if (name) document.body.dataset.drawer = name; else delete document.body.dataset.drawer;
  for (const b of document.querySelectorAll('.drawer-button')) {
    if (b instanceof HTMLElement) b.setAttribute('aria-expanded', String(b.dataset.drawer === name));
  }
  if (name) byId(name).focus({ preventScroll: true });
};

/** @param {MouseEvent} e */
const press = (e) => {
  const open = closest(e.target, '[data-open]');
  const dialog = open && document.getElementById(open.dataset.open ?? '');
  if (dialog instanceof HTMLDialogElement) dialog.showModal();
  const shut = closest(e.target, '[data-close]')?.closest('dialog');
  shut?.close();
  const drawer = closest(e.target, '.drawer-button');
  if (drawer) openDrawer(document.body.dataset.drawer === drawer.dataset.drawer ? '' : drawer.dataset.drawer ?? '');
};

export const startSheets = () => {
  document.addEventListener('click', press);
  document.addEventListener('keydown', (e) => {
    if (e.key === 'Escape' && document.body.dataset.drawer && !document.querySelector('dialog[open]')) openDrawer('');
  });
};
