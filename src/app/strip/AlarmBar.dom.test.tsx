import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { liveBench } from '../../screens/live/testing/bench.ts';
import { alarm } from '../../screens/live/testing/scene.ts';
import type { AlarmView } from '../../watch/view.ts';
import { REST_MS } from '../../widgets/press-guard.ts';
import type { AppServices } from '../services.ts';
import { AlarmBar } from './AlarmBar.tsx';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const CEILING = alarm({ alarm: 'ceiling', values: { ceilingBar: 1.74, bar: 1.76 } });
const tap = (id: string) => {
  const el = screen.getByTestId(id);
  fireEvent.pointerDown(el, { button: 0 });
  fireEvent.pointerUp(el);
  fireEvent.click(el, { detail: 1 });
};

function shown(first: AlarmView) {
  const bench = liveBench({ stage: 'inflate', bar: 1.76, alarms: [first] });
  const [now, setNow] = createSignal(first);
  const gone = vi.fn();
  render(() => <AlarmBar app={bench.services as AppServices} alarm={now()} onGo={gone} />);
  return { ...bench, gone, setNow };
}
const bar = () => screen.getByTestId('alarm-elsewhere');

it('an urgent one says its order, the pressure and the ladder, and the way to them before the acknowledgement', () => {
  shown(CEILING);
  expect(bar().querySelector('.alarm-bar-verb')?.textContent).toBe('AIR OFF OPEN VENT');
  expect(bar().querySelector('.alarm-bar-number')?.textContent).toBe('1.76\u00a0bar');
  // Upright beside the rest, or lying where the bar has rows.
  expect(bar().querySelectorAll('.micro-ladder, .lying-ladder')).toHaveLength(2);
  expect(screen.getAllByRole('button').map((b) => b.dataset.testid)).toEqual(['go-live', 'ack']);
});

it('a number that goes on is not read out again and again', () => {
  shown(CEILING);
  expect(bar().getAttribute('role')).toBe('alert');
  expect(bar().querySelector('.alarm-bar-number')?.getAttribute('aria-live')).toBe('off');
});

it('a lost reading is no number', () => {
  const { show } = shown(alarm({ alarm: 'pressure-lost', values: { bar: 1.2, seconds: 6 } }));
  show({ bar: null, ageS: 6 });
  expect(bar().querySelector('.alarm-bar-number')?.textContent).toBe('– –');
  expect(bar().querySelector('.lying-ladder')).toBeNull();
});

it('presses count once it can have been read', () => {
  const { gone, commands } = shown(CEILING);
  tap('go-live');
  tap('ack');
  expect(gone).not.toHaveBeenCalled();
  expect(commands).toEqual([]);
  vi.advanceTimersByTime(REST_MS + 10);
  tap('ack');
  expect(commands).toEqual([{ c: 'acknowledge', alarm: 'ceiling', occurrence: 1 }]);
  tap('go-live');
  expect(gone).toHaveBeenCalledOnce();
});

it('a press that was begun for another alarm is not taken for this one', () => {
  const { commands, setNow } = shown(alarm({ alarm: 'rising', values: { inS: 6, ceilingBar: 1.74 } }));
  vi.advanceTimersByTime(5000);
  fireEvent.pointerDown(screen.getByTestId('ack'), { button: 0 });
  setNow(CEILING);
  vi.advanceTimersByTime(5000);
  fireEvent.pointerUp(screen.getByTestId('ack'));
  fireEvent.click(screen.getByTestId('ack'), { detail: 1 });
  expect(commands).toEqual([]);
});

it('acknowledged it still shows the way, and a high one has no ladder', () => {
  const { setNow } = shown(CEILING);
  setNow({ ...CEILING, state: 'acknowledged' });
  expect(screen.queryByTestId('ack')).toBeNull();
  expect(screen.queryByTestId('go-live')).not.toBeNull();
  cleanup();
  shown(alarm({ alarm: 'leaking', priority: 'high', values: { mbarPerMin: 8 } }));
  expect(bar().querySelector('.alarm-bar-number')).toBeNull();
  expect(bar().querySelector('.alarm-bar-verb')?.textContent).toBe('FIND THE LEAK');
});
