import type { SupplyView } from '../view.ts';
import { phaseS } from './proof.ts';
import { perMinute } from './proof-event.ts';
import type { Supply } from './supply.ts';

/** What a screen shows of the supply; null: nobody has proved it, nor does now. */
export function supplyView({ proof, proved }: Supply, tUs: number): SupplyView | null {
  const found = proof?.found ?? (proof === null || proof.phase === 'vent' ? proved : null);
  if (proof === null && proved === null) return null;
  const sinceS = proof === null ? 0 : Math.max(0, (tUs - proof.sinceUs) / 1e6);
  const needS = proof === null ? null : phaseS(proof);
  return {
    phase: proof?.phase ?? null,
    leftS: needS === null ? null : Math.max(0, needS - sinceS),
    asked: (proof?.askedUs ?? null) !== null,
    lockUpBar: found?.lockUp ?? null,
    verdict: found?.verdict ?? null,
    creepMbarPerMin: found === null ? null : perMinute(found.creep),
    ceilingInS: found?.ceilingInS ?? null,
    proved: proved !== null,
  };
}
