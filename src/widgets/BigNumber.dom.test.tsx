import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, describe, expect, it } from 'vitest';
import { METRIC } from '../words/format.ts';
import { BigNumber } from './BigNumber.tsx';
import { type Trust, trustOf } from './trust.ts';

afterEach(cleanup);

function show(trust: Trust, bar: number | null, ageS: number | null, overBar: number | null = null) {
  render(() => (
    <BigNumber bar={bar} uBar={0.015} trust={trust} ageS={ageS} overBar={overBar} units={METRIC} />
  ));
  return {
    value: screen.getByTestId('pressure-value').textContent,
    note: screen.getByTestId('pressure-note').textContent ?? '',
    box: screen.getByTestId('pressure'),
  };
}

describe('the big number', () => {
  it('shows a good reading with its unit and uncertainty', () => {
    const { value, note, box } = show('good', 1.456, 0.02);
    expect(value).toBe('1.46');
    expect(note).toContain('± 0.015\u00a0bar, gauge');
    expect(box.textContent).toContain('bar');
  });

  it('a stale reading says that it is old', () => {
    const { note, box } = show('stale', 1.4, 0.7);
    expect(note).toContain('Old reading');
    expect(box.dataset.trust).toBe('stale');
    expect(box.classList.contains('stale')).toBe(true);
  });

  it('a reading over the sensor’s span is the end of the span, and said to be over it', () => {
    const { value, note, box } = show('over', 4.07, 3, 4);
    expect(value).toBe('>4.00');
    expect(note).toContain('OVER 4.00');
    expect(note).not.toContain('±');
    expect(box.dataset.trust).toBe('over');
  });

  it('a lost reading is never a number in the large digits', () => {
    const { value, note } = show('lost', 1.4, 12);
    expect(value).not.toMatch(/\d/);
    expect(note).toContain('Reading lost');
    expect(note).toContain('12');
  });
});

describe('trust', () => {
  it('is lost when the alarm says so, whatever number stands there', () => {
    expect(trustOf(1.4, 0.1, false, true, false, false)).toBe('lost');
  });

  it('is lost without a usable value, and none before the first', () => {
    expect(trustOf(null, 3, true, false, false, false)).toBe('lost');
    expect(trustOf(null, null, false, false, false, false)).toBe('none');
    expect(trustOf(null, null, false, true, false, false)).toBe('lost');
  });

  it('is over the span while the engine says so, and lost when it has fallen silent', () => {
    expect(trustOf(4.07, 3, true, false, false, true)).toBe('over');
    expect(trustOf(4.07, 3, true, false, true, true)).toBe('lost');
  });

  it('is old when the engine is silent, however fresh the last word', () => {
    expect(trustOf(1.4, 0.01, false, false, true, false)).toBe('stale');
    expect(trustOf(1.4, 0.01, false, false, false, false)).toBe('good');
  });
});
