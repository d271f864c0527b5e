import type { Setup } from '../../job/setup.ts';
import type { AirTestView } from '../view.ts';
import { dropSoFar, specOf, startBand } from './airtest.ts';
import { levelAt } from './course.ts';
import type { AirTest } from './types.ts';

/** Seconds left of the phase that counts by itself; null: a hand ends it. */
function leftS({ phase, run }: AirTest): number | null {
  if (run === null || run.lastS === null) return null;
  if (phase === 'stabilise') return Math.max(0, run.spec.stabiliseS - run.stabilisedS);
  if (phase === 'settle' && run.settledFromS !== null)
    return Math.max(0, run.settledFromS + run.spec.settleS - run.lastS);
  if (phase === 'timing' && run.startS !== null)
    return Math.max(0, run.startS + run.spec.seconds - run.lastS);
  return null;
}

/** What a screen shows of the air test; null: none is planned, or an input of it is missing. */
export function airTestView(a: AirTest, setup: Setup | null): AirTestView | null {
  const spec = a.run?.spec ?? specOf(setup);
  if (spec === null) return null;
  const drop = dropSoFar(a, setup);
  const { run, result } = a;
  const fromBar = run === null || run.startS === null ? null : (levelAt(run.course, run.startS)?.bar ?? null);
  return {
    phase: a.phase,
    attempt: a.attempt,
    spec,
    band: startBand(spec),
    leftS: leftS(a),
    fromBar,
    dropBar: drop?.dropBar ?? result?.dropBar ?? null,
    uBar: drop?.uBar ?? result?.uBar ?? null,
    verdict: result?.verdict ?? null,
    reason: result?.reason ?? null,
  };
}
