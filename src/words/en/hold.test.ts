import { describe, expect, it } from 'vitest';
import { DERIVATIONS, REFUSALS, WARNINGS } from '../../job/plan-codes.ts';
import type { LeakFigure } from '../../watch/events.ts';
import { english } from '../testing/english.ts';

const { bandExitText, leakText, liftText } = english.hold;
const { planNumber, refusalText } = english.refusals;
const { warningText } = english.plan;

const plain = (text: string) => text.replaceAll('\u00a0', ' ');
const leak = (part: Partial<LeakFigure>): LeakFigure => ({
  verdict: 'cannot-tell',
  mbarPerMin: null,
  low: null,
  high: null,
  paM3PerS: null,
  reason: null,
  ...part,
});
const at = (value: number) => ({ value, low: value - 0.02, high: value + 0.02 });

describe('hold in words', () => {
  it('a leak has its interval, a tight hold its bound, and neither is said without ground', () => {
    expect(plain(leakText(leak({ verdict: 'leaking', mbarPerMin: 2.1, low: 1.6, high: 2.6 })))).toBe(
      'Leaking 2.1 mbar/min (95 %: 1.6 mbar/min to 2.6 mbar/min)',
    );
    expect(plain(leakText(leak({ verdict: 'tight', high: 0.4 })))).toBe('No leak above 0.4 mbar/min');
    expect(leakText(leak({ verdict: 'cannot-be-seen', reason: 'line' }))).toContain('supplied');
    expect(leakText(leak({ verdict: 'cannot-be-seen', reason: 'line' }))).not.toMatch(/\d/);
  });

  it('an upper bound is rounded up and never to nothing', () => {
    expect(plain(leakText(leak({ verdict: 'tight', high: 0.02 })))).toBe('No leak above 0.1 mbar/min');
    expect(plain(leakText(leak({ verdict: 'tight', high: 0.81 })))).toBe('No leak above 0.9 mbar/min');
  });

  it('a fall is put down to a leak only where one was found', () => {
    const down = { direction: 'down', inS: { value: 5000, low: 4000, high: 9000 } } as const;
    expect(bandExitText(down, 'leaking')).toContain('by leak');
    for (const verdict of ['tight', 'cannot-tell', 'cannot-be-seen'] as const)
      expect(bandExitText(down, verdict)).not.toContain('leak');
    expect(bandExitText(down, 'tight')).toContain('as it cools');
  });

  it('advice to let air out names the floor', () => {
    const text = liftText({
      peakBar: at(1.52),
      ceilingInS: { value: 900, low: 700, high: 1200 },
      adviceHighBar: 1.35,
      adviceLowBar: 0.9,
    });
    expect(plain(text)).toContain('let out to 1.35 bar, not under 0.90');
  });
});

describe('the plan in words', () => {
  it('each warning and refusal is a sentence with its numbers and what it is about', () => {
    for (const code of WARNINGS)
      expect(warningText({ code, numbers: [], about: null }), code).toMatch(/^[A-Z].{10,}\.$/);
    for (const code of REFUSALS)
      expect(
        plain(refusalText({ code, numbers: [{ name: 'rated', value: 1.5, unit: 'bar' }], about: 'T-1' })),
        code,
      ).toMatch(/^[A-Z][^(]* \(T-1: rated 1\.50 bar\)\.( [A-Z].*\.)?$/);
    expect(new Set(DERIVATIONS).size).toBe(DERIVATIONS.length);
  });

  it('numbers keep the digits that matter, in the user’s units', () => {
    expect(plain(planNumber(0.0153, 'bar'))).toBe('0.015 bar');
    expect(plain(planNumber(28_400, 'N'))).toBe('28.4 kN');
    expect(plain(planNumber(90, 'min'))).toBe('1 h 30 min');
    expect(planNumber(7, '1')).toBe('7.00');
    expect(planNumber(Number.NaN, 'bar')).toBe('–');
  });
});
