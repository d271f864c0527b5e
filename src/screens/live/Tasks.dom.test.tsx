import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import { ENTRIES } from '../../job/entries.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { GaugeCheck, WarmCheck } from './Tasks.tsx';

afterEach(cleanup);

function show(what: () => ReturnType<typeof GaugeCheck>) {
  const ask = vi.fn(async () => null);
  const live = { events: () => [], view: () => ({ temps: [probeOf('sleeve', 12)] }) };
  render(() => (
    <ServicesContext.Provider value={{ ask, live, units: () => METRIC } as unknown as Services}>
      {what()}
    </ServicesContext.Provider>
  ));
  return ask;
}

/** Types a value; gives what is said of it. */
function type(testId: string, value: number): string {
  const input = screen.getByTestId(testId);
  fireEvent.input(input, { target: { value: String(value) } });
  return input.parentElement?.querySelector('[role=alert]')?.textContent ?? '';
}

it.each([
  ['gauge-value', () => <GaugeCheck />, ENTRIES.gaugeBar, 'at most 20.00\u00a0bar', 'at least 0.00\u00a0bar'],
  [
    'warm-sleeve',
    () => <WarmCheck />,
    ENTRIES.thermometerC,
    'at most 60.0\u00a0°C',
    'at least −20.0\u00a0°C',
  ],
] as const)('%s holds to the bounds of what may be logged', (testId, what, { lo, hi }, most, least) => {
  show(what);
  expect(type(testId, hi)).toBe('');
  expect(type(testId, lo)).toBe('');
  expect(type(testId, hi + 1)).toContain(most);
  expect(type(testId, lo - 1)).toContain(least);
});

it('sends what was read', () => {
  const ask = show(() => <GaugeCheck />);
  type('gauge-value', 0.41);
  fireEvent.click(screen.getByTestId('gauge-send'));
  expect(ask).toHaveBeenCalledExactlyOnceWith({ q: 'command', command: { c: 'gauge', bar: 0.41 } });
});
