import type { JobBundle } from '../job/bundle.ts';
import { safeReaction } from '../job/reaction.ts';
import type { Setup } from '../job/setup.ts';
import type { Services } from './context.ts';

/** Air pressure nobody gave: sea level with the span of weather and of low mountains, bar absolute. */
const ASSUMED_AIR = { bar: 0.98, uBar: 0.06, source: 'assumed' } as const;

/** Nothing but the device's own suggestions: no limit, and said so all the time. */
export function gaugeOnlySetup(app: Services, number: number): Setup {
  return {
    number,
    practice: app.live.link()?.kind === 'rig',
    jobId: null,
    limits: null,
    tap: 'unknown',
    line: 'unknown',
    channels: [],
    air: ASSUMED_AIR,
    ground: null,
    volume: null,
    pipe: null,
    resin: null,
    reaction: safeReaction(app.settings().reaction),
    rateHz: 20,
  };
}

export function setupOf(app: Services, bundle: JobBundle | null, number: number): { readonly setup: Setup } {
  return { setup: { ...gaugeOnlySetup(app, number), jobId: bundle?.jobId ?? null } };
}
