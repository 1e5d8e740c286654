// Asks the emulator which GPIOs each PWM output drives: gives every pin to the PWM, turns one output
// fully on at a time and looks at the pins. Prints the number of GPIOs, then a line an output:
// slice, channel, GPIOs. Addresses: RP2040 data sheet 2.2, 2.19.6.1 and 4.5.3.
import { RP2040 } from 'rp2040js';

const IO_BANK0 = 0x40014000;
const PWM = 0x40050000;
const CSR = 0x00, CC = 0x0c, TOP = 0x10, STRIDE = 0x14;
const FUNCTION_PWM = 4;

console.log('gpios', new RP2040().gpio.length);
for (let slice = 0; slice < 8; slice++) {
  for (const channel of ['A', 'B']) {
    const chip = new RP2040();
    chip.gpio.forEach((_, n) => chip.writeUint32(IO_BANK0 + 8 * n + 4, FUNCTION_PWM));
    const at = PWM + STRIDE * slice;
    chip.writeUint32(at + TOP, 9);
    chip.writeUint32(at + CC, channel === 'A' ? 10 : 10 << 16);
    chip.writeUint32(at + CSR, 1);
    const driven = new Set();
    for (let step = 0; step < 50; step++) {
      chip.clock.tick(1000);
      chip.gpio.forEach((pin, n) => { if (pin.outputValue) driven.add(n); });
    }
    console.log([slice, channel, ...[...driven].sort((a, b) => a - b)].join(' '));
  }
}
