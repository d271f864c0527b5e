import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import { ENTRIES } from '../../job/entries.ts';
import { probeOf } from '../../sensing/testing/readings.ts';
import { METRIC } from '../../units/display.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { LIVE } from '../../words/live.ts';
import { type Services, ServicesContext } from '../context.ts';
import { GaugeCheck, Vent, WarmCheck, Witness } from './Tasks.tsx';

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

/** An engine that notes samples, and breaks a rebound test off at once. */
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
    if (command.c === 'vent' && !command.open)
      setEvents([...events(), { tUs: 2, e: 'rebound', what: 'broken-off', bar: 0.4, seconds: 0 }]);
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

it('hard and not hard answer the press; a contradiction is asked before it is noted', async () => {
  HTMLDialogElement.prototype.showModal ??= () => undefined;
  const sent = answering(() => <Witness />);
  const noted = () => screen.queryByTestId('witness-noted')?.textContent;
  expect(noted()).toBeUndefined();
  fireEvent.click(screen.getByTestId('witness-soft'));
  expect(noted()).toBe(LIVE.notedSoft);
  expect(screen.getByTestId('witness-soft').getAttribute('aria-pressed')).toBe('true');
  fireEvent.click(screen.getByTestId('witness-hard'));
  expect(sent).toHaveLength(1);
  expect(screen.getByText(LIVE.witnessWasSoft)).toBeTruthy();
  fireEvent.click(screen.getByTestId('confirm-yes'));
  expect(noted()).toBe(LIVE.notedWarm);
  fireEvent.click(screen.getByTestId('witness-place'));
  fireEvent.click(screen.getByTestId('witness-hard'));
  expect(noted()).toBe(LIVE.notedHard);
  expect(sent).toHaveLength(3);
});

it('the vent answers the press, also where its test cannot begin', async () => {
  answering(() => <Vent />);
  fireEvent.click(screen.getByTestId('vent-open'));
  await waitFor(() => expect(screen.getByTestId('vent-noted').textContent).toBe(LIVE.ventNoted));
  expect(screen.getByTestId('vent-open').getAttribute('aria-pressed')).toBe('true');
  fireEvent.click(screen.getByTestId('vent-close'));
  expect(screen.getByTestId('rebound-result').textContent).toBe(LIVE.reboundBroken);
  expect(screen.queryByTestId('vent-noted')).toBeNull();
});
