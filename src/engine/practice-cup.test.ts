import { expect, it } from 'vitest';
import { PRACTICE_CODES } from './messages.ts';
import { RIG_SCENARIOS } from './rig-feed.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

it('the practice site with a cup has its probe behind all others, and the watch follows it from mixing on', async () => {
  const b = createHostBench();
  await b.ask({ q: 'start-engine' });
  await b.connectRig('practice-cup', 3);
  await b.run(1000);
  const made = practiceSetup({}, b.moment().link.channels);
  expect(made.channels.at(-1)).toMatchObject({ index: 5, role: 'temperature', place: null });
  const channels = made.channels.map((c) => (c.index === 5 ? { ...c, place: 'cup' as const } : c));
  await b.ask({ q: 'open-run', jobId: 'job-1', title: 'p', practice: true, setup: { ...made, channels } });
  await b.run(500);
  expect(b.moment().view.cup).toBeNull();
  await b.ask({ q: 'command', command: { c: 'mixed' } });
  await b.run(2000);
  const { cup } = b.moment().view;
  expect(cup).toMatchObject({ verdict: 'waits', doubt: null });
  expect(cup!.c).toBeCloseTo(16, 0);
});

it('every practice site is a scenario of the rig', () => {
  expect(RIG_SCENARIOS).toEqual(expect.arrayContaining([...PRACTICE_CODES]));
});
