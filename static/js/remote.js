// @ts-check
// Sends commands to the server, one after the other. Each has an id of its own, so that sending it
// again after a lost connection does it once.
import { byId } from './dom.js';
import { facts } from './facts.js';

/** @typedef {{ ok: true, rev: number } | { ok: false, error: string, fix: string }} Answer */

/** @type {Promise<unknown>} */
let queue = Promise.resolve();
let waiting = 0;
let rev = 0;

/** @type {Set<string>} ids of our own commands, to know their echo among the events */
const ours = new Set();

/** @type {(id: string) => boolean} */
export const isOurs = (id) => ours.has(id);

/** @type {() => string} */
const newID = () => [...crypto.getRandomValues(new Uint8Array(12))].map((b) => b.toString(16).padStart(2, '0')).join('');

/** @param {'' | 'saving' | 'trouble'} state @param {string} [text] */
const showState = (state, text) => {
  const el = byId('saved');
  el.dataset.state = state;
  if (text) el.textContent = text;
};

/** @param {number} ms @returns {Promise<void>} */
const pause = (ms) => new Promise((done) => { setTimeout(done, ms); });

/**
 * Posts a body until an answer comes.
 * @param {string} path @param {object} body
 * @returns {Promise<Answer>}
 */
const deliver = async (path, body) => {
  for (let wait = 500; ; wait = Math.min(wait * 2, 8000)) {
    try {
      const answer = await fetch(path, { method: 'POST', headers: { 'Content-Type': 'application/json', Accept: 'application/json' },
        body: JSON.stringify(body) });
      const said = answer.status === 204 ? {} : await answer.json();
      if (answer.ok) return { ok: true, rev: said.rev ?? rev };
      return { ok: false, error: said.error ?? 'That did not work.', fix: said.fix ?? '' };
    } catch {
      showState('trouble', `no connection, ${waiting === 1 ? '1 change waits' : `${waiting} changes wait`}`);
      await pause(wait);
    }
  }
};

/**
 * @param {string} path under the panel, such as edits
 * @param {(id: string, base: number) => object} body
 * @returns {Promise<Answer>}
 */
const command = (path, body) => {
  const id = newID();
  ours.add(id);
  waiting++;
  showState('saving');
  const sent = queue.then(async () => {
    const answer = await deliver(`/panels/${facts().panel}/${path}`, body(id, Math.max(rev, facts().rev)));
    waiting--;
    if (answer.ok) rev = answer.rev;
    if (waiting === 0) showState('', answer.ok && rev ? `saved, revision ${rev}` : undefined);
    return answer;
  });
  queue = sent.catch(() => {});
  return sent;
};

/** @type {(edit: object) => Promise<Answer>} */
export const sendEdit = (edit) => command('edits', (id, base) => ({ id, base, edit }));

/** @type {(which: 'undo' | 'redo') => Promise<Answer>} */
export const sendStep = (which) => command(which, (id) => ({ id }));

/** @type {(what: string) => Promise<Answer>} has the server place parts that lack, such as lamps */
export const sendLend = (what) => command('lend', (id, base) => ({ id, base, what }));

/** @type {(step: string, done: boolean) => Promise<Answer>} */
export const sendTick = (step, done) => command('ticks', () => ({ step, done }));

/** @type {(path: string, body: object) => Promise<Answer>} something beside the panel, such as stock */
export const send = (path, body) => deliver(path, body);

addEventListener('beforeunload', (e) => {
  if (waiting > 0) e.preventDefault();
});
