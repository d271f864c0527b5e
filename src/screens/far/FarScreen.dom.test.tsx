import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { createFarSender } from '../../app/far-sender.ts';
import type { FromEngine } from '../../engine/messages.ts';
import { METRIC } from '../../words/create-format.ts';
import { UI } from '../../words/ui.ts';
import { FarScreen } from './FarScreen.tsx';

beforeEach(() => {
  vi.useFakeTimers();
  vi.setSystemTime(1.77e12);
});
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

function wire() {
  const channel = { onmessage: null as ((e: MessageEvent) => void) | null, close: () => undefined };
  const posted: unknown[] = [];
  const sender = createFarSender(
    () => METRIC,
    { utcMs: () => Date.now() },
    () => ({
      postMessage: (data: unknown) => {
        posted.push(data);
        channel.onmessage?.({ data } as MessageEvent);
      },
      close: () => undefined,
    }),
  );
  return { channel: () => channel as unknown as BroadcastChannel, sender, posted };
}

const moment = (
  more: object = {},
  link: object | null = { state: 'streaming', kind: 'serial' },
): FromEngine =>
  ({
    m: 'moment',
    run: null,
    link,
    view: { bar: 1.52, overBar: null, ageS: 0.1, stale: false, alarms: [], ...more },
  }) as unknown as FromEngine;

const told = () => screen.getByTestId('far');

it('shows the pressure while the watching page tells it, and says so when it stops', () => {
  const { channel, sender } = wire();
  render(() => <FarScreen channel={channel} />);
  expect(told().textContent).toContain(UI.far.noData);
  sender.take(moment());
  expect(told().textContent).toContain('1.52');
  vi.advanceTimersByTime(1400);
  expect(told().textContent).toContain('1.52');
  vi.advanceTimersByTime(400);
  expect(told().textContent).not.toContain('1.52');
  expect(told().textContent).toContain(UI.far.noData);
  // Nor is one that stands still by itself, or is known to read too low: no alarm stands beside it there.
  for (const [alarm, values] of [
    ['stuck', {}],
    ['reading-jump', { jumpBar: -0.3 }],
    ['gauge-differs', { bar: 1.52, gaugeBar: 1.8 }],
  ] as const) {
    sender.take(moment({ alarms: [{ alarm, state: 'acknowledged', values }] }));
    expect(told().textContent, alarm).toContain(UI.noReading);
    vi.advanceTimersByTime(300);
    sender.take(moment({ alarms: [{ alarm, state: 'returned', values }] }));
    expect(told().textContent, alarm).toContain('1.52');
    vi.advanceTimersByTime(300);
  }
  // An old or lost reading is a word, never its number.
  sender.take(moment({ stale: true }));
  expect(told().textContent).not.toContain('1.52');
  expect(told().dataset.shown).toBe('no-reading');
});

it('a page that watches nothing tells nothing, and none tells more than five times a second', () => {
  const { sender, posted } = wire();
  sender.take(moment({}, { state: 'idle', kind: 'serial' }));
  sender.take(moment({}, null));
  expect(posted).toHaveLength(0);
  for (let i = 0; i < 60; i++) {
    sender.take(moment());
    vi.advanceTimersByTime(33);
  }
  expect(posted.length).toBeGreaterThan(7);
  expect(posted.length).toBeLessThanOrEqual(11);
});

it('a practice says that it is one', () => {
  const { channel, sender } = wire();
  render(() => <FarScreen channel={channel} />);
  sender.take(moment({}, { state: 'streaming', kind: 'rig' }));
  expect(told().textContent).toContain(UI.practiceBanner);
});
