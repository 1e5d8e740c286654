// @ts-check
// The checklist: ticks are kept as they are made, and the next step comes to the bench.
import { goTo } from './address.js';
import { closest } from './dom.js';
import { sendTick } from './remote.js';
import { renew } from './renew.js';
import { say, warn } from './say.js';

/** @param {string} step @param {boolean} done */
const tick = async (step, done) => {
  const answer = await sendTick(step, done);
  if (!answer.ok) warn(`${answer.error} ${answer.fix}`);
  await renew();
};

export const startBench = () => {
  document.addEventListener('change', (e) => {
    if (e.target instanceof HTMLInputElement && e.target.dataset.tick) void tick(e.target.dataset.tick, e.target.checked);
  });
  document.addEventListener('click', (e) => {
    const button = closest(e.target, 'button[data-tick]');
    if (button) {
      const done = button.dataset.done === 'true';
      if (done && button.dataset.next) goTo(button.dataset.next);
      void tick(button.dataset.tick ?? '', done).then(() => {
        const title = document.getElementById('on-bench-title')?.textContent ?? '';
        say(done ? `Done. Next: ${title}` : 'Not done after all.');
      });
    } else if (closest(e.target, '[data-print]')) {
      print();
    }
  });
};
