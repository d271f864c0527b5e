import { median } from '../estimate/robust.ts';
import { type FindingOf, found } from './findings.ts';
import { WARM_BEFORE_S, WARM_HELD_S, WARM_K } from './limits.ts';

/** A probe that is taken in the hand: does it rise? */
export interface WarmTry {
  readonly channel: number;
  /** Readings of the last seconds, oldest first. */
  recent: { readonly tS: number; readonly c: number }[];
  nowS: number;
  held: { readonly fromS: number; readonly beforeC: number; topC: number; lowC: number; toS: number } | null;
  /** It was to be held and gave no temperature. */
  blind: boolean;
}

export const createWarmTry = (channel: number): WarmTry => ({
  channel,
  recent: [],
  nowS: 0,
  held: null,
  blind: false,
});

export function takeTemperature(w: WarmTry, tS: number, c: number | null): void {
  w.nowS = tS;
  w.recent = w.recent.filter((r) => tS - r.tS <= WARM_BEFORE_S);
  if (c === null) return;
  w.recent.push({ tS, c });
  const { held } = w;
  if (held === null || tS - held.fromS > WARM_HELD_S) return;
  held.topC = Math.max(held.topC, c);
  held.lowC = Math.min(held.lowC, c);
  held.toS = tS;
}

/** From now on it is in the hand. */
export function holdProbe(w: WarmTry): void {
  w.blind = w.recent.length === 0;
  const beforeC = median(w.recent.map((r) => r.c));
  w.held = w.blind ? null : { fromS: w.nowS, beforeC, topC: beforeC, lowC: beforeC, toS: w.nowS };
}

export function judgeWarm(w: WarmTry): FindingOf<'warm'> {
  const { channel, held } = w;
  if (held === null) return found('warm', w.blind ? 'no-reading' : 'not-held', null, null, null, channel);
  const rise = held.topC - held.beforeC;
  const fall = held.lowC - held.beforeC;
  const s = w.nowS - held.fromS;
  const say = (reason: FindingOf<'warm'>['reason'], k: number) =>
    found('warm', reason, k, held.beforeC, Math.min(s, WARM_HELD_S), channel);
  if (rise >= WARM_K.rises) return say('rises', rise);
  if (fall <= WARM_K.falls) return say('falls', fall);
  if (s < WARM_HELD_S) return say('holding', rise);
  return say(rise >= WARM_K.little ? 'little' : 'none', rise);
}
