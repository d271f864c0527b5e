/** A board in a simulator, on a clock that passes as it is told. */
export interface Machine {
  /** Simulated time since it was made, µs. */
  readonly us: number;
  /** Clock cycles that were not slept through. */
  readonly busyCycles: number;
  /** Deepest stack so far, bytes. */
  readonly stackBytes: number;
  readonly sounder: boolean;
  readonly beacon: boolean;
  /** When the sounder last came on or went off, µs; 0: not yet. */
  readonly sounderUs: number;
  /** What the board sent since the last call. */
  taken(): Uint8Array;
  /** Bytes for the board, at the pace of the line. */
  say(bytes: Uint8Array): void;
  /** Volts of an input as the sensor gives them, before the board's divider. */
  volts(input: number, volts: number): void;
  button(held: boolean): void;
  run(us: number): void;
  /** From the outside, or by a supply that fell away: memory without a power of its own is as it was or is random. */
  reset(cause: 'pin' | 'power'): void;
  /** Where the board has a store of its own: the supply falls away in the middle of that write to it, counted from now on. */
  cutAt?(write: number): void;
  /** The main loop goes no further; interrupts do. */
  hang(): void;
  /** Starts so far. */
  readonly starts: number;
  /** Puts a number of 32 bits into memory at a symbol of the program plus so many bytes. */
  poke(symbol: string, offset: number, value: number): void;
}

/** What memory holds after it was without power. */
export const PAINT = 0xc5;

/** Bytes at the end of a memory that were ever written, from that place on: the stack's depth. */
export function painted(memory: Uint8Array, from: number): number {
  let at = from;
  while (at < memory.length && memory[at] === PAINT) at++;
  return memory.length - at;
}

/** A sensor of 0.5-4.5 V of 5 V for 0-6 bar, at this supply. */
export const pressureVolts = (bar: number, supply = 5): number => (0.1 + (0.8 * bar) / 6) * supply;
/** 10 mV a degree from 0.5 V. */
export const temperatureVolts = (celsius: number): number => 0.5 + celsius / 100;
