import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { JobBundle } from '../job/bundle.ts';
import { LINES } from '../job/codes.ts';
import { blankJob, type JobDocument } from '../job/job-document.ts';
import { ratedAt } from '../job/packer-table.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { DEMO } from '../words/testing/demo.ts';
import { makeSetup, type Plan } from './setup.ts';
import { codes, DEVICE, derived, packer, plan, pressures } from './testing/plan-of.ts';

describe('the practice job', () => {
  const p = plan();
  const limits = p.setup.limits!;

  it('is a Setup that can be read back, without refusals', () => {
    expect(parseSetup(JSON.parse(JSON.stringify(p.setup)))).toEqual({ ok: true, value: p.setup });
    expect(p.refusals).toEqual([]);
    expect(codes(p.warnings)).toEqual(['pot-mass', 'probe-uncompared']);
  });

  it('ceiling = rated − U, floor = head + free inflation + margin', () => {
    expect(limits.ratedBar).toBe(1.8);
    expect(limits.ceilingBar).toBeCloseTo(1.8 - limits.uBar, 9);
    expect(limits.uBar).toBeGreaterThan(0.01);
    expect(limits.uBar).toBeLessThan(0.05);
    expect(limits.workingBar).toBe(1.5);
    // 1.2 m of water at 10 °C: 999.703 · 9.80665 · 1.2 Pa (IAPWS-95 density).
    expect(limits.headBar).toBeCloseTo(0.117645, 5);
    expect(limits.freeInflationBar).toBe(0.45);
    expect(limits.floorBar).toBeCloseTo(0.768, 9);
    expect(limits.noMargin).toBeNull();
  });

  it('every limit carries its derivation', () => {
    for (const [code, value] of [
      ['rated', limits.ratedBar],
      ['u', limits.uBar],
      ['ceiling', limits.ceilingBar],
      ['working', limits.workingBar],
      ['floor', limits.floorBar],
      ['head', limits.headBar],
      ['volume', p.setup.volume!.litres],
    ] as const)
      expect(derived(p, code)).toBe(value);
    // 6 K on a closed line of 1.5 bar at 10 °C and 240 m: (1.5 + 0.985) · 6 / 283.15 (ideal gas).
    expect(p.liftBar).toBeCloseTo(((1.5 + p.setup.air.bar) * 6) / 283.15, 9);
    expect(derived(p, 'end-force')).toBeCloseTo((1.5e5 * Math.PI * 0.15 ** 2) / 4, 6);
    expect(derived(p, 'energy')).toBeGreaterThan(2000);
    expect(limits.uBar).toBeGreaterThanOrEqual(p.budget!.expanded);
    expect(limits.uBar - p.budget!.expanded).toBeLessThan(0.001);
  });

  it('takes the calibration of this device and the places of the job', () => {
    const [press, sleeve] = p.setup.channels;
    expect(press!.calibration).toMatchObject({ sensorSerial: 'T-2207', deviceId: 'RIG-0001', channel: 0 });
    expect(press!.calibration!.gain).toBeCloseTo(1, 2);
    expect(sleeve).toMatchObject({ place: 'sleeve', thermocouple: 'K', thermocoupleClass: 1 });
    expect(p.setup.rateHz).toBe(20);
  });
});

it('what its own warmth does to a sensor goes from its sheet into the Setup, as a share of its span', () => {
  const [first, ...rest] = DEMO.sensors;
  const warm = (perKelvin: number | null) =>
    plan({}, { sensors: [{ ...first!, document: { ...first!.document, perKelvin } }, ...rest] });
  expect(warm(0.05).setup.channels[0]!.perKelvin).toBeCloseTo(5e-4, 12);
  expect(warm(null).setup.channels[0]!.perKelvin).toBeUndefined();
  const u = (p: Plan) => p.setup.limits!.uBar;
  expect(u(warm(0.05))).toBeGreaterThan(u(warm(null)));
  expect(u(warm(0.01))).toBeLessThan(u(warm(null)));
  // The same where no device is connected.
  const alone = makeSetup({
    bundle: { ...DEMO, sensors: [{ ...first!, document: { ...first!.document, perKelvin: 0.05 } }, ...rest] },
    settings: null,
    device: null,
    number: 1,
    practice: false,
  });
  expect(alone.budget!.rows.find((r) => r.code === 'environment')!.u).toBeCloseTo(
    (0.05e-2 * 4 * 10) / Math.sqrt(3),
    9,
  );
});

it('a resin that light cures: cure is not judged, and no time, cold or heat of it is spoken of', () => {
  const resin = {
    ...DEMO.resin!,
    document: { ...DEMO.resin!.document, curedBy: 'light' as const, curePoints: [] },
  };
  const cold = {
    ground: { waterM: 0, temperatureC: 1, uC: 1 },
    heating: { by: 'unknown' as const, toC: null },
  };
  const p = plan(cold, { resin });
  expect(p.setup.resin!.curedBy).toBe('light');
  expect(codes(p.warnings)).toContain('light-cured');
  for (const code of ['cold', 'no-cure-points', 'heating-unknown'])
    expect(codes(p.warnings)).not.toContain(code);
  expect(plan().setup.resin!.curedBy).toBe('time');
});

describe('rated pressure', () => {
  it('between two rows is the lower; beyond the last there is none', () => {
    expect(ratedAt(packer, 100)).toBe(2.5);
    expect(ratedAt(packer, 110)).toBe(2.1);
    expect(ratedAt(packer, 125)).toBe(2.1);
    expect(ratedAt(packer, 126)).toBe(1.8);
    expect(ratedAt(packer, 96)).toBe(2.5);
    expect(ratedAt(packer, 156)).toBeNull();
  });
  it('an unknown diameter takes the lowest, a wrong size is refused', () => {
    const unknown = plan({ pipe: { ...DEMO.job.pipe, dn: null, innerMm: null } });
    expect(unknown.setup.limits!.ratedBar).toBe(1.8);
    expect(codes(unknown.warnings)).toContain('diameter-unknown');
    expect(unknown.setup.limits!.floorBar).toBeNull();
    const wide = plan({ pipe: { ...DEMO.job.pipe, innerMm: 200 } });
    expect(codes(wide.refusals)).toContain('packer-too-small');
    expect(wide.setup.limits!.ratedBar).toBe(1.8);
    expect(codes(plan({ pipe: { ...DEMO.job.pipe, innerMm: 80 } }).refusals)).toContain('packer-too-large');
    expect(codes(plan({ pipe: { ...DEMO.job.pipe, innerMm: null } }).warnings)).toContain(
      'diameter-not-measured',
    );
  });
  it('18 bar is not taken for the plate: it is refused until somebody read it again, then it is to be looked at', () => {
    const rated = (ratedBar: number, plateReadBar?: number | null) =>
      plan(
        {},
        {
          packer: {
            id: 'p',
            document: {
              ...packer,
              ratings: [
                { diameterMm: 125, ratedBar: 2.1 },
                { diameterMm: 155, ratedBar },
              ],
              ...(plateReadBar === undefined ? {} : { plateReadBar }),
            },
          },
        },
      );
    expect(rated(18).refusals).toContainEqual({
      code: 'rated-unread',
      numbers: [{ name: 'rated', value: 18, unit: 'bar' }],
      about: packer.name,
    });
    // What was read again was another number.
    expect(codes(rated(18, 8).refusals)).toContain('rated-unread');
    expect(codes(rated(8, null).refusals)).toContain('rated-unread');
    expect(codes(rated(8, 8).refusals)).not.toContain('rated-unread');
    expect(codes(rated(8, 8).warnings)).toContain('rated-high');
    // 6 bar: common practice, no source.
    for (const usual of [1.8, 2.5, 6]) {
      expect(codes(rated(usual).refusals)).not.toContain('rated-unread');
      expect(codes(rated(usual).warnings)).not.toContain('rated-high');
    }
    const two = plan({ packersOnLine: 'two', otherRatedBar: 18 });
    expect(two.warnings).toContainEqual({
      code: 'rated-high',
      numbers: [{ name: 'other-rated', value: 18, unit: 'bar' }],
      about: null,
    });
  });
  it('a sensor that is chosen is held against the rated pressure before a device is there', () => {
    const [transducer, ...rest] = DEMO.sensors;
    const short = { ...transducer!.document, range: { lo: 0, hi: 1.6 }, calibration: null };
    const alone = plan({}, { sensors: [{ ...transducer!, document: short }, ...rest] }, null);
    expect(codes(alone.refusals)).toContain('rated-over-range');
    expect(codes(plan({}, {}, null).refusals)).not.toContain('rated-over-range');
  });
  it('no packer or no rating: no limit, and it is said', () => {
    const none = plan({}, { packer: null });
    expect(none.setup.limits).toBeNull();
    expect(codes(none.warnings)).toContain('no-packer');
    const unrated = plan({}, { packer: { id: 'p', document: { ...packer, ratings: [] } } });
    expect(unrated.setup.limits).toBeNull();
    expect(codes(unrated.warnings)).toContain('no-rating');
  });
});

describe('working pressure', () => {
  it('is proposed so that lift and after-rise end at the ceiling', () => {
    const p = plan(pressures({ workingBar: null }));
    const { workingBar, ceilingBar } = p.setup.limits!;
    expect(workingBar).toBe(p.proposalBar);
    const end = workingBar + ((workingBar + p.setup.air.bar) * 6) / 283.15 + 0.04;
    expect(end).toBeLessThanOrEqual(ceilingBar);
    expect(end).toBeGreaterThan(ceilingBar - 0.012);
    expect(p.refusals).toEqual([]);
  });

  it('at rated: only with a reason; then the urgent limit is rated itself and the mark stands', () => {
    const open = { line: 'supplied-relieving' } as const;
    const without = plan({ ...open, ...pressures({ workingBar: 1.8 }) });
    expect(codes(without.refusals)).toEqual(['no-margin-reason']);
    expect(without.setup.limits!.workingBar).toBe(without.setup.limits!.ceilingBar);
    const reason = 'plate value asked for by the client';
    const p = plan({ ...open, ...pressures({ workingBar: 1.8, noMarginReason: reason }) });
    expect(p.refusals).toEqual([]);
    expect(p.setup.limits).toMatchObject({ ceilingBar: 1.8, workingBar: 1.8, noMargin: { reason } });
    expect(codes(p.warnings)).toContain('no-margin');
    // A reason changes nothing while there is margin.
    expect(plan(pressures({ noMarginReason: reason })).setup.limits!.noMargin).toBeNull();
  });

  it('over rated is refused, reason or not, and the guard never runs above it', () => {
    const p = plan(pressures({ workingBar: 1.9, noMarginReason: 'because' }));
    expect(codes(p.refusals)).toContain('working-over-rated');
    expect(p.setup.limits!.workingBar).toBeLessThanOrEqual(1.8);
    expect(p.setup.limits!.ceilingBar).toBeLessThan(1.8);
  });

  it('closed valve and lift past rated: refused unless lowered or relieving', () => {
    const resin = { id: 'r', document: { ...DEMO.resin!.document, expectedRiseK: 40 } };
    for (const line of ['closed', 'supplied-nonrelieving', 'unknown'] as const)
      expect(codes(plan({ line }, { resin }).refusals)).toContain('lift-past-rated');
    expect(codes(plan({ line: 'supplied-relieving' }, { resin }).refusals)).not.toContain('lift-past-rated');
    expect(codes(plan(pressures({ workingBar: 1.3 }), { resin }).refusals)).not.toContain('lift-past-rated');
    const near = { id: 'r', document: { ...DEMO.resin!.document, expectedRiseK: 33 } };
    expect(codes(plan({}, { resin: near }).warnings)).toContain('lift-past-ceiling');
  });

  it('must reach over the floor', () => {
    const p = plan({ ground: { ...DEMO.job.ground, waterM: 12 } });
    expect(codes(p.refusals)).toContain('floor-over-working');
    const dryUnknown = plan({ ground: { ...DEMO.job.ground, waterM: null } });
    expect(dryUnknown.setup.limits!.floorBar).toBeNull();
    expect(codes(dryUnknown.warnings)).toContain('water-unknown');
  });

  it('a sensor that ends under rated, or is too rough, is refused', () => {
    const [transducer, ...rest] = DEMO.sensors;
    const with_ = (more: object) =>
      plan({}, { sensors: [{ ...transducer!, document: { ...transducer!.document, ...more } }, ...rest] });
    expect(codes(with_({ range: { lo: 0, hi: 1.6 }, calibration: null }).refusals)).toContain(
      'rated-over-range',
    );
    expect(codes(with_({ accuracy: 2, calibration: null }).refusals)).toContain('u-over-rated');
  });
});

describe('three presses', () => {
  it('a packer alone makes a limit: everything else is said to be unknown', () => {
    const p = makeSetup({
      bundle: { jobId: null, job: blankJob('quick'), packer: DEMO.packer, resin: null, sensors: [] },
      settings: null,
      device: DEVICE,
      number: 1,
      practice: true,
    });
    expect(p.refusals).toEqual([]);
    expect(p.setup.limits!.ratedBar).toBe(1.8);
    expect(p.setup.limits!.floorBar).toBeNull();
    expect(p.setup).toMatchObject({ practice: true, jobId: null, tap: 'unknown', line: 'unknown' });
    expect(codes(p.warnings)).toEqual(
      expect.arrayContaining([
        'diameter-unknown',
        'water-unknown',
        'tap-no-hold',
        'line-unknown',
        'air-assumed',
      ]),
    );
  });
});

describe('during a run', () => {
  const next = (before: Plan, job: Partial<JobDocument>, more: Partial<JobBundle> = {}, zeroed = true) =>
    makeSetup({
      bundle: { ...DEMO, ...more, job: { ...DEMO.job, ...job } },
      settings: null,
      device: DEVICE,
      number: 2,
      practice: false,
      zeroed,
      before: before.setup,
    });

  it('the ceiling only falls, and the rest of the sheet still counts', () => {
    const first = plan({ ground: { ...DEMO.job.ground, waterM: null } });
    const second = next(first, {});
    expect(second.setup.limits!.ceilingBar).toBe(first.setup.limits!.ceilingBar);
    expect(second.setup.limits!.floorBar).toBeCloseTo(0.768, 9);
    expect(codes(second.warnings)).toContain('ceiling-kept');
    const reason = 'late wish';
    const late = next(first, pressures({ workingBar: 1.8, noMarginReason: reason }));
    expect(late.setup.limits!.ceilingBar).toBe(first.setup.limits!.ceilingBar);
    expect(late.setup.limits!.workingBar).toBe(first.setup.limits!.ceilingBar);
    expect(late.setup.limits!.noMargin).toBeNull();
  });

  it('a limit is not taken away, a lower one is taken', () => {
    const first = plan();
    expect(next(first, {}, { packer: null }).setup.limits).toEqual(first.setup.limits);
    const weaker = { ...packer, ratings: [{ diameterMm: 155, ratedBar: 1.6 }] };
    const lower = next(first, pressures({ workingBar: 1.4 }), { packer: { id: 'w', document: weaker } });
    expect(lower.setup.limits!.ceilingBar).toBeLessThan(1.6);
    expect(codes(lower.warnings)).not.toContain('ceiling-kept');
  });
});

it('whatever is entered, the limits keep their order and the Setup is readable', () => {
  const bar = fc.option(fc.double({ min: 0.05, max: 20, noNaN: true }));
  const arbitrary = fc.record({
    workingBar: bar,
    seatBar: fc.option(fc.double({ min: 0.05, max: 5, noNaN: true })),
    reason: fc.option(fc.constant('because')),
    innerMm: fc.option(fc.integer({ min: 30, max: 2000 })),
    waterM: fc.option(fc.double({ min: 0, max: 30, noNaN: true })),
    line: fc.constantFrom(...LINES),
    groundC: fc.option(fc.double({ min: -10, max: 50, noNaN: true })),
  });
  fc.assert(
    fc.property(arbitrary, (v) => {
      const p = plan({
        line: v.line,
        pipe: { ...DEMO.job.pipe, innerMm: v.innerMm },
        ground: { waterM: v.waterM, temperatureC: v.groundC, uC: null },
        ...pressures({ workingBar: v.workingBar, seatBar: v.seatBar, noMarginReason: v.reason }),
      });
      const l = p.setup.limits!;
      expect(l.workingBar).toBeLessThanOrEqual(l.ceilingBar);
      expect(l.ceilingBar).toBeLessThanOrEqual(l.ratedBar);
      expect(parseSetup(JSON.parse(JSON.stringify(p.setup))).ok).toBe(true);
      for (const d of p.derivations) expect(Number.isFinite(d.value)).toBe(true);
    }),
    { numRuns: 300, seed: 5 },
  );
});
