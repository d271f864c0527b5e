import { describe, expect, it } from 'vitest';
import { savedOf } from '../evidence/testing/saved-of.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { RigHand } from './messages.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

type Bench = ReturnType<typeof createHostBench>;
const heard = (b: Bench) =>
  b.events().flatMap((e) => (e.e === 'alarm' && e.to === 'unacknowledged' ? [e.alarm] : []));
const hand = (b: Bench, h: RigHand) => b.ask({ q: 'rig-hand', hand: h });
const isAlarm = (e: WatchEvent): e is Extract<WatchEvent, { e: 'alarm' }> => e.e === 'alarm';

/** A run on the practice site with a second transducer at the regulator, whose supply has stood for a while. */
async function ready(bar: number): Promise<Bench> {
  const b = createHostBench();
  await b.ask({ q: 'start-engine' });
  await b.connectRig('practice-pair', 3);
  await b.run(2000);
  const setup = practiceSetup({}, b.moment().link.channels);
  expect(setup.channels.at(-1)?.role).toBe('outlet-pressure');
  await b.ask({ q: 'open-run', jobId: 'job-1', title: 'p', practice: true, setup });
  await hand(b, { hand: 'regulator', bar });
  await b.run(8000);
  return b;
}

describe('two pressures on the simulated site', () => {
  it('the outlet stands beside the packer’s, and a supply that is set too high is told with the valve shut', async () => {
    const b = await ready(2.4);
    expect(b.moment().view.second).toMatchObject({ role: 'outlet-pressure', lost: false });
    expect(b.moment().view.second!.bar).toBeCloseTo(2.4, 1);
    expect(b.moment().view.bar).toBeCloseTo(0, 1);
    expect(heard(b)).toContain('supply-over');
  });

  it('is a line of its own in the trace, live and saved', async () => {
    const b = await ready(2.4);
    const { runId } = b.moment().run!;
    const live = await b.ask({ q: 'live-window', runId, fromS: 0, toS: 60, points: 200 });
    expect(live.series.slice(0, 2).map(({ name, place }) => [name, place])).toEqual([
      ['bar', null],
      ['second', 'outlet-pressure'],
    ]);
    expect(live.series[1]!.max.at(-1)).toBeCloseTo(2.4, 1);
    await b.ask({ q: 'rig-fault', fault: { fault: 'second-lost' } });
    await b.run(1000);
    const { fresh } = b.moment();
    expect(fresh.second).toHaveLength(fresh.s.length);
    expect(fresh.temps).toHaveLength(3);
    expect(fresh.second!.at(-1)).toBeNaN();
    expect(fresh.bar.at(-1)).toBeCloseTo(0, 1);
    await b.ask({ q: 'end-run' });
    const saved = await savedOf(b).window(runId, 0, 60, 200);
    expect(saved.series.map((s) => s.name)).toEqual(live.series.map((s) => s.name));
    expect(saved.series[1]!.max.some((v) => v > 2.3)).toBe(true);
    expect(saved.series[1]!.max.at(-1)).toBeNaN();
  });

  it('its zero is taken with the first’s where both read an open line, kept in the record, and refused under pressure', async () => {
    const b = createHostBench();
    await b.ask({ q: 'start-engine' });
    await b.connectRig('practice-pair', 3);
    await b.run(2000);
    const setup = practiceSetup({}, b.moment().link.channels);
    const { runId } = await b.ask({ q: 'open-run', jobId: 'job-1', title: 'p', practice: true, setup });
    const zeros = () => b.events().flatMap((e) => (e.e === 'zero' ? [e] : []));
    const zero = async () => {
      await b.run(3000);
      await b.ask({ q: 'command', command: { c: 'zero' } });
      await b.run(1500);
      return zeros().at(-1);
    };
    // The supply stands at its pressure: no open line.
    expect(await zero()).toMatchObject({ taken: true, second: { taken: false, reason: 'too-far' } });
    expect(b.moment().view.second?.zeroed).toBe(false);
    await hand(b, { hand: 'regulator', bar: 0 });
    await hand(b, { hand: 'vent', open: true });
    await hand(b, { hand: 'valve', open: 1 });
    await b.run(12_000);
    await hand(b, { hand: 'valve', open: 0 });
    const before = b.moment().view.second!.bar!;
    const taken = await zero();
    expect(taken).toMatchObject({ taken: true, second: { taken: true, reason: 'ok' } });
    // Its transducer is 8 mbar off.
    expect(taken!.second!.offsetBar).toBeCloseTo(-0.008, 2);
    const { second } = b.moment().view;
    expect(second!.zeroed).toBe(true);
    expect(second!.bar! - before).toBeCloseTo(0.008, 2);
    await b.ask({ q: 'end-run' });
    // The pages tell the same zeros again, and the values that were read with them.
    expect((await savedOf(b).detail(runId, true)).events.filter((e) => e.e === 'zero')).toEqual(zeros());
  });

  it('a regulator that sticks open in the fill is told while the packer is low; a shut valve is seen as one', async () => {
    const b = await ready(1.5);
    expect(b.events().filter((e) => e.e === 'outlet-stood')).toHaveLength(1);
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await hand(b, { hand: 'valve', open: 0.5 });
    await b.run(6000);
    expect(heard(b)).toEqual([]);
    expect(b.moment().view.second?.path).toBe('flows');
    await hand(b, { hand: 'valve', open: 0 });
    await b.run(8000);
    expect(b.moment().view.second?.path).toBe('blocked');
    await hand(b, { hand: 'valve', open: 0.5 });
    // Behind a tap at the hose a kink leaves the reading at the supply's pressure.
    await b.ask({ q: 'rig-fault', fault: { fault: 'kink', open: 0.002 } });
    await b.run(12_000);
    expect(b.moment().view.second?.path).toBe('level');
    await b.ask({ q: 'rig-fault', fault: { fault: 'kink', open: 1 } });
    await b.ask({ q: 'rig-fault', fault: { fault: 'stuck-open' } });
    await b.run(2000);
    // Told at once, and urgent as soon as air flows to the packer again.
    expect(
      b
        .events()
        .filter(isAlarm)
        .some((e) => e.alarm === 'supply-over' && e.priority === 'urgent'),
    ).toBe(true);
    expect(b.moment().view.bar).toBeLessThan(1.5);
  });

  it('a second sensor that reads off is told once air flows, one that breaks is told as lost', async () => {
    const b = await ready(1.5);
    await b.ask({ q: 'rig-fault', fault: { fault: 'second-off', bar: -0.8 } });
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await hand(b, { hand: 'valve', open: 0.6 });
    await b.run(60_000);
    expect(heard(b)).toContain('sensors-differ');
    await b.ask({ q: 'rig-fault', fault: { fault: 'second-lost' } });
    await b.run(4000);
    expect(heard(b)).toContain('second-lost');
    expect(b.moment().view.second).toMatchObject({ bar: null, lost: true });
  });
});
