import { type DeviceFrame, MAX_LINE, type StrayReason } from './frames.ts';

/** One line as it came, in order: a frame, or bytes that were refused with their reason. */
export type HeardLine = {
  /** Counts up over all connections. */
  readonly n: number;
  /** Arrival on the timers' clock, µs. */
  readonly tUs: number;
} & (
  | { readonly frame: DeviceFrame }
  | {
      readonly stray: StrayReason;
      readonly bytes: Uint8Array;
      /** The speed at which it came, bits a second; null: the port has none. */
      readonly baudRate: number | null;
    }
);

export interface HeardLines {
  /** Counts up with each connection that is begun: what came before belongs to another one. */
  readonly connection: number;
  readonly lines: readonly HeardLine[];
  /** What to ask for next. */
  readonly next: number;
  /** Lines that came and are no longer kept. */
  readonly missed: number;
}

/** The newest lines of the present connection, also those of a search that found no device. */
export interface LineLog {
  /** A connection is begun: the lines of the one before are forgotten. */
  begin(): void;
  frame(frame: DeviceFrame, tUs: number): void;
  stray(reason: StrayReason, bytes: Uint8Array, tUs: number, baudRate: number | null): void;
  /** Lines from number `from` on. */
  since(from: number): HeardLines;
}

/** Four seconds of the fastest device (common practice, no source): who looks thrice a second misses none. */
export const MOST_LINES = 4096;

export function createLineLog(most = MOST_LINES): LineLog {
  // A ring: at a thousand lines a second nothing is moved.
  const ring: (HeardLine | undefined)[] = new Array<undefined>(most).fill(undefined);
  let connection = 0;
  let first = 0;
  let next = 0;

  function add(line: HeardLine): void {
    ring[line.n % most] = line;
    next = line.n + 1;
    first = Math.max(first, next - most);
  }

  return {
    begin() {
      connection++;
      first = next;
      ring.fill(undefined);
    },
    frame: (frame, tUs) => add({ n: next, tUs, frame }),
    stray: (stray, bytes, tUs, baudRate) =>
      add({ n: next, tUs, stray, bytes: bytes.slice(0, MAX_LINE), baudRate }),
    since(from) {
      const at = Math.max(first, Math.min(from, next));
      const lines: HeardLine[] = [];
      for (let n = at; n < next; n++) lines.push(ring[n % most]!);
      return { connection, lines, next, missed: at - Math.min(from, at) };
    },
  };
}
