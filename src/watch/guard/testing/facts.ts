import type { Bounded } from '../../events.ts';
import { round } from '../../round.ts';
import type { GuardVerdict } from '../guard.ts';
import { firstAt, type Played } from './fills.ts';

/** What is kept of a fill: each turn of the guard with the number of its reading, and what it showed at fixed readings. */
export type Facts = Readonly<Record<string, unknown>>;

/** Numbers to four digits: a change of the last bit is no change. */
function plain(value: unknown): unknown {
  if (typeof value === 'number') return round(value, 4);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([k, v]) => [k, plain(v)]));
}

/** Readings at which it began and ended, at most eight. */
function turns(list: readonly GuardVerdict[], is: (v: GuardVerdict) => boolean): number[] {
  const out: number[] = [];
  let was = false;
  list.forEach((v, i) => {
    if (is(v) === was) return;
    was = !was;
    if (out.length < 8) out.push(i);
  });
  return out;
}

const mid = (b: Bounded | null): number | null => (b === null ? null : b.value);

export function factsOf({ verdicts, state }: Played, hz: number): Facts {
  const first = <T>(pick: (v: GuardVerdict) => T | null) => {
    const at = firstAt(verdicts, (v) => pick(v) !== null);
    return at === null ? null : { at, ...(plain(pick(verdicts[at]!)) as object) };
  };
  const every = Math.round(4 * hz);
  return {
    ceiling: turns(verdicts, (v) => v.ceiling !== null),
    rising: turns(verdicts, (v) => v.rising !== null),
    said: first((v) => v.rising),
    still: turns(verdicts, (v) => v.still),
    cue: turns(verdicts, (v) => v.cue !== null),
    firstCue: first((v) => v.cue),
    tooFast: turns(verdicts, (v) => v.view.tooFast !== null),
    firstTooFast: first((v) => v.view.tooFast),
    settleShown: turns(verdicts, (v) => v.view.settleBar !== null),
    firstSettle: first((v) => v.view.settleBar),
    ceilingShown: turns(verdicts, (v) => v.view.ceilingInS !== null),
    firstCeilingIn: first((v) => v.view.ceilingInS),
    knee: first((v) => v.knee),
    spikes: state.clean.spikes,
    stops: state.stops.map((s) => [round(s.reachS, 3), round(s.dropS, 3)]),
    shown: verdicts
      .filter((_, i) => i % every === every - 1)
      .map((v) => [
        round(v.view.rateBarPerS ?? -1, 5),
        round(mid(v.view.restBar) ?? -1, 4),
        round(mid(v.view.settleBar) ?? -1, 3),
        round(mid(v.view.closeInS) ?? -1, 2),
      ]),
  };
}
