// @ts-check
// Follows the panel: other pages' edits and ticks arrive as events. The stream is closed while the
// page is hidden, since a browser keeps only six open.
import { facts } from './facts.js';
import { isOurs } from './remote.js';
import { renew } from './renew.js';
import { warn } from './say.js';

/** @type {EventSource | null} */
let stream = null;
let wait = 1000;

const open = () => {
  if (stream || document.hidden) return;
  stream = new EventSource(`/panels/${facts().panel}/events?after=${facts().rev}`);
  stream.addEventListener('open', () => { wait = 1000; });
  stream.addEventListener('rev', (e) => {
    const said = JSON.parse(e.data);
    if (!isOurs(said.by ?? '') && said.rev !== facts().rev) void renew();
  });
  stream.addEventListener('tick', () => { void renew(); });
  stream.addEventListener('gone', () => warn('This panel was deleted on another page. The start page can bring it back.'));
  stream.addEventListener('error', () => {
    if (stream?.readyState !== EventSource.CLOSED) return; // the browser tries again by itself
    close();
    setTimeout(open, wait);
    wait = Math.min(wait * 2, 30000);
  });
};

const close = () => {
  stream?.close();
  stream = null;
};

export const follow = () => {
  open();
  document.addEventListener('visibilitychange', () => {
    if (document.hidden) {
      close();
      return;
    }
    open();
  });
  addEventListener('pagehide', close);
  addEventListener('pageshow', open);
};
