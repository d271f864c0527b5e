import { Simulator } from 'rp2040js';
import type { Board } from '../build.mjs';
import { type Machine, PAINT, painted } from './machine.ts';

const HZ = 12e6;
const NS_PER_CYCLE = 1e9 / HZ;
/** Where the image lies in flash, behind the chip's second stage (cm0/memory.ld). */
const IMAGE = 0x100;
const FLASH = 0x10000000;
const RAM = 0x20000000;
const WATCHDOG = 0x40058;
const SOUNDER = 2;
const BEACON = 3;
const BUTTON = 4;
/** Divider before the converter, and its reference. */
const DIVIDER = 0.6;
const REFERENCE = 3.3;
/** One byte at 500 000 baud. */
const BYTE_NS = 20_000;
/** `b .`, a jump to itself. */
const STAY = 0xe7fe;

/** The Cortex-M0+ of boards/cm0 on rp2040js. Its serial line takes bytes as fast as they come. */
export function createCm0(board: Board): Machine {
  const counts = [0.5, 5, 0.7].map(countsOf);
  let out: number[] = [];
  let waiting: number[] = [];
  let pressed = false;
  let starts = 0;
  let busyCycles = 0;
  let beforeNs = 0;
  let sounderUs = 0;
  let watchdog = false;
  let nextByteNs = 0;
  let chip = new Simulator();

  const nowUs = (): number => (beforeNs + chip.clock.nanos) / 1000;

  function start(cause: 'power' | 'pin' | 'watchdog'): void {
    const { sram } = chip.rp2040;
    if (starts > 0) beforeNs += chip.clock.nanos;
    starts++;
    chip = new Simulator();
    const { rp2040 } = chip;
    rp2040.flash.set(board.image, IMAGE);
    rp2040.sram.set(sram);
    if (cause === 'power') rp2040.sram.fill(PAINT);
    const vectors = new DataView(board.image.buffer);
    rp2040.core.SP = vectors.getUint32(0, true);
    rp2040.core.VTOR = FLASH + IMAGE;
    rp2040.core.PC = vectors.getUint32(4, true) & ~1;
    Object.assign(rp2040.peripherals[WATCHDOG] as object, {
      reason: cause === 'watchdog' ? 1 : 0,
      onWatchdogTrigger() {
        watchdog = true;
        // Else the simulated one goes off again and again in the same moment.
        rp2040.writeUint32(WATCHDOG << 12, 0);
      },
    });
    const [uart] = rp2040.uart;
    if (uart) uart.onByte = (byte) => out.push(byte);
    counts.forEach((value, input) => {
      rp2040.adc.channelValues[input] = value;
    });
    rp2040.gpio[SOUNDER]?.addListener(() => {
      sounderUs = nowUs();
    });
    rp2040.gpio[BUTTON]?.setInputValue(!pressed);
    watchdog = false;
    nextByteNs = 0;
  }

  function feed(): void {
    if (waiting.length === 0 || chip.clock.nanos < nextByteNs) return;
    chip.rp2040.uart[0]?.feedByte(waiting.shift() as number);
    nextByteNs = chip.clock.nanos + BYTE_NS;
  }

  /** An instruction, or the time to the next alarm where it sleeps, but not past that moment. */
  function turn(untilNs: number): void {
    const { clock, rp2040 } = chip;
    if (rp2040.core.waiting) {
      clock.tick(Math.max(1, Math.min(clock.nanosToNextAlarm || 1000, untilNs - clock.nanos)));
    } else {
      const cycles = rp2040.core.executeInstruction();
      busyCycles += cycles;
      clock.tick(cycles * NS_PER_CYCLE);
    }
  }

  function step(untilNs: number): void {
    while (chip.clock.nanos < untilNs && !watchdog) turn(untilNs);
    if (watchdog) start('watchdog');
  }

  start('power');
  const isHigh = (pin: number): boolean => chip.rp2040.gpio[pin]?.outputValue === true;
  return {
    get us() {
      return nowUs();
    },
    get busyCycles() {
      return busyCycles;
    },
    get stackBytes() {
      return painted(chip.rp2040.sram, board.ramBytes);
    },
    get sounder() {
      return isHigh(SOUNDER);
    },
    get beacon() {
      return isHigh(BEACON);
    },
    get sounderUs() {
      return sounderUs;
    },
    get starts() {
      return starts;
    },
    taken() {
      const bytes = Uint8Array.from(out);
      out = [];
      return bytes;
    },
    say(bytes) {
      waiting.push(...bytes);
    },
    volts(input, volts) {
      counts[input] = countsOf(volts);
      chip.rp2040.adc.channelValues[input] = counts[input];
    },
    button(held) {
      pressed = held;
      chip.rp2040.gpio[BUTTON]?.setInputValue(!held);
    },
    run(us) {
      const endNs = nowUs() * 1000 + us * 1000;
      while (nowUs() * 1000 < endNs - 1) {
        feed();
        step(Math.min(chip.clock.nanos + BYTE_NS / 2, endNs - beforeNs));
      }
    },
    reset(cause) {
      waiting = [];
      start(cause);
    },
    hang() {
      const { flash16, core } = chip.rp2040;
      // Not in the middle of an interrupt, where no other one would come.
      while (!core.waiting) turn(chip.clock.nanos + 1000);
      core.PC = FLASH + 2 * flash16.indexOf(STAY);
      core.waiting = false;
    },
    poke(symbol, offset, value) {
      chip.rp2040.sramView.setUint32(board.addressOf(symbol) - RAM + offset, value, true);
    },
  };
}

const countsOf = (volts: number): number =>
  Math.max(0, Math.min(4095, Math.floor(((volts * DIVIDER) / REFERENCE) * 4096)));
