import type { CommandQueue } from './queue.ts';
import type { Timers } from './timers.ts';

/** The device takes a host that it has not heard for a few seconds for gone. */
export const BEAT_MS = 1000;

/**
 * Tells the device once a second that the host lives. A turn in which another command is on its way says nothing:
 * that command says the same. The returned function ends it.
 * @param beaten called after each beat was sent
 */
export function startHeartbeat(timers: Timers, queue: CommandQueue, beaten: () => void): () => void {
  let cancel = (): void => {};
  let ended = false;

  function turn(): void {
    cancel = timers.after(BEAT_MS, () => {
      if (queue.waiting === 0) {
        // Sent once: the next one is a second away.
        queue.ask({ verb: 'beat' }, { attempts: 1 }).catch(() => undefined);
        beaten();
      }
      if (!ended) turn();
    });
  }

  turn();
  return () => {
    ended = true;
    cancel();
  };
}
