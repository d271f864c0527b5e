import type { CurrentRun } from './current-run.ts';
import type { HostDeps } from './deps.ts';
import type { Moments } from './moments.ts';
import { createWallClock } from './wall-clock.ts';

const PULSE_MS = 50;
const FLUSH_US = 500_000;
const BEAT_US = 500_000;

/** Starts what the engine does by itself, 20 times a second: ticks, moments, flushes, and its beat to the page. */
export function startPulse(
  deps: Pick<HostDeps, 'timers' | 'utcMs' | 'post'>,
  current: Pick<CurrentRun, 'notice' | 'advance' | 'flush'>,
  moments: Moments,
): void {
  const { timers } = deps;
  const wall = createWallClock(deps.utcMs, timers.nowUs);
  let flushedUs = 0;
  let beatUs = 0;

  function pulse(): void {
    const now = timers.nowUs();
    const seconds = wall.jumpS();
    if (seconds !== null) current.notice({ n: 'clock-jump', seconds });
    current.advance();
    moments.due();
    if (now - flushedUs >= FLUSH_US) {
      flushedUs = now;
      current.flush();
    }
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
