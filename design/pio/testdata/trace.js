// Runs programs on the RP2040 emulator of the npm package rp2040js, one machine of one block each, and
// prints a line for each instruction that ends. Run it where that package is installed, with the name of
// a file that holds a JSON list of tasks: machine, memory, registers (clkdiv, execctrl, shiftctrl,
// pinctrl), inputs ([cycle, levels] in order), deeds ([cycle, kind, value]), cycles, instructions.
//
// One step of that emulator is an instruction. Stalls it does not count: they are counted here, a cycle
// each, and inputs and what the processor does are brought in between cycles. Addresses: RP2040
// Datasheet 3.7.
import { readFileSync } from 'node:fs';
import { RP2040 } from 'rp2040js';

const CTRL = 0x000, MEMORY = 0x048, REGISTERS = 0x0c8, STRIDE = 0x18;
const OFFSETS = [0x00, 0x04, 0x08, 0x14];

const chip = new RP2040();
const pads = chip.gpio;
pads.forEach((pin) => { pin.padValue |= 0x40; }); // input enable, which the chip has on after reset

const setInputs = (levels) => pads.forEach((pin, n) => { pin.rawInputValue = (levels >>> n & 1) === 1; });

function begin(task) {
  const pio = chip.pio[0];
  pio.irq = 0;
  pio.pinValues = pio.pinDirections = 0;
  task.memory.forEach((word, at) => pio.writeUint32(MEMORY + 4 * at, word));
  task.registers.forEach((value, k) => pio.writeUint32(REGISTERS + STRIDE * task.machine + OFFSETS[k], value));
  pio.writeUint32(CTRL, 0xf0);
  const m = pio.machines[task.machine];
  m.pc = m.x = m.y = m.outputShiftReg = 0;
  m.rxFIFO.reset();
  m.txFIFO.reset();
  return [pio, m];
}

// deed is what the processor does; returns what it read.
function deed(pio, m, [, kind, value]) {
  switch (kind) {
    case 'put': if (!m.txFIFO.full) m.txFIFO.push(value); return [];
    case 'get': return m.rxFIFO.empty ? [] : [m.rxFIFO.pull()];
    case 'raise': pio.irq |= value; return [];
    case 'clear': pio.irq &= ~value; return [];
  }
}

// cycle runs an instruction, or one cycle of its stall; returns how many cycles passed.
function cycle(m) {
  if (m.waiting) {
    m.checkWait();
    return m.waiting ? 1 : 1 + m.waitDelay;
  }
  const before = m.cycles;
  m.step();
  return m.waiting ? 1 : m.cycles - before;
}

function run(task, number) {
  const [pio, m] = begin(task);
  const lines = [];
  const words = [];
  let clock = 0, input = 0, next = 0;
  const deedsBefore = (cycle) => {
    while (next < task.deeds.length && task.deeds[next][0] < cycle) words.push(...deed(pio, m, task.deeds[next++]));
  };
  while (clock < task.cycles && lines.length < task.instructions) {
    deedsBefore(clock + 1);
    while (input < task.inputs.length && task.inputs[input][0] <= clock) setInputs(task.inputs[input++][1]);
    clock += cycle(m);
    if (m.waiting) continue;
    deedsBefore(clock); // those of its delay
    lines.push([number, clock, m.pc, m.x >>> 0, m.y >>> 0, m.inputShiftReg >>> 0, m.outputShiftReg >>> 0,
      m.inputShiftCount, m.outputShiftCount, pio.pinValues >>> 0, pio.pinDirections >>> 0, pio.irq,
      m.txFIFO.itemCount, m.rxFIFO.itemCount, words.length ? words[words.length - 1] : 0].join(' '));
  }
  console.log(lines.join('\n'));
}

JSON.parse(readFileSync(process.argv[1], 'utf8')).forEach(run);
