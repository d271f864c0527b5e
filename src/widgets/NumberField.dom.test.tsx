import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, describe, expect, it } from 'vitest';
import { METRIC } from '../words/format.ts';
import { NumberField, readNumber } from './NumberField.tsx';

afterEach(cleanup);

describe('number field', () => {
  it('keeps the value that stands while the entry is wrong, and says why', async () => {
    const [value, setValue] = createSignal<number | null>(1.5);
    render(() => (
      <NumberField
        label="Rated"
        value={value()}
        onValue={setValue}
        rules={{ kind: 'pressure', lo: 0.05, hi: 20 }}
      />
    ));
    const input = screen.getByLabelText<HTMLInputElement>(/Rated/);
    expect(input.value).toBe('1.5');
    fireEvent.focus(input);
    fireEvent.input(input, { target: { value: '25' } });
    expect(value()).toBe(1.5);
    expect(screen.getByRole('alert').textContent).toContain('at most 20.00');
    expect(input.getAttribute('aria-invalid')).toBe('true');
    fireEvent.input(input, { target: { value: '2,25' } });
    expect(value()).toBe(2.25);
    expect(input.getAttribute('aria-invalid')).toBe('false');
    fireEvent.input(input, { target: { value: '' } });
    expect(value()).toBeNull();
  });

  it('shows and reads the user’s unit, and keeps bar', () => {
    const psi = { ...METRIC, pressure: 'psi' } as const;
    const [value, setValue] = createSignal<number | null>(1);
    render(() => (
      <NumberField
        label="Limit"
        rules={{ kind: 'pressure' }}
        units={psi}
        value={value()}
        onValue={setValue}
      />
    ));
    const input = screen.getByLabelText<HTMLInputElement>(/Limit/);
    expect(input.value).toBe('14.5');
    fireEvent.input(input, { target: { value: '29' } });
    // 29 psi at 6894.757 Pa each (GNU units).
    expect(value()).toBeCloseTo(1.99948, 5);
    fireEvent.input(input, { target: { value: '1.5 bar' } });
    expect(value()).toBe(1.5);
  });

  it('takes a bound that is typed in another unit', () => {
    const rules = { kind: 'temperature', lo: -20, hi: 50 } as const;
    const fahrenheit = { ...METRIC, temperature: 'F' } as const;
    expect(readNumber('122', rules, fahrenheit)).toEqual({ ok: true, value: 50 });
    expect(readNumber('122.1', rules, fahrenheit).ok).toBe(false);
  });

  it('refuses what could mean two things', () => {
    expect(readNumber('1,234.5', { kind: 'pressure' }, METRIC).ok).toBe(false);
    expect(readNumber('12 °C', { kind: 'pressure' }, METRIC).ok).toBe(false);
    expect(readNumber('1.5', { whole: true }, METRIC).ok).toBe(false);
    expect(readNumber('  ', { kind: 'pressure', lo: 1 }, METRIC)).toEqual({ ok: true, value: null });
    expect(readNumber('  ', { kind: 'pressure', lo: 1, open: false }, METRIC).ok).toBe(false);
  });
});
