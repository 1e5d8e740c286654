// Prints instructions and their words as the npm package rp2040js encodes them, a tab between. Run it
// where that package is installed.
import { pathToFileURL } from 'node:url';

const at = pathToFileURL('node_modules/rp2040js/dist/esm/utils/pio-assembler.js');
const asm = await import(at);
const say = (text, word) => console.log(`${text}\t${word}`);
const all = (n) => Array.from({ length: n }, (_, i) => i);

const conditions = { '': asm.PIO_COND_ALWAYS, '!x': asm.PIO_COND_NOTX, 'x--': asm.PIO_COND_XDEC, '!y': asm.PIO_COND_NOTY,
  'y--': asm.PIO_COND_YDEC, 'x!=y': asm.PIO_COND_XNEY, 'pin': asm.PIO_COND_PIN, '!osre': asm.PIO_COND_NOTEMPTYOSR };
const sources = { pins: asm.PIO_SRC_PINS, x: asm.PIO_SRC_X, y: asm.PIO_SRC_Y, null: asm.PIO_SRC_NULL, isr: asm.PIO_SRC_ISR, osr: asm.PIO_SRC_OSR };
const destinations = { pins: asm.PIO_DEST_PINS, x: asm.PIO_DEST_X, y: asm.PIO_DEST_Y, null: asm.PIO_DEST_NULL,
  pindirs: asm.PIO_DEST_PINDIRS, pc: asm.PIO_DEST_PC, isr: asm.PIO_DEST_ISR, exec: asm.PIO_DEST_EXEC };
const targets = { pins: asm.PIO_MOV_DEST_PINS, x: asm.PIO_MOV_DEST_X, y: asm.PIO_MOV_DEST_Y, exec: asm.PIO_MOV_DEST_EXEC,
  pc: asm.PIO_MOV_DEST_PC, isr: asm.PIO_MOV_DEST_ISR, osr: asm.PIO_MOV_DEST_OSR };
const waits = { gpio: asm.PIO_WAIT_SRC_GPIO, pin: asm.PIO_WAIT_SRC_PIN, irq: asm.PIO_WAIT_SRC_IRQ };
const operations = { '': asm.PIO_OP_NONE, '~': asm.PIO_OP_INVERT, '::': asm.PIO_OP_BITREV };

for (const delay of [0, 1, 30, 31]) {
  const tail = delay ? ` [${delay}]` : '';
  for (const n of all(32)) {
    for (const [name, code] of Object.entries(conditions)) say(`jmp ${name} ${n}${tail}`, asm.pioJMP(code, n, delay));
    for (const [name, code] of Object.entries(sources)) say(`in ${name}, ${n + 1}${tail}`, asm.pioIN(code, n + 1, delay));
    for (const [name, code] of Object.entries(destinations)) say(`out ${name}, ${n + 1}${tail}`, asm.pioOUT(code, n + 1, delay));
    for (const name of ['pins', 'x', 'y', 'pindirs']) say(`set ${name}, ${n}${tail}`, asm.pioSET(destinations[name], n, delay));
    for (const [name, code] of Object.entries(waits)) {
      for (const high of [0, 1]) if (name !== 'irq' || n < 8) say(`wait ${high} ${name} ${n}${tail}`, asm.pioWAIT(high, code, n, delay));
    }
  }
  for (const [to, a] of Object.entries(targets)) {
    for (const [from, b] of Object.entries({ ...sources, status: 5 })) {
      for (const [sign, op] of Object.entries(operations)) say(`mov ${to}, ${sign}${from}${tail}`, asm.pioMOV(a, op, b, delay));
    }
  }
  for (const n of all(8)) {
    say(`irq ${n}${tail}`, asm.pioIRQ(false, false, n, delay));
    say(`irq wait ${n} rel${tail}`, asm.pioIRQ(false, true, n + 16, delay));
    say(`irq clear ${n}${tail}`, asm.pioIRQ(true, false, n, delay));
  }
  // The second argument of these two is bit 5, the one that makes them block.
  for (const block of [0, 1]) {
    for (const only of [0, 1]) {
      const how = block ? 'block' : 'noblock';
      say(`push ${only ? 'iffull ' : ''}${how}${tail}`, asm.pioPUSH(only, block, delay));
      say(`pull ${only ? 'ifempty ' : ''}${how}${tail}`, asm.pioPULL(only, block, delay));
    }
  }
}
