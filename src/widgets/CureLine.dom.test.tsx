import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import type { CureView } from '../watch/view.ts';
import { METRIC } from '../words/format.ts';
import { CureLine } from './CureLine.tsx';

afterEach(cleanup);

const cure = (part: Partial<CureView>): CureView => ({
  sinceS: 0,
  progress: 0.6,
  low: 0.5,
  high: 0.7,
  equivalentAgeMin: 60,
  coldest: { value: 9, low: 7, high: 11 },
  source: 'pipe',
  metInS: { value: 3600, low: 3000, high: 3600 },
  metAtS: null,
  exotherm: null,
  ...part,
});
// A local time, so that the test does not depend on the zone of the machine.
const noon = new Date(2026, 10, 25, 12, 0).getTime();

function show(view: CureView | null, nowUtcMs: number | null = noon, hasResin = true) {
  render(() => <CureLine cure={view} hasResin={hasResin} nowUtcMs={nowUtcMs} units={METRIC} />);
  return screen.getByTestId('cure-when').textContent ?? '';
}

describe('the cure line', () => {
  it('names the clock time with its range', () => {
    expect(show(cure({}))).toContain('Met at about 13:00 (12:50 to 13:00)');
  });

  it('names no clock time while practice runs faster than the clock', () => {
    const text = show(cure({}), null);
    expect(text).toContain('Met in about');
    expect(text).not.toMatch(/\d\d:\d\d/);
  });

  it('speaks of the data sheet’s time as a lower bound, and claims no more', () => {
    const text = show(cure({ low: 1.01, progress: 1.2, high: 1.4, metInS: null, metAtS: 9000 }));
    expect(text).toContain('lower bound');
    expect(document.body.textContent).not.toMatch(/\bcured\b|\bsafe\b/i);
  });

  it('the bar tells the lower bound, not the hopeful one', () => {
    show(cure({}));
    const bar = screen.getByRole('progressbar');
    expect(bar.getAttribute('aria-valuenow')).toBe('50');
    expect(bar.getAttribute('aria-valuetext')).toContain('70');
  });

  it('says when it cannot tell, when nothing is met, and when no resin is known', () => {
    expect(show(cure({ source: 'none', metInS: null, coldest: null }))).toBe('Cure time cannot be told');
    cleanup();
    expect(show(cure({ metInS: null }))).toBe('Cure time by the data sheet not met');
    cleanup();
    expect(show(null, noon, false)).toContain('No resin');
    cleanup();
    expect(show(null)).toBe('Counts from seating on');
  });
});
