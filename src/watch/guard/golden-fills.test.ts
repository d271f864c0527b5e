import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ENGINE } from '../codes.ts';
import type { Facts } from './testing/facts.ts';
import { factsOf } from './testing/facts.ts';
import { FILLS, firstAt, play, RATES } from './testing/fills.ts';

// Fills of each kind, with the reading at which the guard turned: one engine number gives the same to the reading. Whoever
// changes them on purpose writes them anew (watch/testing/write-golden.ts) and says why.
interface Golden {
  readonly engine: number;
  readonly fills: Readonly<Record<string, Facts>>;
}
const golden = JSON.parse(
  readFileSync(new URL('../../../fixtures/golden-fills.json', import.meta.url), 'utf8'),
) as Golden;

describe('golden fills', () => {
  it('are of this engine, and all there', () => {
    expect(golden.engine).toBe(ENGINE);
    const names = Object.keys(FILLS).flatMap((name) => RATES.map((hz) => `${name} ${hz} Hz`));
    expect(Object.keys(golden.fills)).toEqual(names);
  });

  for (const [name, fill] of Object.entries(FILLS))
    for (const hz of RATES)
      it(`${name} turns at the same readings at ${hz} Hz`, () => {
        const played = play(fill, hz);
        expect(factsOf(played, hz)).toEqual(golden.fills[`${name} ${hz} Hz`]);
        // Whatever they are: before the true pressure passes rated an alarm stands.
        const rated = firstAt(played.truth, (bar) => bar >= played.ctx.limits!.ratedBar);
        const told = firstAt(played.verdicts, (v) => v.rising !== null || v.ceiling !== null);
        if (rated !== null && name !== 'ceiling') expect(told).toBeLessThan(rated);
      });
});
