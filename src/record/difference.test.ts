import fc from 'fast-check';
import { expect, it } from 'vitest';
import { firstDifference } from './difference.ts';

const plainly = (a: Uint8Array, b: Uint8Array): number | null => {
  for (let i = 0; i < Math.max(a.length, b.length); i++) if (a[i] !== b[i]) return i;
  return null;
};

it('two stretches differ where a look at every byte finds it, wherever they lie in memory (property)', () => {
  const stretch = fc.record({ offset: fc.nat({ max: 5 }), cut: fc.nat({ max: 9 }) });
  fc.assert(
    fc.property(
      fc.uint8Array({ maxLength: 300 }),
      stretch,
      stretch,
      fc.option(fc.nat({ max: 299 })),
      (bytes, s, t, flip) => {
        const [a, b] = [s, t].map(({ offset, cut }) => {
          const room = new Uint8Array(offset + bytes.length);
          room.set(bytes, offset);
          return room.subarray(offset, Math.max(offset, room.length - cut));
        }) as [Uint8Array, Uint8Array];
        if (flip !== null && flip < b.length) b[flip]! ^= 1;
        expect(firstDifference(a, b)).toBe(plainly(a, b));
      },
    ),
    { seed: 8, numRuns: 500 },
  );
});
