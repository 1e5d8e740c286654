// @ts-check
// The page of a panel: starts what each module does, and hands the few links on that need no new page.
import { goTo } from './address.js';
import { startBench } from './bench.js';
import { startCarrying } from './carryhands.js';
import { startCells } from './cells.js';
import { startChordForm } from './chord_form.js';
import { startChords } from './chords.js';
import { startCursor } from './cursor.js';
import { startDefine } from './define.js';
import { closest, words } from './dom.js';
import { startDrawing } from './drawing.js';
import { stepBack } from './edits.js';
import { readFacts } from './facts.js';
import { follow } from './follow.js';
import { startForms } from './forms.js';
import { startGestures } from './gestures.js';
import { startGhosts } from './ghosts.js';
import { startHand } from './hand.js';
import { startHeld } from './held.js';
import { startKeyboard, turnOver } from './keyboard.js';
import { startLight } from './light.js';
import { startModuleKeys } from './modulekeys.js';
import { startMethods } from './methods.js';
import { renew } from './renew.js';
import { startSelection, select } from './selection.js';
import { startSheets } from './sheets.js';
import { startShelf } from './shelf.js';
import { startWireKeys } from './wire_keys.js';
import { startWirePrices } from './wire_prices.js';
import { startWireTool } from './wire_tool.js';
import { startWireZoom } from './wire_zoom.js';

/** @param {MouseEvent} e */
const onLink = (e) => {
  if (e.ctrlKey || e.metaKey || e.shiftKey || e.button !== 0) return;
  const face = closest(e.target, 'a[data-face-link]');
  const link = closest(e.target, 'a[data-follow]');
  const pick = closest(e.target, 'a[data-select]');
  const step = closest(e.target, 'button[data-step]');
  if (face instanceof HTMLAnchorElement) {
    e.preventDefault();
    turnOver(new URL(face.href).searchParams.get('face') ?? 'front');
  } else if (link instanceof HTMLAnchorElement) {
    e.preventDefault();
    goTo(link.href);
    void renew();
  } else if (pick instanceof HTMLAnchorElement && (pick.pathname === location.pathname || pick.getAttribute('href')?.startsWith('?'))) {
    e.preventDefault();
    select(words(pick.dataset.select));
  } else if (step) {
    void stepBack(step.dataset.step === 'redo' ? 'redo' : 'undo');
  }
};

readFacts();
startHand();
startDrawing();
startCursor();
startSelection();
startHeld();
startGestures();
startKeyboard();
startLight();
startForms();
startShelf();
startGhosts();
startCells();
startChordForm();
startMethods();
startChords();
startBench();
startCarrying();
startModuleKeys();
startWireTool();
startWireKeys();
startWireZoom();
startWirePrices();
startDefine();
startSheets();
document.addEventListener('click', onLink);
follow();
document.body.dataset.ready = '';
