import {
  ADCReference,
  AVRADC,
  AVRClock,
  AVREEPROM,
  AVRIOPort,
  AVRTimer,
  AVRUSART,
  AVRWatchdog,
  adcConfig,
  avrInstruction,
  CPU,
  clockConfig,
  type EEPROMBackend,
  portBConfig,
  portDConfig,
  timer1Config,
  usart0Config,
  watchdogConfig,
} from 'avr8js';
import type { Board } from '../build.mjs';
import { type Machine, PAINT, painted } from './machine.ts';

const HZ = 16e6;
const CYCLES_PER_US = HZ / 1e6;
const RAM = 2048;
/** Where memory begins behind the registers. */
const RAM_AT = 0x100;
const SLEEP = 0x9588;
/** A jump to itself, which every program of avr-libc ends with. */
const STAY = 0xcfff;
const MCUSR = 0x54;
const UCSR0A = 0xc0;
const UCSR0B = 0xc1;
/** Bit of UCSR0A: a byte came and was not taken. */
const CAME = 0x80;
const CAUSE = { power: 0x04, pin: 0x02, watchdog: 0x08 };
/** Divider before the converter. */
const DIVIDER = 0.75;

class Store implements EEPROMBackend {
  readonly memory = new Uint8Array(1024).fill(0xff);
  left: number | null = null;
  cut = false;
  readMemory(address: number): number {
    return this.memory[address] as number;
  }
  eraseMemory(address: number): void {
    if (this.cut) return;
    this.memory[address] = 0xff;
    if (this.left !== null && --this.left === 0) this.cut = true;
  }
  writeMemory(address: number, value: number): void {
    if (this.cut) return;
    this.memory[address] = (this.memory[address] as number) & value;
  }
}

/**
 * Two things that the simulated line does and the chip does not: the flag 'data register empty' goes when its interrupt begins
 * (on the chip only with a byte), and a byte that came is forgotten when the control register is written.
 */
function asOnTheChip(cpu: CPU, uart: AVRUSART): void {
  Object.assign(Reflect.get(uart, 'UDRE'), { constant: true });
  const written = cpu.writeHooks[UCSR0B];
  cpu.writeHooks[UCSR0B] = (value, ...rest) => {
    const came = ((cpu.data[UCSR0A] as number) & CAME) !== 0;
    const done = written?.(value, ...rest);
    if (came && uart.rxEnable) cpu.setInterruptFlag(Reflect.get(uart, 'RXC'));
    return done;
  };
}

/** The AVR of boards/avr on avr8js. */
export function createAvr(board: Board): Machine {
  const flash = new Uint16Array(0x4000).fill(0xffff);
  new Uint8Array(flash.buffer).set(board.image);
  const store = new Store();
  const sensors = [0.5, 5, 0.7];
  let out: number[] = [];
  let waiting: number[] = [];
  let pressed = false;
  let asleep = false;
  let watchdog = false;
  let starts = 0;
  let busyCycles = 0;
  /** Cycles of the processors before this start. */
  let before = 0;
  let pins = 0;
  let sounderUs = 0;
  let ram: Uint8Array | null = null;
  let cpu = new CPU(flash, RAM);
  let uart = new AVRUSART(cpu, usart0Config, HZ);

  const nowUs = (): number => (before + cpu.cycles) / CYCLES_PER_US;

  function start(cause: keyof typeof CAUSE): void {
    before += starts > 0 ? cpu.cycles : 0;
    starts++;
    cpu = new CPU(flash, RAM);
    if (ram === null) cpu.data.fill(PAINT, RAM_AT);
    else cpu.data.set(ram, RAM_AT);
    const self = cpu;
    // The library's own reset leaves its parts as they were.
    self.reset = () => {
      watchdog = true;
    };
    cpu.data[MCUSR] = CAUSE[cause];
    new AVRTimer(cpu, timer1Config);
    new AVRWatchdog(cpu, watchdogConfig, new AVRClock(cpu, HZ, clockConfig));
    new AVREEPROM(cpu, store);
    uart = new AVRUSART(cpu, usart0Config, HZ);
    asOnTheChip(cpu, uart);
    uart.onByteTransmit = (byte) => out.push(byte);
    const adc = new AVRADC(cpu, adcConfig);
    adc.onADCRead = (input) => {
      const volts = 'channel' in input ? (sensors[input.channel] as number) * DIVIDER : 0;
      const reference = adc.referenceVoltageType === ADCReference.AREF ? 4.096 : 5;
      const counts = Math.max(0, Math.min(1023, Math.floor((volts / reference) * 1024)));
      self.addClockEvent(() => adc.completeADCRead(counts), adc.sampleCycles);
    };
    const portB = new AVRIOPort(cpu, portBConfig);
    pins = 0;
    portB.addListener((value) => {
      if ((value ^ pins) & 1) sounderUs = nowUs();
      pins = value;
    });
    new AVRIOPort(cpu, portDConfig).setPin(2, !pressed);
    asleep = false;
    watchdog = false;
  }

  function feed(): void {
    if (waiting.length > 0 && uart.rxEnable && !uart.rxBusy && !((cpu.data[UCSR0A] as number) & CAME))
      uart.writeByte(waiting.shift() as number);
  }

  function again(cause: keyof typeof CAUSE): void {
    ram = cpu.data.slice(RAM_AT);
    store.cut = false;
    store.left = null;
    waiting = [];
    start(cause);
  }

  /** An instruction, or the time to the next event of the parts where it sleeps, but not past that cycle. */
  function turn(until: number): void {
    if (asleep) {
      const { pc } = cpu;
      const event = Reflect.get(cpu, 'nextClockEvent') as { cycles: number } | null;
      cpu.cycles = Math.max(cpu.cycles + 1, Math.min(event?.cycles ?? until, until));
      cpu.tick();
      if (cpu.pc !== pc) asleep = false;
    } else if (flash[cpu.pc] === SLEEP) {
      cpu.pc++;
      cpu.cycles++;
      asleep = true;
    } else {
      const from = cpu.cycles;
      avrInstruction(cpu);
      busyCycles += cpu.cycles - from;
      cpu.tick();
    }
  }

  /** Until that cycle of this processor; earlier where it starts anew. */
  function step(until: number): void {
    while (cpu.cycles < until && !watchdog && !store.cut) turn(until);
    if (watchdog) again('watchdog');
    else if (store.cut) again('power');
  }

  start('power');
  return {
    get us() {
      return nowUs();
    },
    get busyCycles() {
      return busyCycles;
    },
    get stackBytes() {
      return painted(cpu.data, RAM_AT + board.ramBytes);
    },
    get sounder() {
      return (pins & 1) !== 0;
    },
    get beacon() {
      return (pins & 2) !== 0;
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
      sensors[input] = volts;
    },
    button(held) {
      pressed = held;
      for (const port of cpu.gpioPorts) if (port.portConfig === portDConfig) port.setPin(2, !held);
    },
    run(us) {
      // Whole cycles: a fraction that rounds away would be a step without an end.
      const end = before + cpu.cycles + Math.round(us * CYCLES_PER_US);
      while (before + cpu.cycles < end) {
        feed();
        step(Math.min(cpu.cycles + 10 * CYCLES_PER_US, end - before));
      }
    },
    reset(cause) {
      again(cause);
      if (cause === 'power') cpu.data.fill(PAINT, RAM_AT);
    },
    cutAt(write) {
      store.left = write;
    },
    hang() {
      // Not in the middle of an interrupt, where no other one would come.
      while (!asleep) turn(cpu.cycles + CYCLES_PER_US);
      cpu.pc = flash.indexOf(STAY);
      asleep = false;
    },
    poke(symbol, offset, value) {
      cpu.dataView.setUint32(board.addressOf(symbol) + offset, value, true);
    },
  };
}
