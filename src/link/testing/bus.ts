import type { RegisterChannel } from '../../job/reading-map.ts';
import { holds, withCrc } from '../modbus/crc16.ts';
import { charactersUs } from '../modbus/timing.ts';
import { type Port, PortError, type PortEvents } from '../ports/port.ts';
import type { Timers } from '../timers.ts';

/** Registers of a unit by function and number; what is not there is refused with exception 2. */
export type Unit = Map<string, number>;

export const registerOf = (fn: 3 | 4, register: number): string => `${fn}/${register}`;

/** Puts a float into two registers, the high word first. */
export function putFloat(unit: Unit, fn: 3 | 4, register: number, value: number): void {
  const view = new DataView(new ArrayBuffer(4));
  view.setFloat32(0, value);
  unit.set(registerOf(fn, register), view.getUint16(0));
  unit.set(registerOf(fn, register + 1), view.getUint16(2));
}

export interface BusSite {
  readonly port: Port;
  readonly units: Map<number, Unit>;
  /** Every request that came whole. */
  readonly asked: Uint8Array[];
  /** What becomes of an answer on its way; null: it is lost. */
  disturb: (answer: Uint8Array) => Uint8Array | null;
  /** Bytes of somebody else. */
  say(bytes: Uint8Array): void;
  pull(): void;
  replug(): void;
}

/** What a unit takes from a request's last character to its answer's first, us (common practice, no source). */
const UNIT_US = 3000;

/**
 * A bus with its units on the timers' clock: characters take their time both ways, and an answer comes when its last one has.
 * An independent slave in another language is tests/e2e/modbus-slave.py.
 */
export function createBusSite(timers: Timers, baud: number): BusSite {
  const units = new Map<number, Unit>();
  const asked: Uint8Array[] = [];
  let events: PortEvents | null = null;
  let waiting: PortEvents | null = null;
  let present = true;

  function answerTo(request: Uint8Array): Uint8Array | null {
    if (request.length !== 8 || !holds(request)) return null;
    const [address, fn, hi, lo, , count] = request as unknown as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    const unit = units.get(address);
    if (unit === undefined) return null;
    const words = Array.from({ length: count }, (_, i) =>
      unit.get(registerOf(fn as RegisterChannel['fn'], hi * 256 + lo + i)),
    );
    if (words.some((w) => w === undefined)) return withCrc([address, fn | 0x80, 2]);
    return withCrc([address, fn, 2 * count, ...words.flatMap((w) => [w! >>> 8, w! & 0xff])]);
  }

  const site: BusSite = {
    units,
    asked,
    disturb: (answer) => answer,
    say(bytes) {
      events?.bytes(bytes);
    },
    pull() {
      present = false;
      const to = events;
      events = null;
      waiting = to;
      to?.gone('NetworkError');
    },
    replug() {
      present = true;
      waiting?.arrived?.();
    },
    port: {
      identity: { kind: 'serial' },
      async open(to) {
        waiting = to;
        if (!present) throw new PortError('port-gone', 'unplugged');
        events = to;
      },
      async write(bytes) {
        const to = events;
        if (to === null) throw new PortError('write-failed', 'closed');
        asked.push(bytes);
        const sentUs = charactersUs({ baud }, bytes.length);
        timers.after((sentUs + UNIT_US) / 1000, () => {
          // The registers as they stand when the unit answers.
          const answer = answerTo(bytes);
          const comes = answer === null ? null : site.disturb(answer);
          if (comes === null) return;
          timers.after(charactersUs({ baud }, comes.length) / 1000, () => {
            if (events === to) to.bytes(comes);
          });
        });
      },
      async close() {
        events = null;
      },
    },
  };
  return site;
}
