// @ts-check
// Asks the server how a wire would run that is being drawn. One question is under way at a time; of those
// that come meanwhile only the last is asked.
import { facts } from './facts.js';
import { parseHole } from './holes.js';
/** @import { Hole } from './units.js' */
/** @import { Wire } from './wire_route.js' */

/** @typedef {{ can: boolean, says: string, path: Hole[] }} Trial */

/** @type {{ wire: Wire, tell: (t: Trial) => void } | null} */
let next = null;
let busy = false;

/** @param {Wire} wire @returns {Promise<Trial>} */
const ask = async (wire) => {
  const q = new URLSearchParams({ from: wire.from, to: wire.to, kind: wire.kind, face: wire.face, ...(wire.path ? { path: wire.path.join(',') } : {}) });
  const answer = await fetch(`/panels/${facts().panel}/wire-trial?${q}`, { headers: { Accept: 'application/json' } });
  const said = await answer.json();
  if (!answer.ok) return { can: false, says: said.error, path: [] };
  return { can: said.can, says: said.says, path: said.path.flatMap((/** @type {string} */ name) => parseHole(name) ?? []) };
};

const run = async () => {
  busy = true;
  while (next) {
    const { wire, tell } = next;
    next = null;
    try {
      tell(await ask(wire));
    } catch { /* the server is away; the wire can be drawn still */ }
  }
  busy = false;
};

/** @type {(wire: Wire, tell: (t: Trial) => void) => void} */
export const tryWire = (wire, tell) => {
  next = { wire, tell };
  if (!busy) void run();
};

/** Forgets what was to be asked. */
export const forgetTrial = () => { next = null; };
