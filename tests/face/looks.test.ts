import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { differing } from '../pictures/compare.ts';
import { type Look, liveName, parseSize } from '../pictures/plan.ts';
import { shoot } from '../pictures/shots.ts';
import { keepJob } from '../stand/repair.ts';
import { openStand, type Stand } from '../stand/stand.ts';
import { ENOUGH, type LiveState, play, type StoryName } from '../stand/states.ts';

// Live looks as its pictures in docs/pictures do: a change of look is seen, and made good by npm run pictures.

/** A share of the window that no change of look is: a clock, a noisy last digit. */
const TOLERATED = 0.012;

const CHOSEN: readonly [StoryName, readonly LiveState[]][] = [
  ['repair', ['cue', 'hold']],
  ['too-far', ['over-rated']],
];
const LOOKS: readonly Look[] = ['1180x820', '360x740'].map((name) => ({
  size: parseSize(name),
  theme: 'light',
}));

let stand: Stand;
beforeAll(async () => {
  stand = await openStand();
  await keepJob(stand);
});
afterAll(() => stand?.close());

for (const [story, states] of CHOSEN)
  it(`looks as its pictures do: ${states.join(', ')}`, async () => {
    const other: string[] = [];
    await play(stand, story, async (state) => {
      if (!states.includes(state)) return;
      for (const look of LOOKS) {
        const name = liveName(state, look);
        const share = await differing(await shoot(stand, look), readFileSync(`docs/pictures/${name}.png`));
        if (share > TOLERATED) other.push(`${name}: ${(100 * share).toFixed(1)} % of it look different`);
      }
      if (state === states.at(-1)) throw ENOUGH;
    });
    expect(other).toEqual([]);
    expect(stand.faults).toEqual([]);
  });
