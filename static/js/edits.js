// @ts-check
// One gesture, one edit: sent, then the page follows; a refusal is told and takes the gesture back.
import { foresee } from './foresee.js';
import { sendEdit, sendLend, sendStep } from './remote.js';
import { renew } from './renew.js';
import { say, warn } from './say.js';

/** @typedef {{ do: string } & Record<string, unknown>} Edit */

/**
 * @param {Edit} edit
 * @param {() => void} [takeBack] undoes what was shown before the answer came
 * @returns {Promise<boolean>} whether it was done
 */
export const change = async (edit, takeBack) => {
  const unshow = foresee(edit);
  const answer = await sendEdit(edit);
  if (!answer.ok) {
    unshow();
    takeBack?.();
    warn(`${answer.error} ${answer.fix}`.trim());
    return false;
  }
  await renew();
  return true;
};

/** @type {(what: string) => Promise<void>} takes parts that the server finds room for */
export const borrow = async (what) => {
  const answer = await sendLend(what);
  if (!answer.ok) {
    warn(`${answer.error} ${answer.fix}`.trim());
    return;
  }
  await renew();
  sayDone();
};

/** Tells what was just done, in the words that undo has for it. */
export const sayDone = () => {
  const deed = document.querySelector('#undo .history-deed')?.textContent;
  if (deed) say(`${deed}: done.`);
};

/** @param {'undo' | 'redo'} which */
export const stepBack = async (which) => {
  const deed = document.querySelector(`#${which} .history-deed`)?.textContent ?? '';
  if (!deed) {
    say(which === 'undo' ? 'Nothing left to undo.' : 'Nothing left to redo.');
    return;
  }
  const answer = await sendStep(which);
  if (!answer.ok) {
    warn(`${answer.error} ${answer.fix}`.trim());
    return;
  }
  await renew();
  say(`${which === 'undo' ? 'Undone' : 'Done again'}: ${deed}`);
};
