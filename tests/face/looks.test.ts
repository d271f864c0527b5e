import { readFileSync } from 'node:fs';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { differing } from '../pictures/compare.ts';
import { type Look, liveName, parseSize } from '../pictures/plan.ts';
import { shoot } from '../pictures/shots.ts';
import { keepJob } from '../stand/repair.ts';
import { openStand, type Stand } from '../stand/stand.ts';
import { ENOUGH, type LiveState, play, type StoryName } from '../stand/states.ts';

// Live looks as its pictures in docs/pictures do, so that a change of look is seen.

/** A share of the window that no change of look is: a clock, a noisy last digit, another build's edges of letters. */
const TOLERATED = 0.02;

const RENEW =
  'If the change is meant: npx vite build && npm run pictures, look at the pictures, and keep them with the change.';

/** What stands still: in a fill, and in what follows when it goes too far, digits and trace run too fast to be the same twice. */
const CHOSEN: readonly [StoryName, readonly LiveState[]][] = [
  ['repair', ['not-connected', 'zero', 'prepare', 'seated', 'hold']],
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
        const name = `docs/pictures/${liveName(state, look)}.png`;
        const share = await differing(await shoot(stand, look), readFileSync(name));
        if (share > TOLERATED) other.push(`${name}: ${(100 * share).toFixed(1)} % of it looks different`);
      }
      if (state === states.at(-1)) throw ENOUGH;
    });
    expect(other, RENEW).toEqual([]);
    expect(stand.faults).toEqual([]);
    // The story's hours pass as fast as the machine goes.
  }, 300_000);
