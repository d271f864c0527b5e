import type { Timers } from '../link/timers.ts';
import { viewOf } from '../watch/step.ts';
import type { CurrentRun } from './current-run.ts';
import type { Feed } from './feed.ts';
import type { EngineNews } from './messages.ts';

/** Shows the page the moment, at most 30 times a second, soon after something changed. */
export interface Moments {
  stirred(): void;
  /** Called on a timer too, so that ages and countdowns move while nothing comes. */
  due(): void;
}

/** Just over a 30th of a second. */
const LEAST_US = 33_400;
/** Without news the picture is still renewed this often: ages and countdowns move. */
const IDLE_US = 100_000;

export function createMoments(timers: Timers, show: () => void): Moments {
  let lastUs = Number.NEGATIVE_INFINITY;
  let fresh = false;
  let armed = false;

  function due(): void {
    const now = timers.nowUs();
    const since = now - lastUs;
    if (since < LEAST_US || !(fresh || since >= IDLE_US)) return;
    lastUs = now;
    fresh = false;
    show();
  }

  return {
    due,
    stirred() {
      fresh = true;
      if (armed) return;
      const wait = LEAST_US - (timers.nowUs() - lastUs);
      armed = true;
      // Never at once: a burst of frames of one chunk makes one picture.
      timers.after(Math.max(0, wait / 1000), () => {
        armed = false;
        due();
      });
    },
  };
}

/** The moment as it stands; the readings in it are given once. */
export function momentOf(current: CurrentRun, feed: Feed, speed: number): EngineNews {
  const { run, watched, record } = current.live;
  return {
    m: 'moment',
    view: viewOf(run.watch, current.nowUs()),
    link: feed.link(),
    run: record?.view() ?? null,
    rig: feed.rig?.view(speed) ?? null,
    fresh: watched.trace.drain(),
  };
}
