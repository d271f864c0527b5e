import { describe, expect, it } from 'vitest';
import type { JobDocument } from '../job/job-document.ts';
import { parseSetup } from '../job/setup-schema.ts';
import { DEMO } from '../words/testing/demo.ts';
import { withOverRated } from './packer-history.ts';
import { codes, derived, packer, plan, pressures } from './testing/plan-of.ts';

describe('water in the line', () => {
  it('adds its vapour to the lift and lowers the proposal; not said counts as wet', () => {
    const resin = { ...DEMO.resin!, document: { ...DEMO.resin!.document, expectedRiseK: 25 } };
    const of = (wetness: JobDocument['wetness']) =>
      plan({ wetness, ...pressures({ workingBar: 1.2 }) }, { resin });
    const [dry, wet, unknown] = [of('dry'), of('wet'), of('unknown')];
    // 10 to 35 °C: 56 less 12 mbar of vapour (steam tables), on (1.2 + 0.985) · 25 / 283.15 of air.
    expect(wet.liftBar - dry.liftBar).toBeCloseTo(0.0563 - 0.0123 * (1 + 25 / 283.15), 3);
    expect(wet.liftBar / dry.liftBar).toBeGreaterThan(1.2);
    expect(unknown.liftBar).toBe(wet.liftBar);
    expect(codes(unknown.warnings)).toContain('wetness-unknown');
    for (const said of [dry, wet]) expect(codes(said.warnings)).not.toContain('wetness-unknown');
    expect(wet.proposalBar!).toBeLessThan(dry.proposalBar! - 0.02);
    expect(wet.setup.wetness).toBe('wet');
    // Working at the proposal, the wet line ends at the ceiling.
    const at = plan({ wetness: 'wet', ...pressures({ workingBar: null }) }, { resin });
    const end = at.setup.limits!.workingBar + at.liftBar + 0.04;
    expect(end).toBeLessThanOrEqual(at.setup.limits!.ceilingBar + 1e-9);
    expect(end).toBeGreaterThan(at.setup.limits!.ceilingBar - 0.012);
  });
});

it('a packer that was over its rating and that nobody has inspected is one to be inspected first', () => {
  const over = withOverRated(packer, { runId: 'run-1', date: '2026-04-14', peakBar: 2.3 })!;
  const planned = plan({}, { packer: { ...DEMO.packer!, document: over } });
  expect(planned.setup.inspectFirst).toBe(true);
  expect(codes(planned.warnings)).toContain('packer-over-rated');
  expect(parseSetup(JSON.parse(JSON.stringify(planned.setup)))).toEqual({ ok: true, value: planned.setup });
  expect(plan().setup.inspectFirst).toBeUndefined();
});

describe('two packers on one line', () => {
  it('the lower rating is the limit, only one is seen, and their air is no longer known', () => {
    expect(plan().setup.sharedLine).toBeUndefined();
    const two = (otherRatedBar: number | null) =>
      plan({ packersOnLine: 'two', otherRatedBar, ...pressures({ workingBar: 1.2 }) });
    const weaker = two(1.5);
    expect(weaker.setup.limits!.ratedBar).toBe(1.5);
    expect(weaker.setup.limits!.ceilingBar).toBeCloseTo(1.5 - weaker.setup.limits!.uBar, 9);
    expect(derived(weaker, 'rated-lower')).toBe(1.5);
    expect(codes(weaker.warnings)).toContain('two-on-line');
    expect(weaker.setup).toMatchObject({ sharedLine: true, volume: null });
    expect(parseSetup(JSON.parse(JSON.stringify(weaker.setup)))).toEqual({ ok: true, value: weaker.setup });
    expect(two(2.4).setup.limits!.ratedBar).toBe(1.8);
    expect(codes(two(2.4).refusals)).toEqual([]);
    expect(codes(two(null).refusals)).toContain('other-unrated');
    // A rating that is typed for a line with one packer is nobody's.
    expect(plan({ packersOnLine: 'one', otherRatedBar: 1.5 }).setup.limits!.ratedBar).toBe(1.8);
  });
});

describe('a packer that is warmed', () => {
  const heating = (by: JobDocument['heating']['by'], toC: number | null = null) => ({ heating: { by, toC } });

  it('goes into the Setup; not said is said', () => {
    expect(plan().setup.heating).toBe('none');
    const unknown = plan(heating('unknown'));
    expect(unknown.setup.heating).toBe('unknown');
    expect(codes(unknown.warnings)).toContain('heating-unknown');
    expect(codes(plan(heating('unknown'), { resin: null }).warnings)).not.toContain('heating-unknown');
    expect(codes(plan(heating('steam')).warnings)).toContain('not-gas');
    const read = parseSetup(JSON.parse(JSON.stringify(unknown.setup)));
    expect(read).toEqual({ ok: true, value: unknown.setup });
  });

  it('hot air lifts a line that cannot let it out: by the ideal gas law from the ground to what it is warmed to', () => {
    const hot = plan({ ...heating('hot-air', 40), line: 'closed' });
    expect(hot.liftBar).toBeCloseTo(((1.5 + hot.setup.air.bar) * 30) / 283.15, 9);
    expect(codes(plan({ ...heating('hot-air', 60), line: 'closed' }).refusals)).toContain('lift-past-rated');
    expect(plan({ ...heating('hot-air', 60), line: 'supplied-relieving' }).liftBar).toBe(0);
    // A resin that warms it more than that is what counts.
    expect(plan(heating('hot-air', 12)).liftBar).toBe(plan().liftBar);
    expect(codes(plan(heating('hot-air')).warnings)).toContain('heated-to-unknown');
  });
});
