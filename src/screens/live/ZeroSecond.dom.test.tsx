import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import { METRIC } from '../../units/display.ts';
import type { WatchEvent } from '../../watch/events.ts';
import type { SecondView } from '../../watch/view.ts';
import { ZERO_SECOND } from '../../words/zero.ts';
import { type Services, ServicesContext } from '../context.ts';
import { SecondAtZero, ZeroSecond } from './ZeroSecond.tsx';

afterEach(cleanup);

const OPEN: SecondView = {
  role: 'outlet-pressure',
  bar: 0.01,
  lost: false,
  zeroed: false,
  stoodBar: null,
  path: null,
};

function show(second: SecondView | null, events: readonly WatchEvent[] = []) {
  const ask = vi.fn(async () => null);
  const live = { events: () => events, view: () => ({ second }) };
  render(() => (
    <ServicesContext.Provider value={{ ask, live, units: () => METRIC } as unknown as Services}>
      <SecondAtZero />
      <ZeroSecond />
    </ServicesContext.Provider>
  ));
  return ask;
}
const note = () => screen.getAllByTestId('second-at-zero')[0]!.textContent;

it('says before the zero whether it is taken of both, and asks what a second one that reads no open line may be', () => {
  show(OPEN);
  expect(note()).toBe(ZERO_SECOND.both);
  cleanup();
  show({ ...OPEN, bar: 1.49 });
  expect(note()).toMatch(/1\.49\sbar.*[Ss]hut the supply/);
  cleanup();
  show({ ...OPEN, role: 'check-pressure', bar: -0.2 });
  expect(note()).toMatch(/−0\.20\sbar with the coupling open/);
  cleanup();
  show({ ...OPEN, bar: null, lost: true });
  expect(note()).toBe(ZERO_SECOND.lost);
});

it('a line with one sensor is asked nothing', () => {
  show(null);
  expect(screen.queryByTestId('second-at-zero')).toBeNull();
  expect(screen.queryByTestId('zero-second-task')).toBeNull();
});

it('zeroes again until the second has one, and tells what became of it', () => {
  const zero = (second: Extract<WatchEvent, { e: 'zero' }>['second']): WatchEvent => ({
    tUs: 1,
    e: 'zero',
    taken: true,
    offsetBar: 0.006,
    reason: 'ok',
    ...(second === undefined ? {} : { second }),
  });
  const ask = show(OPEN, [zero({ taken: false, offsetBar: 1.49, reason: 'too-far' })]);
  expect(screen.getByTestId('zero-second-result').textContent).toMatch(/1\.49/);
  fireEvent.click(screen.getByTestId('zero-second'));
  expect(ask).toHaveBeenCalledWith({ q: 'command', command: { c: 'zero' } });
  cleanup();
  show({ ...OPEN, zeroed: true }, [zero({ taken: true, offsetBar: -0.008, reason: 'ok' })]);
  expect(screen.getByTestId('zero-second-result').textContent).toMatch(/−0\.008/);
  expect(screen.queryByTestId('zero-second')).toBeNull();
});
