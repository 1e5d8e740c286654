// @ts-check
// Buttons that have the server place what a way to read the keys lacks.
import { closest } from './dom.js';
import { borrow } from './edits.js';

export const startMethods = () => document.addEventListener('click', (e) => {
  const button = closest(e.target, 'button[data-lend]');
  if (button) void borrow(button.dataset.lend ?? '');
});
