import { describe, expect, it } from 'vitest';
import { DEFAULT_REACTION, safeReaction } from './reaction.ts';
import { parseSetup } from './setup-schema.ts';
import { PRESSURE_CHANNEL, setupOf } from './testing/givens.ts';

const setup = setupOf({
  number: 3,
  jobId: 'job-1',
  tap: 'hose',
  channels: [PRESSURE_CHANNEL],
  air: { bar: 0.98, uBar: 0.01, source: 'altitude' },
  ground: { c: 10, uC: 2 },
  volume: null,
  pipe: { innerMm: 150, wallMm: 18, material: 'clay', sleeveMm: 3 },
  resin: null,
});

describe('setup read back', () => {
  it('survives JSON', () => {
    expect(parseSetup(JSON.parse(JSON.stringify(setup)))).toEqual({ ok: true, value: setup });
    expect(parseSetup({ ...setup, limits: null, ground: null }).ok).toBe(true);
  });

  it('refuses what would mislead the guard', () => {
    const limits = setup.limits!;
    expect(parseSetup({ ...setup, limits: { ...limits, ceilingBar: 2.51 } })).toMatchObject({
      ok: false,
      issues: [{ path: 'limits.ceilingBar', code: 'pair' }],
    });
    expect(parseSetup({ ...setup, limits: { ...limits, workingBar: 2.49 } })).toMatchObject({
      ok: false,
      issues: [{ path: 'limits.workingBar', code: 'pair' }],
    });
    expect(parseSetup({ ...setup, limits: { ...limits, ratedBar: Number.NaN } }).ok).toBe(false);
    expect(parseSetup({ ...setup, later: 1 })).toMatchObject({
      ok: false,
      issues: [{ code: 'unknown-key' }],
    });
    expect(parseSetup({ ...setup, channels: Array(15).fill(setup.channels[0]) }).ok).toBe(false);
    // The pressure is never the second adapter's.
    const [pressure] = setup.channels;
    expect(parseSetup({ ...setup, channels: [{ ...pressure, role: 'pressure', index: 7 }] }).ok).toBe(false);
    expect(parseSetup(null).ok).toBe(false);
  });
});

describe('reaction times', () => {
  it('stay inside safe limits whatever was stored', () => {
    expect(safeReaction({ handS: 0, closeS: 9 })).toEqual({ handS: 2, closeS: 2 });
    expect(safeReaction({ handS: Number.NaN, closeS: Number.NaN })).toEqual(DEFAULT_REACTION);
    expect(safeReaction({ handS: 4, closeS: 1 })).toEqual({ handS: 4, closeS: 1 });
  });
});
