import type { Timers } from '../timers.ts';
import { type Port, PortError, type PortEvents } from './port.ts';

export interface ReplayOptions {
  /** Bytes a chunk, at most; the last may be shorter. */
  readonly chunkBytes: number;
  /** Milliseconds between two chunks; 0 plays as fast as the timers allow. */
  readonly everyMs: number;
}

/**
 * Plays a capture: the bytes of a device, as they were recorded, in chunks. What the host writes is taken and
 * answered by nobody. At the end of the capture the port is gone; opening it again plays it from the start.
 */
export function createReplayPort(capture: Uint8Array, options: ReplayOptions, timers: Timers): Port {
  let events: PortEvents | null = null;
  let cancel = (): void => {};

  function play(at: number): void {
    cancel = timers.after(options.everyMs, () => {
      const to = events;
      if (to === null) return;
      if (at >= capture.length) {
        events = null;
        to.gone('end');
        return;
      }
      const next = Math.min(capture.length, at + options.chunkBytes);
      play(next);
      to.bytes(capture.slice(at, next));
    });
  }

  return {
    identity: { kind: 'replay' },
    async open(to) {
      if (events !== null) throw new PortError('port-busy', 'already open');
      events = to;
      play(0);
    },
    async write() {
      if (events === null) throw new PortError('write-failed', 'closed');
    },
    async close() {
      events = null;
      cancel();
    },
  };
}
