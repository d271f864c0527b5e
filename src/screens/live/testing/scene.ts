import { LIMITS } from '../../../job/testing/givens.ts';
import type { AlarmView, WatchView } from '../../../watch/view.ts';
import { NO_CHECKS } from '../checks-open.ts';
import { NO_CUE } from '../cue-count.ts';
import { BLANK_VIEW, type Scene } from '../scene.ts';

/** A running job at rest, but for what a test says. */
export function sceneOf(view: Partial<WatchView> = {}, more: Partial<Omit<Scene, 'view'>> = {}): Scene {
  return {
    step: 'running',
    trust: 'good',
    events: [],
    setup: null,
    cue: NO_CUE,
    pauseLeftS: null,
    leftOpen: false,
    leftFull: false,
    resumes: false,
    soundTested: true,
    checks: NO_CHECKS,
    ...more,
    view: { ...BLANK_VIEW, tUs: 100e6, firstUs: 0, bar: 0, uBar: 0.02, ageS: 0.02, limits: LIMITS, ...view },
  };
}

export const guard = (part: Partial<WatchView['guard']>): WatchView['guard'] => ({
  ...BLANK_VIEW.guard,
  ...part,
});

export const at = (value: number) => ({ value, low: value * 0.9, high: value * 1.1 });

export const alarm = (part: Partial<AlarmView>): AlarmView => ({
  alarm: 'ceiling',
  priority: 'urgent',
  state: 'unacknowledged',
  occurrence: 1,
  sinceUs: 90e6,
  begunUs: part.sinceUs ?? 90e6,
  shelvable: true,
  values: {},
  ...part,
});

/** A cure that is on its way: 2 h 10 to its end at the latest. */
export const CURE: NonNullable<WatchView['cure']> = {
  sinceS: 10,
  progress: 0.4,
  low: 0.36,
  high: 0.42,
  equivalentAgeMin: 30,
  coldest: at(9),
  source: 'sleeve',
  metInS: { value: 6600, low: 6000, high: 7800 },
  metAtS: null,
  exotherm: null,
};
