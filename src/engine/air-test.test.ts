import { expect, it } from 'vitest';
import type { WatchEvent } from '../watch/events.ts';
import type { RigHand } from './messages.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

/** At the practice site of the air test, from the port to the events, with hands that do what is asked for. */
async function tested(leak: boolean) {
  const b = createHostBench();
  await b.ask({ q: 'start-engine' });
  await b.connectRig('practice-air', 4);
  await b.run(1000);
  const setup = { ...practiceSetup({}, b.moment().link.channels), rateHz: 10 };
  await b.ask({
    q: 'open-run',
    jobId: 'job-1',
    title: 'p',
    practice: true,
    setup: { ...setup, airTest: { method: 'LC', mm: 150, lengthM: 10, headBar: null } },
  });
  const hand = (h: RigHand) => b.ask({ q: 'rig-hand', hand: h });
  const view = () => b.moment().view.airTest!;
  const bar = () => b.moment().view.bar!;
  const until = async (isSo: () => boolean, mostS: number, stepMs = 500) => {
    for (let ms = 0; ms < mostS * 1000 && !isSo(); ms += stepMs) await b.run(stepMs);
    expect(isSo()).toBe(true);
  };
  await b.run(1000);
  await b.ask({ q: 'command', command: { c: 'zero' } });
  await b.run(1000);
  await b.ask({ q: 'command', command: { c: 'stage', to: 'air-test' } });
  await b.ask({ q: 'command', command: { c: 'air-test', said: 'begin-probed' } });
  await b.run(500);
  expect(view().phase).toBe('fill');
  await hand({ hand: 'valve', open: 1 });
  await until(() => bar() > 0.115, 200);
  await hand({ hand: 'valve', open: 0 });
  if (leak) await b.ask({ q: 'rig-fault', fault: { fault: 'leak', mbarPerMin: 40 } });
  for (let s = 0; s < 400 && view().phase === 'stabilise'; s += 5) {
    await hand({ hand: 'valve', open: bar() < 0.104 ? 1 : 0 });
    await b.run(bar() < 0.104 ? 2000 : 5000);
  }
  await hand({ hand: 'valve', open: 0 });
  await hand({ hand: 'vent', open: true });
  await until(() => bar() < 0.1025, 60, 200);
  await hand({ hand: 'vent', open: false });
  await until(() => view().phase === 'timing', 120);
  await until(() => view().phase === 'vent', 250, 2000);
  await hand({ hand: 'vent', open: true });
  await until(() => view().phase === 'idle', 120, 2000);
  const events = b.events().filter((e): e is Extract<WatchEvent, { e: 'air-test' }> => e.e === 'air-test');
  const heard = b.events().flatMap((e) => (e.e === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
  return { told: events.map((e) => e.what), judged: events.find((e) => e.what === 'judged')!, heard };
}

it('a tight pipe passes, the times go by themselves, and nothing is cried at', async () => {
  const { told, judged, heard } = await tested(false);
  expect(told).toEqual(['begun', 'stabilised', 'timed', 'judged', 'vented']);
  expect(judged).toMatchObject({ verdict: 'passed', method: 'LC', allowedMbar: 15 });
  expect(Math.abs(judged.dropMbar!)).toBeLessThan(judged.uMbar!);
  expect(heard).toEqual([]);
});

it('the panel’s leak fails', async () => {
  expect((await tested(true)).judged).toMatchObject({ verdict: 'failed' });
});
