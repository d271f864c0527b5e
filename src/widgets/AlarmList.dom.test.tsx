import { cleanup, fireEvent, render, screen, within } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import type { AlarmView } from '../watch/view.ts';
import { METRIC } from '../words/format.ts';
import { AlarmList } from './AlarmList.tsx';

beforeEach(() => void vi.useFakeTimers({ toFake: ['performance'] }));
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

const alarm = (part: Partial<AlarmView>): AlarmView => ({
  alarm: 'ceiling',
  priority: 'urgent',
  state: 'unacknowledged',
  occurrence: 1,
  sinceUs: 0,
  shelvable: true,
  values: { bar: 1.47, ceilingBar: 1.46 },
  ...part,
});

describe('alarm list', () => {
  it('says priority, what happens and what to do in words, and speaks it', () => {
    render(() => <AlarmList alarms={[alarm({})]} nowUs={2e6} units={METRIC} onAcknowledge={() => {}} />);
    const row = screen.getByTestId('alarm-ceiling');
    expect(row.textContent).toContain('Urgent');
    expect(row.textContent).toContain('shut the supply valve, then open the vent');
    expect(row.dataset.state).toBe('unacknowledged');
    expect(screen.getByRole('alert').textContent).toContain('Urgent: At the ceiling.');
  });

  it('one that is over says what was, and orders nothing any more', () => {
    const [alarms, setAlarms] = createSignal([alarm({})]);
    render(() => <AlarmList alarms={alarms()} nowUs={2e6} units={METRIC} onAcknowledge={() => {}} />);
    expect(screen.getByTestId('alarm-ceiling').textContent).toContain('shut the supply valve');
    setAlarms([alarm({ state: 'returned' })]);
    const text = screen.getByTestId('alarm-ceiling').textContent ?? '';
    expect(text).toContain('Was: at the ceiling');
    expect(text).not.toMatch(/shut|\bnow\b/);
  });

  it('acknowledges this alarm, and an acknowledged one is silent but still there', () => {
    const acknowledge = vi.fn();
    const [alarms, setAlarms] = createSignal([alarm({})]);
    render(() => <AlarmList alarms={alarms()} nowUs={0} units={METRIC} onAcknowledge={acknowledge} />);
    fireEvent.click(screen.getByTestId('acknowledge-ceiling'));
    expect(acknowledge).toHaveBeenCalledExactlyOnceWith([alarm({})]);
    setAlarms([alarm({ state: 'acknowledged' })]);
    expect(screen.getByTestId('alarm-ceiling').dataset.state).toBe('acknowledged');
    expect(screen.queryByTestId('acknowledge-ceiling')).toBeNull();
    expect(screen.getByRole('alert').textContent).toBe('');
  });

  it('keeps the button under the finger while the numbers of the text change', () => {
    const acknowledge = vi.fn();
    const [alarms, setAlarms] = createSignal([alarm({})]);
    render(() => <AlarmList alarms={alarms()} nowUs={0} units={METRIC} onAcknowledge={acknowledge} />);
    const button = screen.getByTestId('acknowledge-ceiling');
    const newer = alarm({ values: { bar: 1.49, ceilingBar: 1.46 } });
    setAlarms([newer]);
    expect(screen.getByTestId('acknowledge-ceiling')).toBe(button);
    expect(screen.getByTestId('alarm-ceiling').textContent).toContain('1.49');
    fireEvent.click(button);
    expect(acknowledge).toHaveBeenCalledExactlyOnceWith([newer]);
  });

  it('what the table says cannot be put aside cannot; a lesser one can, once acknowledged', () => {
    const shelve = vi.fn();
    render(() => (
      <AlarmList
        alarms={[
          alarm({ state: 'acknowledged', shelvable: false }),
          alarm({ alarm: 'cold', priority: 'low', state: 'acknowledged', values: {} }),
          alarm({ alarm: 'supply-low', priority: 'high', values: {} }),
        ]}
        nowUs={0}
        units={METRIC}
        onAcknowledge={() => {}}
        onShelve={shelve}
      />
    ));
    fireEvent.click(screen.getByTestId('alarms-all'));
    vi.advanceTimersByTime(1000);
    expect(screen.queryByTestId('shelve-ceiling')).toBeNull();
    expect(screen.queryByTestId('shelve-supply-low')).toBeNull();
    fireEvent.click(screen.getByTestId('shelve-cold'));
    expect(shelve).toHaveBeenCalledExactlyOnceWith('cold');
  });

  it('children of a raised parent are not shown; a shelved one is a mark that can be taken back', () => {
    const unshelve = vi.fn();
    const alarms = [
      alarm({ alarm: 'stuck', state: 'suppressed' }),
      alarm({ alarm: 'leaking', priority: 'high', state: 'shelved', values: {} }),
    ];
    render(() => (
      <AlarmList alarms={alarms} nowUs={0} units={METRIC} onAcknowledge={() => {}} onUnshelve={unshelve} />
    ));
    expect(screen.queryByTestId('alarm-stuck')).toBeNull();
    fireEvent.click(screen.getByTestId('unshelve-leaking'));
    expect(unshelve).toHaveBeenCalledExactlyOnceWith('leaking');
  });

  it('one alarm in full, the others as marks, however many come: what waits and is most urgent stands first', () => {
    const [alarms, setAlarms] = createSignal([
      alarm({ alarm: 'ceiling', state: 'acknowledged' }),
      alarm({ alarm: 'temperature-lost', priority: 'low', values: {} }),
      alarm({ alarm: 'leaking', priority: 'high', values: {} }),
      alarm({ alarm: 'cold', priority: 'low', state: 'returned', values: {} }),
    ]);
    render(() => <AlarmList alarms={alarms()} nowUs={0} units={METRIC} onAcknowledge={() => {}} />);
    const rows = () => [...document.querySelectorAll('.alarm-row')].map((e) => e.getAttribute('data-testid'));
    const marks = () =>
      [...document.querySelectorAll('.alarm-mark')].map((e) => e.getAttribute('data-testid'));
    expect(rows()).toEqual(['alarm-leaking']);
    expect(marks()).toEqual(['alarm-temperature-lost', 'alarm-ceiling', 'alarm-cold']);
    fireEvent.click(screen.getByTestId('alarms-all'));
    expect(rows()).toHaveLength(4);
    expect(screen.getByTestId('acknowledge').textContent).toContain('all');
    // Back to one by itself when one is left.
    setAlarms([alarm({ alarm: 'cold', priority: 'low', values: {} })]);
    expect(rows()).toEqual(['alarm-cold']);
    setAlarms([...alarms(), alarm({})]);
    expect(rows()).toEqual(['alarm-ceiling']);
  });

  it('a press that was on its way to a row that another has just replaced acknowledges nothing', () => {
    const acknowledge = vi.fn();
    const [alarms, setAlarms] = createSignal([alarm({ alarm: 'leaking', priority: 'high', values: {} })]);
    render(() => <AlarmList alarms={alarms()} nowUs={0} units={METRIC} onAcknowledge={acknowledge} />);
    setAlarms([alarm({}), ...alarms()]);
    vi.advanceTimersByTime(200);
    fireEvent.click(screen.getByTestId('acknowledge-ceiling'));
    expect(acknowledge).not.toHaveBeenCalled();
    vi.advanceTimersByTime(400);
    fireEvent.click(screen.getByTestId('acknowledge-ceiling'));
    expect(acknowledge).toHaveBeenCalledExactlyOnceWith([alarm({})]);
  });

  it('nor one that was on its way when the same alarm was raised anew', () => {
    const acknowledge = vi.fn();
    const [alarms, setAlarms] = createSignal([alarm({ state: 'returned' })]);
    render(() => <AlarmList alarms={alarms()} nowUs={0} units={METRIC} onAcknowledge={acknowledge} />);
    setAlarms([alarm({ occurrence: 2 })]);
    vi.advanceTimersByTime(200);
    fireEvent.click(screen.getByTestId('acknowledge-ceiling'));
    expect(acknowledge).not.toHaveBeenCalled();
    vi.advanceTimersByTime(400);
    fireEvent.click(screen.getByTestId('acknowledge-ceiling'));
    expect(acknowledge).toHaveBeenCalledExactlyOnceWith([alarm({ occurrence: 2 })]);
  });

  it('acknowledging all names each alarm that was shown, with its occurrence', () => {
    const acknowledge = vi.fn();
    const shown = [
      alarm({ occurrence: 3 }),
      alarm({ alarm: 'leaking', priority: 'high', state: 'returned', values: {} }),
    ];
    const settled = alarm({ alarm: 'cold', priority: 'low', state: 'acknowledged', values: {} });
    render(() => (
      <AlarmList alarms={[...shown, settled]} nowUs={0} units={METRIC} onAcknowledge={acknowledge} />
    ));
    fireEvent.click(screen.getByTestId('alarms-all'));
    fireEvent.click(screen.getByTestId('acknowledge'));
    expect(acknowledge).toHaveBeenCalledExactlyOnceWith(shown);
  });

  it('with none it says that no warning does not mean safe', () => {
    render(() => <AlarmList alarms={[]} nowUs={0} units={METRIC} onAcknowledge={() => {}} />);
    expect(within(screen.getByTestId('alarms')).getByText(/No warning does not mean safe/)).toBeTruthy();
  });

  it('never says that there are none while the engine is silent', () => {
    render(() => <AlarmList alarms={[]} nowUs={0} units={METRIC} silent onAcknowledge={() => {}} />);
    expect(screen.getByTestId('alarms').textContent).not.toContain('No alarms');
    expect(screen.getByTestId('alarms').textContent).toContain('Not connected');
  });
});
