import { describe, expect, it } from 'vitest';
import type { ThermocoupleType } from '../../job/setup.ts';
import { emfMv } from './reference.ts';
import { TYPE_E } from './type-e.ts';
import { TYPE_J } from './type-j.ts';
import { TYPE_K } from './type-k.ts';
import { TYPE_N } from './type-n.ts';
import { TYPE_T } from './type-t.ts';
import type { ThermocoupleFunction } from './types.ts';

/**
 * NIST Standard Reference Database 60: where the pieces of each function end, °C and mV, and the largest error that
 * the tables give for any inverse piece of the type, °C.
 */
const PUBLISHED: {
  readonly [T in ThermocoupleType]: {
    readonly fn: ThermocoupleFunction;
    readonly ends: readonly number[];
    readonly inverseEnds: readonly number[];
    readonly error: number;
  };
} = {
  K: { fn: TYPE_K, ends: [-270, 0, 1372], inverseEnds: [-5.891, 0, 20.644, 54.886], error: 0.06 },
  J: { fn: TYPE_J, ends: [-210, 760, 1200], inverseEnds: [-8.095, 0, 42.919, 69.553], error: 0.05 },
  T: { fn: TYPE_T, ends: [-270, 0, 400], inverseEnds: [-5.603, 0, 20.872], error: 0.04 },
  N: { fn: TYPE_N, ends: [-270, 0, 1300], inverseEnds: [-3.99, 0, 20.613, 47.513], error: 0.04 },
  E: { fn: TYPE_E, ends: [-270, 0, 1000], inverseEnds: [-8.825, 0, 76.373], error: 0.03 },
};
const TYPES = Object.keys(PUBLISHED) as ThermocoupleType[];

const endsOf = (pieces: readonly { readonly lo: number; readonly hi: number }[]): readonly number[] => [
  ...pieces.map((p) => p.lo),
  ...pieces.slice(-1).map((p) => p.hi),
];

describe('the pieces of the reference functions', () => {
  it.each(TYPES)('of type %s lie end to end, and end where the tables say', (type) => {
    const { fn, ends, inverseEnds } = PUBLISHED[type];
    for (const [pieces, published] of [
      [fn.forward, ends],
      [fn.inverse, inverseEnds],
    ] as const) {
      expect(endsOf(pieces)).toEqual(published);
      expect(pieces.slice(1).map((p) => p.lo)).toEqual(pieces.slice(0, -1).map((p) => p.hi));
    }
  });

  it.each(TYPES)('of type %s: each inverse polynomial by itself is as near as published', (type) => {
    const { fn, error } = PUBLISHED[type];
    let checked = 0;
    for (let c = -210; c <= 1372; c++) {
      const mv = emfMv(type, c);
      if (mv === null) continue;
      for (const { lo, hi, d } of fn.inverse) {
        if (mv < lo || mv > hi) continue;
        const back = d.reduceRight((sum, di) => sum * mv + di, 0);
        expect(Math.abs(back - c), `${type} ${c}`).toBeLessThan(error + 0.005);
        checked++;
      }
    }
    expect(checked).toBeGreaterThan(590);
  });
});
