import { createRow } from './blocks.ts';
import { createClean } from './clean.ts';
import { createKnee } from './knee.ts';
import type { GuardState } from './types.ts';

/** A guard that has seen nothing yet. */
export function createGuard(): GuardState {
  return {
    v: 1,
    clean: createClean(),
    short: createRow(),
    long: createRow(),
    longSecond: 0.004,
    from: 0,
    surprises: 0,
    surpriseSign: 0,
    lastS: null,
    lastBar: 0,
    stepBar: 0,
    uBar: 0,
    motion: null,
    before: [],
    belief: null,
    recent: null,
    forecasts: [],
    rested: null,
    slowSince: null,
    overSince: null,
    agreeSettle: 0,
    agreeBand: 0,
    rising: null,
    stillSince: null,
    inflow: null,
    fastest: 0,
    slowFromS: null,
    slowFromBar: 0,
    stops: [],
    cue: null,
    tooFast: null,
    fastSince: null,
    knee: null,
    kneeState: createKnee(),
  };
}
