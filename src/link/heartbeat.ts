import type { CommandQueue } from './queue.ts';
import type { Timers } from './timers.ts';

/** The device takes a host that it has not heard for a few seconds for gone. */
export const BEAT_MS = 1000;

/**
 * Tells the device once a second that the host lives. A turn in which another command is on its way says nothing:
 * that command says the same. The returned function ends it.
 * @param turned called at each turn; idle: no other command was on its way
 */
export function startHeartbeat(
  timers: Timers,
  queue: CommandQueue,
  turned: (idle: boolean) => void,
): () => void {
  let cancel = (): void => {};
  let ended = false;

  function turn(): void {
    cancel = timers.after(BEAT_MS, () => {
      const idle = queue.waiting === 0;
      // Sent once: the next one is a second away.
      if (idle) queue.ask({ verb: 'beat' }, { attempts: 1 }).catch(() => undefined);
      turned(idle);
      if (!ended) turn();
    });
  }

  turn();
  return () => {
    ended = true;
    cancel();
  };
}
