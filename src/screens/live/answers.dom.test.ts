import { describe, expect, it } from 'vitest';
import { resinOf, setupOf } from '../../job/testing/givens.ts';
import { answersOf } from './answers.ts';
import { sceneOf } from './testing/scene.ts';

const RESIN = setupOf({ resin: resinOf() });

describe('the resin of another sleeve', () => {
  const asked = (view: Parameters<typeof sceneOf>[0], setup = RESIN) =>
    answersOf(sceneOf({ stage: 'abandoned', stageSinceUs: 600e6, ...view }, { setup }), {
      stage: 'abandoned',
      code: 'zero',
    });

  it('can be said to be mixed after an attempt that was given up, once', () => {
    expect(asked({ mixedUs: 60e6 })).toEqual([{ code: 'mixed', said: false, hold: true }]);
    expect(asked({ mixedUs: 700e6 })).toEqual([]);
    expect(asked({ mixedUs: null }, setupOf())).toEqual([]);
  });
});
