import { describe, expect, it } from 'vitest';
import type { WatchEvent } from '../watch/events.ts';
import type { RigHand } from './messages.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

type Bench = ReturnType<typeof createHostBench>;
type Told = Extract<WatchEvent, { e: 'supply' }>;
const supply = (b: Bench): Told[] => b.events().filter((e): e is Told => e.e === 'supply');
const heard = (b: Bench) =>
  b.events().flatMap((e) => (e.e === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
const hand = (b: Bench, h: RigHand) => b.ask({ q: 'rig-hand', hand: h });
const say = (b: Bench, said: 'valve-shut' | 'slow-valve' | 'turned') =>
  b.ask({ q: 'command', command: { c: 'supply', said } });

/** A run on the simulated site, its hose off the packer or on it, its end shut or open, and the proof begun. */
async function begun(bar: number, coupled: boolean, shut: boolean): Promise<Bench> {
  const b = createHostBench();
  await b.ask({ q: 'start-engine' });
  await b.connectRig('hands', 5);
  await b.run(2000);
  const setup = practiceSetup({}, b.moment().link.channels);
  await b.ask({ q: 'open-run', jobId: 'job-1', title: 'p', practice: true, setup });
  await hand(b, { hand: 'couple', coupled });
  await hand(b, { hand: 'end', shut });
  await hand(b, { hand: 'regulator', bar });
  await b.run(4000);
  await b.ask({ q: 'command', command: { c: 'prove-supply', end: 'shut' } });
  await b.run(1000);
  await hand(b, { hand: 'valve', open: 1 });
  return b;
}

/** The valve is shut, and said to be, for as long as the line is watched then. */
async function shutAndSaid(b: Bench): Promise<void> {
  await hand(b, { hand: 'valve', open: 0 });
  await b.run(1000);
  await say(b, 'valve-shut');
  await b.run(7000);
}

describe('a supply that is proved on the simulated site', () => {
  it.each([
    [1.5, 'stands'],
    [1.3, 'under-working'],
    [1.65, 'over-working'],
    [2.1, 'over-ceiling'],
  ] as const)('with its regulator at %s bar', async (bar, verdict) => {
    const b = await begun(bar, false, true);
    await b.run(45_000);
    const { lockUpBar } = supply(b).findLast((e) => e.what === 'locked')!;
    // The transducer of the site is off by up to 4 mbar at zero and its gain.
    expect(Math.abs(lockUpBar!.value - bar)).toBeLessThan(0.03);
    expect(b.moment().view.supply?.phase).toBe('shut');
    await shutAndSaid(b);
    expect(supply(b).at(-1)).toMatchObject({ what: 'proved', verdict });
    await hand(b, { hand: 'vent', open: true });
    await b.run(8000);
    expect(supply(b).at(-1)?.what).toBe('vented');
    expect(heard(b).sort().reverse()).toEqual(
      verdict === 'over-ceiling' ? ['over-rated', 'device-trip'] : [],
    );
  });

  it('then fills the packer, and says under the working pressure too that the regulator has moved', async () => {
    const b = await begun(1.2, false, true);
    await b.run(45_000);
    await shutAndSaid(b);
    await hand(b, { hand: 'vent', open: true });
    await b.run(8000);
    await hand(b, { hand: 'vent', open: false });
    await hand(b, { hand: 'couple', coupled: true });
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await hand(b, { hand: 'valve', open: 0.6 });
    await b.run(180_000);
    expect(supply(b).filter((e) => e.what === 'void')).toEqual([]);
    expect(heard(b)).toEqual([]);
    await b.ask({ q: 'rig-fault', fault: { fault: 'creep', barPerMin: 0.3 } });
    await b.run(25_000);
    expect(heard(b)).toEqual(['supply-moved']);
    // Working is 1.5 bar, and nothing else has a word to say yet.
    expect(b.moment().view.bar).toBeLessThan(1.4);
  });

  it('with the packer on the hose: it is asked', async () => {
    const b = await begun(1.5, true, false);
    await b.run(30_000);
    expect(supply(b).map((e) => [e.what, e.reason])).toContainEqual(['asked', 'slow-rise']);
  });

  it('with an open end: the line does not hold when the valve is shut', async () => {
    const b = await begun(1.5, false, false);
    await b.run(70_000);
    await hand(b, { hand: 'valve', open: 0 });
    await say(b, 'valve-shut');
    await b.run(6000);
    expect(b.moment().view.supply?.proved ?? false).toBe(false);
    expect(supply(b).some((e) => e.what === 'proved')).toBe(false);
  });

  it('and ended there leaves no packer that may be full', async () => {
    const b = await begun(1.5, false, true);
    await b.run(45_000);
    await shutAndSaid(b);
    await hand(b, { hand: 'vent', open: true });
    await b.run(10_000);
    await b.ask({ q: 'end-run' });
    expect(b.posted.findLast((m) => m.m === 'left')?.left ?? []).toEqual([]);
  });
});
