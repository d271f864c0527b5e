import { viewOf } from '../watch/step.ts';
import type { HostDeps } from './deps.ts';
import type { Feed } from './feed.ts';
import type { RunView } from './messages.ts';
import type { LiveTrace } from './trace.ts';

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

export function createMoments(
  deps: HostDeps,
  feed: () => Feed,
  trace: () => LiveTrace,
  run: () => RunView | null,
): Moments {
  let lastUs = Number.NEGATIVE_INFINITY;
  let fresh = false;
  let armed = false;

  function post(nowUs: number): void {
    lastUs = nowUs;
    fresh = false;
    const f = feed();
    deps.post({
      m: 'moment',
      view: viewOf(f.live.run.watch, f.nowUs()),
      link: f.link(),
      run: run(),
      rig: f.rig?.view(f.timers.speed) ?? null,
      fresh: trace().drain(),
    });
  }

  function due(): void {
    const now = deps.timers.nowUs();
    const since = now - lastUs;
    if (since >= LEAST_US && (fresh || since >= IDLE_US)) post(now);
  }

  return {
    due,
    stirred() {
      fresh = true;
      if (armed) return;
      const wait = LEAST_US - (deps.timers.nowUs() - lastUs);
      armed = true;
      // Never at once: a burst of frames of one chunk makes one picture.
      deps.timers.after(Math.max(0, wait / 1000), () => {
        armed = false;
        due();
      });
    },
  };
}
