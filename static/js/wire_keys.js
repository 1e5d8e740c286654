// @ts-check
// Wires by hand without a pointer: keys of the board that take the tools, begin, bend and end a wire.
import { cursor } from './cursor.js';
import { byId } from './dom.js';
import { facts } from './facts.js';
import { aimWire, beginWire, pressWire, takeBack, takeTool, wireTool } from './wire_tool.js';

/** @param {KeyboardEvent} e */
const key = (e) => {
  if (e.target !== byId('board') || e.ctrlKey || e.metaKey || e.altKey || e.isComposing) return;
  const act = deeds(e.key);
  if (!act) return;
  e.preventDefault();
  e.stopPropagation();
  act();
};

/** @param {string} name @returns {(() => void) | undefined} what a key does on the board */
const deeds = (name) => {
  if (name === 'w' || name === 'W') return () => takeTool(wireTool() === 'draw' ? '' : 'draw');
  if (name === 'k' || name === 'K') return () => takeTool(wireTool() === 'clear' ? '' : 'clear');
  if (!wireTool()) return undefined;
  if (name === 'Enter' || name === ' ') {
    return () => {
      const fresh = wireTool() === 'draw' && beginWire(cursor(), null);
      pressWire(cursor(), false, fresh);
    };
  }
  if (name === 'Backspace') return () => { takeBack(); };
  if (name === 'Escape') return () => { if (!takeBack()) takeTool(''); };
  return undefined;
};

export const startWireKeys = () => {
  if (facts().room !== 'wire') return;
  document.addEventListener('keydown', key, true);
  document.addEventListener('keydown', (e) => {
    // The board's own keys have moved the cursor by now.
    if (wireTool() === 'draw' && e.target === byId('board') && /^(Arrow|Home|End|Page)/.test(e.key)) aimWire(cursor(), null);
  });
};
