/** What is told of a proof of the supply: rounded figures, whichever are known. */
import type { SupplyReason } from '../codes.ts';
import type { Bounded, WatchEvent } from '../events.ts';
import { bar3, boundedTo, s1 } from '../round.ts';
import type { Outcome, Proof } from './types.ts';

type Told = Partial<Omit<Extract<WatchEvent, { e: 'supply' }>, 'tUs' | 'e' | 'what'>>;

export function supplyEvent(
  tUs: number,
  what: Extract<WatchEvent, { e: 'supply' }>['what'],
  told: Told = {},
): WatchEvent {
  return {
    tUs,
    e: 'supply',
    what,
    reason: null,
    end: null,
    verdict: null,
    lockUpBar: null,
    creepMbarPerMin: null,
    ceilingInS: null,
    riseS: null,
    bar: null,
    ...told,
  };
}

/** bar/s → mbar/min. */
const MBAR_MIN = 60_000;

/** A slope as it is told and shown: bar/s → mbar/min. */
export function perMinute({ value, low, high }: Bounded): Bounded {
  return { value: value * MBAR_MIN, low: low * MBAR_MIN, high: high * MBAR_MIN };
}

export function figures(p: Proof): Told {
  if (p.found === null) return { riseS: p.riseS === null ? null : s1(p.riseS) };
  const { lockUp, creep, verdict, ceilingInS } = p.found;
  return {
    end: p.end,
    verdict,
    lockUpBar: boundedTo(lockUp, 3),
    creepMbarPerMin: boundedTo(perMinute(creep), 1),
    ceilingInS: ceilingInS === null ? null : boundedTo(ceilingInS, 0),
    riseS: p.riseS === null ? null : s1(p.riseS),
  };
}

type Emit = (event: WatchEvent) => void;

export function breakOff(
  p: Proof,
  reason: SupplyReason,
  tUs: number,
  bar: number | null,
  emit: Emit,
): Outcome {
  emit(
    supplyEvent(tUs, 'broken-off', {
      ...figures(p),
      reason,
      end: p.end,
      bar: bar === null ? null : bar3(bar),
    }),
  );
  return 'over';
}
