import { describe, expect, it } from 'vitest';
import type { CupMark, Setup } from '../../job/setup.ts';
import { LIMITS, PRESSURE_CHANNEL, resinOf, setupOf } from '../../job/testing/givens.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import type { WatchEvent } from '../events.ts';
import { viewOf } from '../step.ts';
import { Script } from '../testing/script.ts';
import type { ProbeNow } from './coldest.ts';
import { believedBeside, type Cup, createCup, cupTick } from './cup.ts';

const MARK: CupMark = { age: 0.28, scatter: 0.08, riseK: 40, batches: 4 };
const POINTS = [
  { c: 10, minutes: 240 },
  { c: 20, minutes: 120 },
];
/** A cup's course: from 18 °C it falls a little, and warms by `kelvin` with its greatest heat at `atS`. */
const course =
  (atS: number, kelvin = 40) =>
  (t: number) =>
    12 +
    6 * Math.exp(-t / 2200) +
    kelvin / (1 + Math.exp(-(t - atS) / (atS / 12))) / (1 + Math.max(0, t - atS) / 3000);

function setupWith(mark: CupMark | null, more: Partial<Setup> = {}, points = POINTS): Setup {
  const setup = setupOf({
    limits: { ...LIMITS, headBar: 0 },
    ground: { c: 12, uC: 1 },
    heating: 'none',
    resin: resinOf({ points, potC: 18, cup: { massG: 200, mark } }),
  });
  const probe = (index: number, place: 'sleeve' | 'cup') => ({
    ...PRESSURE_CHANNEL,
    index,
    role: 'temperature' as const,
    place,
    gaugeKind: null,
  });
  return { ...setup, channels: [PRESSURE_CHANNEL, probe(1, 'sleeve'), probe(5, 'cup')], ...more };
}
const probe = (place: ProbeNow['place'], c: number): ProbeNow => ({ place, c, uC: 1, checked: true });

function lived(
  minutes: number,
  probes: (t: number) => readonly ProbeNow[],
  setup = setupWith(MARK),
  seated = false,
) {
  const cup: Cup = createCup(0);
  const events: (WatchEvent & { e: 'cup' })[] = [];
  for (let t = 1; t <= minutes * 60; t++)
    cupTick(cup, t * 1e6, probes(t), setup, seated, (e) => {
      if (e.e === 'cup') events.push(e);
    });
  return { cup, events, words: events.map((e) => e.doubt ?? e.verdict) };
}
const withCup = (c: (t: number) => number, setup?: Setup) => lived(180, (t) => [probe('cup', c(t))], setup);

/** When the sheet's time at the cup's own course has passed by the mark depends on the course: found by trial, s. */
const USUAL_S = 2800;

describe('a witness cup', () => {
  it('tells a batch as usual, and its mark, once', () => {
    const { words, events } = withCup(course(USUAL_S));
    expect(words).toEqual(['reacts', 'usual']);
    expect(events.at(-1)!.heatAge).toBeGreaterThan(0.23);
    expect(events.at(-1)!.heatAge).toBeLessThan(0.33);
    expect(events.at(-1)!.riseK).toBeGreaterThan(20);
  });

  it('tells a slow batch before its heat has come, and then by how much', () => {
    const { words, events } = withCup(course(1.7 * USUAL_S));
    // This one stays cold for long: until it warms it may as well have no probe in it.
    expect(words.at(0)).toBe('no-reaction');
    expect(words.at(-1)).toBe('slow');
    expect(events.at(-1)!.times!.value!).toBeGreaterThan(1.3);
  });

  it('of a resin without a mark tells that it reacts, with the mark that its document may keep', () => {
    const { words, events } = withCup(course(USUAL_S), setupWith(null));
    expect(words).toEqual(['reacts', 'reacts']);
    expect(events.map((e) => e.heatAge === null)).toEqual([true, false]);
    expect(events.at(-1)!.times).toBeNull();
  });

  it('whose probe hangs in the air is asked about: it does not begin at the pot’s temperature', () => {
    expect(withCup(() => 11).words).toEqual(['not-of-pot']);
  });

  it('that stays at the pot’s temperature in warm air shows no reaction', () => {
    expect(withCup(() => 17.5).words).toContain('no-reaction');
  });

  // Its peak is at five minutes: at four it was 15 K over the pot, and how much had passed by then is not known.
  it('of a resin that is over in minutes is not called slow before it was looked at, and told coarsely after it', () => {
    const quick = (t: number) =>
      18 + 110 / (1 + Math.exp(-(t - 320) / 40)) / (1 + Math.max(0, t - 320) / 3000);
    const mark = { age: 0.06, scatter: 0.08, riseK: 60, batches: 4 };
    const { words, cup } = withCup(quick, setupWith(mark));
    expect(words).toEqual(['reacts', 'usual']);
    expect(cup.batch.sd).toBeGreaterThan(0.14);
  });

  it('that was mixed earlier is too quick to be believed', () => {
    expect(withCup(course(0.5 * USUAL_S)).words).toContain('too-early');
  });

  it('whose probe is lost says so, and a short loss is bridged', () => {
    const gap = (from: number, to: number) =>
      lived(180, (t) => (t > from && t < to ? [] : [probe('cup', course(USUAL_S)(t))]));
    expect(gap(1200, 1230).words).toEqual(['reacts', 'usual']);
    expect(gap(1200, 1600).words).toContain('lost');
    // Once its heat has passed it has said what it knows.
    expect(gap(6000, 9000).words).toEqual(['reacts', 'usual']);
  });

  it('whose probe is swapped with the wall’s is asked about: a wall that warms by 5 K and is 5 K over the cup', () => {
    // The probe that is said to be the wall's lies in the cup and warms there; the other one lies on the cold wall.
    const swapped = (from: number, to: number) => (t: number) => [
      probe('cup', 12),
      probe('pipe', from + ((to - from) * t) / 3600),
    ];
    const { cup, words } = lived(60, swapped(12, 32), setupWith(MARK), true);
    expect(words).toContain('cooler-than-sleeve');
    const believed = believedBeside(cup, swapped(12, 32)(3600));
    expect(believed.map((p) => [p.place, p.c])).toEqual([
      ['sleeve', 12],
      ['pipe', 32],
    ]);
    expect(lived(60, swapped(12, 17.2), setupWith(MARK), true).words).toContain('cooler-than-sleeve');
    expect(lived(60, swapped(12, 16.8), setupWith(MARK), true).words).not.toContain('cooler-than-sleeve');
    // A cup that stands in the frost beside a wall that nothing warms.
    expect(lived(60, swapped(22, 22), setupWith(MARK), true).words).not.toContain('cooler-than-sleeve');
    expect(lived(60, swapped(12, 32), setupWith(MARK), false).words).not.toContain('cooler-than-sleeve');
  });

  it('that stays cooler than the sleeve is asked about, and the colder of the two probes counts', () => {
    const both = (t: number) => [probe('cup', 13 + 5 * Math.exp(-t / 2200)), probe('sleeve', 12 + t / 200)];
    const { cup, words } = lived(60, both, setupWith(MARK), true);
    expect(words).toContain('cooler-than-sleeve');
    const believed = believedBeside(cup, both(3600));
    expect(believed.map((p) => p.place)).toEqual(['sleeve', 'sleeve']);
    // A packer that is warmed from outside may well be hotter.
    const warmed = setupWith(MARK, { heating: 'water' });
    expect(lived(30, both, warmed, true).words).not.toContain('cooler-than-sleeve');
  });

  it('is none where no probe stands in one', () => {
    const setup = setupWith(MARK);
    expect(withCup(course(USUAL_S), { ...setup, channels: setup.channels.slice(0, 2) }).words).toEqual([]);
  });
});

describe('in the run', () => {
  const temps = (c: (t: number) => number, from: number) => (tS: number) => [
    { ...probeOf('sleeve', 14), channel: 1 },
    { ...probeOf('cup', c(tS - from)), channel: 5 },
  ];

  // Five times as quick, so that it takes less to play.
  const QUICK = POINTS.map(({ c, minutes }) => ({ c, minutes: minutes / 5 }));

  it('a slow batch is an alarm, and the cure waits for it', () => {
    const run = (atS: number) => {
      const s = new Script({ setup: setupWith(MARK, {}, QUICK) });
      s.flow(10, 0, { hz: 1 }).say({ c: 'mixed' });
      const from = s.tS;
      s.flow(300, 0, { hz: 1, temps: temps(course(atS), from) });
      s.say({ c: 'stage', to: 'seat' }).say({ c: 'stage', to: 'inflate' }).say({ c: 'stage', to: 'hold' });
      s.flow(1800, 1.5, { hz: 1, temps: (tS) => temps(course(atS), from)(tS + from) });
      return s;
    };
    const [usual, slow] = [run(USUAL_S / 5), run((1.7 * USUAL_S) / 5)];
    const raised = (s: Script) =>
      s.events.filter((e) => e.e === 'alarm' && e.alarm === 'batch-slow' && e.to === 'unacknowledged');
    expect(raised(usual)).toEqual([]);
    expect(raised(slow).length).toBeGreaterThan(0);
    const view = (s: Script) => viewOf(s.w, s.w.tUs);
    expect(view(slow).cup).toMatchObject({ verdict: 'slow' });
    expect(view(slow).cure!.low).toBeLessThan(0.85 * view(usual).cure!.low);
  });
});
