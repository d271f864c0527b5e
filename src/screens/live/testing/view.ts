import type { WatchView } from '../../../watch/view.ts';

/** What a screen is shown of a hold at zero without limits or alarms, but for what a test says. */
export const viewWith = (part: Partial<WatchView>): WatchView =>
  ({
    stage: 'hold',
    bar: 0,
    overBar: null,
    stale: false,
    uBar: 0.02,
    limits: null,
    alarms: [],
    standing: [],
    cure: null,
    ...part,
  }) as unknown as WatchView;
