import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import { ENTRIES } from '../../job/entries.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { METRIC } from '../../units/display.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { held } from '../../widgets/testing/held.ts';
import { LIVE } from '../../words/live.ts';
import { type Services, ServicesContext } from '../context.ts';
import { createMore } from './more/state.ts';
import { GaugeCheck, WarmCheck, Witness } from './Tasks.tsx';

beforeEach(() => void vi.useFakeTimers({ toFake: ['performance', 'setTimeout', 'clearTimeout'] }));
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

/** One of them: what is typed is kept in it. */
const more = createMore();
afterEach(() => more.typeGauge(null));

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
  [
    'gauge-value',
    () => <GaugeCheck more={more} />,
    ENTRIES.gaugeBar,
    'at most 20.00\u00a0bar',
    'at least 0.00\u00a0bar',
  ],
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
  const ask = show(() => <GaugeCheck more={more} />);
  type('gauge-value', 0.41);
  fireEvent.click(screen.getByTestId('gauge-send'));
  expect(ask).toHaveBeenCalledExactlyOnceWith({ q: 'command', command: { c: 'gauge', bar: 0.41 } });
});

/** An engine that notes samples. */
function answering(what: () => ReturnType<typeof GaugeCheck>) {
  const [events, setEvents] = createSignal<readonly WatchEvent[]>([]);
  const sent: unknown[] = [];
  const ask = async (request: Request) => {
    if (request.q !== 'command') return null;
    const { command } = request;
    sent.push(command);
    if (command.c === 'witness')
      setEvents([
        ...events(),
        { tUs: 1, e: 'witness', hard: command.hard, atPipeTemperature: command.atPipeTemperature },
      ]);
    return null;
  };
  const live = { events, view: () => ({ attempt: 1, stageSinceUs: 5, rebound: null, tUs: 9 }) };
  render(() => (
    <ServicesContext.Provider value={{ ask, live, units: () => METRIC } as unknown as Services}>
      {what()}
    </ServicesContext.Provider>
  ));
  return sent;
}

it('hard and not hard answer the press; a contradiction is held', () => {
  const sent = answering(() => <Witness />);
  const noted = () => screen.queryByTestId('witness-noted')?.textContent;
  expect(noted()).toBeUndefined();
  fireEvent.click(screen.getByTestId('witness-soft'));
  expect(noted()).toBe(LIVE.notedSoft);
  expect(screen.getByTestId('witness-soft').getAttribute('aria-pressed')).toBe('true');
  vi.advanceTimersByTime(1000);
  fireEvent.click(screen.getByTestId('witness-hard'), { detail: 1 });
  expect(sent).toHaveLength(1);
  held(screen.getByTestId('witness-hard'));
  expect(noted()).toBe(LIVE.notedWarm);
  vi.advanceTimersByTime(1000);
  fireEvent.click(screen.getByTestId('witness-place'));
  fireEvent.click(screen.getByTestId('witness-hard'));
  expect(noted()).toBe(LIVE.notedHard);
  expect(sent).toHaveLength(3);
});
