import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import type { Stage } from '../watch/codes.ts';
import type { CureView } from '../watch/view.ts';
import { METRIC } from '../words/format.ts';
import { CURE } from '../words/hold.ts';
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

function show(
  view: CureView | null,
  nowUtcMs: number | null = noon,
  hasResin = true,
  stage: Stage = 'hold',
  asksSample = false,
) {
  render(() => (
    <CureLine
      cure={view}
      cup={null}
      hasResin={hasResin}
      isLightCured={false}
      stage={stage}
      asksSample={asksSample}
      nowUtcMs={nowUtcMs}
      units={METRIC}
    />
  ));
  return screen.getByTestId('cure-when').textContent ?? '';
}

describe('the cure line', () => {
  it('names the clock time with its range', () => {
    expect(show(cure({}))).toContain('Reached at about 13:00 (12:50 to 13:00)');
  });

  it('asks for the sample only where the page does: felt, or beside an alarm, the time is only reached', () => {
    const drawn = () => screen.getByTestId('cure-line').textContent;
    show(cure({ low: 1, metAtS: 3000 }), noon, true, 'hold', true);
    expect(drawn()).toContain('CHECK SAMPLE');
    cleanup();
    show(cure({ low: 1, metAtS: 3000 }));
    expect(drawn()).toContain('reached');
    expect(drawn()).not.toContain('CHECK SAMPLE');
  });

  it('of a resin that light cures it says nothing but that', () => {
    render(() => (
      <CureLine
        cure={null}
        cup={null}
        hasResin
        isLightCured
        stage="hold"
        asksSample={false}
        nowUtcMs={noon}
        units={METRIC}
      />
    ));
    expect(screen.getByTestId('cure-when').textContent).toBe('Cure is not judged: the resin cures by light');
    expect(screen.getByTestId('cure-when').dataset.met).toBe('false');
    expect(screen.queryByRole('progressbar')).toBeNull();
  });

  it('names no clock time while practice runs faster than the clock', () => {
    const text = show(cure({}), null);
    expect(text).toContain('Reached in about');
    expect(text).not.toMatch(/\d\d:\d\d/);
  });

  it('tells neither clock time nor exotherm while the line is filled', () => {
    const exotherm = {
      peakInS: { value: 1800, low: 1200, high: 2400 },
      peakC: { value: 24, low: 18, high: 31 },
    };
    for (const stage of ['seat', 'inflate'] as const) {
      expect(show(cure({ progress: 0, low: 0, exotherm }), noon, true, stage)).toBe(
        'Counts since seating; when it will be reached is told from the hold on',
      );
      expect(screen.queryByTestId('cure-exotherm')).toBeNull();
      cleanup();
    }
    show(cure({ exotherm }));
    expect(screen.getByTestId('cure-exotherm').textContent).toMatch(
      /generic sketch.*at about 12:30 \(12:20 to 12:40\), in 30\smin 00\ss: 24\.0\s°C \(18\.0\s°C to 31\.0\s°C\)/,
    );
    cleanup();
    show(cure({ exotherm }), null);
    expect(screen.getByTestId('cure-exotherm').textContent).not.toMatch(/\d\d:\d\d/);
    cleanup();
    show(cure({}));
    expect(screen.queryByTestId('cure-exotherm')).toBeNull();
  });

  it('speaks of the data sheet’s time by a cautious count, and claims no more', () => {
    const text = show(cure({ low: 1.01, progress: 1.2, high: 1.4, metInS: null, metAtS: 9000 }));
    expect(text).toContain('cautious count');
    expect(document.body.textContent).not.toMatch(/\bcured\b|\bsafe\b/i);
  });

  it('the bar tells the lower bound, not the hopeful one', () => {
    show(cure({}));
    const bar = screen.getByRole('progressbar');
    expect(bar.getAttribute('aria-valuenow')).toBe('50');
    expect(bar.getAttribute('aria-valuetext')).toContain('70');
  });

  it('says when it cannot tell, when nothing is met, and when no resin is known', () => {
    expect(show(cure({ source: 'none', metInS: null, coldest: null }))).toBe('Cure time not known');
    cleanup();
    expect(show(cure({ metInS: null }))).toBe('Data-sheet cure time not reached');
    cleanup();
    expect(show(null, noon, false)).toContain('No resin');
    cleanup();
    expect(show(null)).toBe('Counts from seating on');
  });

  it('a likely count over 100 % never reads as done while the cautious one is under it', () => {
    show(cure({ progress: 1.3, low: 0.78, high: 1.6 }));
    const text = screen.getByTestId('cure-line').textContent ?? '';
    expect(text).not.toContain('130');
    expect(text).toContain('Not reached');
    expect(text).toContain('78');
    expect(screen.getByTestId('cure-when').dataset.met).toBe('false');
    expect(text).not.toContain('CHECK SAMPLE');
  });

  it('shows the late end of the range as a clock time, the counts in words, and never a time while filling', () => {
    const drawn = () => screen.getByTestId('cure-line').querySelector('svg')?.textContent ?? '';
    show(cure({ low: 0.36, progress: 0.39, high: 0.42, metInS: { value: 4800, low: 4200, high: 5400 } }));
    expect(drawn()).toContain('at 13:30');
    expect(drawn()).toContain('cautious count 36\u00a0% to 42\u00a0%');
    cleanup();
    show(cure({}), noon, true, 'inflate');
    expect(drawn()).not.toMatch(/at \d\d:\d\d/);
    cleanup();
    // Two counts that read as one number are one.
    show(cure({ low: 0.021, progress: 0.022, high: 0.024 }));
    expect(drawn()).toContain('cautious count 2\u00a0%');
    expect(drawn()).not.toContain(' to ');
  });

  it('met is told by words', () => {
    expect(show(cure({ progress: 1.3, low: 1.01, high: 1.6 }))).toBe(CURE.met);
    expect(screen.getByTestId('cure-when').dataset.met).toBe('true');
  });
});
