import type { CurrentRun } from './current-run.ts';
import type { HostDeps } from './deps.ts';
import type { Moments } from './moments.ts';

const PULSE_MS = 50;
const FLUSH_US = 500_000;
const BEAT_US = 500_000;

/**
 * Starts what the engine does by itself, 20 times a second: ticks, moments, flushes, and its beat to the page.
 * @param lookAtClock tells the run of a wall clock that jumped
 */
export function startPulse(
  deps: Pick<HostDeps, 'timers' | 'utcMs' | 'post'>,
  current: Pick<CurrentRun, 'advance' | 'flush'>,
  moments: Moments,
  lookAtClock: () => void,
): void {
  const { timers } = deps;
  let flushedUs = 0;
  let beatUs = 0;

  function pulse(): void {
    const now = timers.nowUs();
    // What is recorded goes to the disk whatever becomes of the judging and the picture.
    if (now - flushedUs >= FLUSH_US) {
      flushedUs = now;
      current.flush();
    }
    lookAtClock();
    current.advance();
    moments.due();
    // Last: the page hears no beat of an engine that judges or shows nothing.
    if (now - beatUs >= BEAT_US) {
      beatUs = now;
      deps.post({ m: 'beat', utcMs: deps.utcMs() });
    }
  }

  function loop(): void {
    timers.after(PULSE_MS, () => {
      // Armed first: a fault in one pulse must not end the ticks.
      loop();
      pulse();
    });
  }

  loop();
}
