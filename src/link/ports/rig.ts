import type { Timers } from '../timers.ts';
import { type Port, PortError, type PortEvents } from './port.ts';

/** The far end of the line: the simulated device, which speaks the protocol in bytes and lives by this clock. */
export interface RigWire {
  /** False while its plug is out. */
  readonly plugged: boolean;
  /** Lets its time pass up to so many seconds since it was switched on. */
  advance(toS: number): void;
  /** The bytes that it sent since the last call. */
  take(): Uint8Array;
  receive(bytes: Uint8Array): void;
}

/** Bytes come in bunches as from a USB bridge, not one by one. */
const BUNCH_MS = 10;

/**
 * The port whose other end is a simulated device. Its time is the timers' time from the first opening on, whether
 * the port is open or not: a packer does not wait while a cable is out.
 */
export function createRigPort(wire: RigWire, timers: Timers): Port {
  let events: PortEvents | null = null;
  /** Told of a device that comes back: the events of the opening that lost it. */
  let waiting: PortEvents | null = null;
  let startUs: number | null = null;
  let cancel = (): void => {};

  function passTime(): void {
    startUs ??= timers.nowUs();
    wire.advance((timers.nowUs() - startUs) / 1e6);
  }

  function pump(): void {
    cancel();
    cancel = timers.after(BUNCH_MS, () => {
      // First, so that a throwing reader cannot stop the line.
      pump();
      turn();
    });
  }

  function turn(): void {
    passTime();
    const bytes = wire.take();
    if (!wire.plugged) {
      const to = events;
      if (to === null) return;
      events = null;
      waiting = to;
      to.gone('unplugged');
      return;
    }
    if (waiting !== null) {
      const to = waiting;
      waiting = null;
      to.arrived?.();
    }
    if (bytes.length > 0) events?.bytes(bytes);
  }

  return {
    identity: { kind: 'rig' },
    async open(to) {
      if (events !== null) throw new PortError('port-busy', 'already open');
      passTime();
      // What it sent to a closed port is lost, as on a real line.
      wire.take();
      pump();
      if (!wire.plugged) {
        waiting = to;
        throw new PortError('port-gone', 'unplugged');
      }
      waiting = null;
      events = to;
    },
    async write(bytes) {
      if (events === null) throw new PortError('write-failed', 'closed');
      passTime();
      wire.receive(bytes);
    },
    async close() {
      events = null;
      waiting = null;
      cancel();
    },
  };
}
