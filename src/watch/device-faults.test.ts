import { describe, expect, it } from 'vitest';
import { LIMITS, setupOf } from '../job/testing/givens.ts';
import { addFault, forgetFaults, gravestFault, isBlind, limitTaken } from './device-faults.ts';
import type { WatchEvent } from './events.ts';
import { viewOf } from './look.ts';
import type { DeviceState } from './state.ts';
import { createWatch, step } from './step.ts';

const S = 1e6;

/** Numbers and meanings: firmware-protocol/SPEC.md, part 4, E. */
function watch() {
  const w = createWatch();
  const events: WatchEvent[] = [];
  const emit = (e: WatchEvent) => void events.push(e);
  let number = 0;
  const fault = (value: number, tUs: number) =>
    step(
      w,
      { i: 'device', tUs, frame: { t: 'E', number: number++, tick: 0, code: 'fault', channel: 0, value } },
      emit,
    );
  const tick = (tUs: number) => step(w, { i: 'tick', tUs }, emit);
  const alarm = () => viewOf(w, w.tUs).alarms.find((a) => a.alarm === 'device-fault') ?? null;
  step(w, { i: 'setup', tUs: 0, setup: setupOf({ limits: LIMITS }) }, emit);
  return { w, events, emit, fault, tick, alarm };
}

describe('faults that the device tells of', () => {
  it.each([
    [1, 'low', 'store'],
    [2, 'low', 'watchdog'],
    [3, 'high', 'no-conversions'],
    [4, 'low', 'supply'],
    [5, 'high', 'sensor-low'],
    [6, 'low', 'no-limit'],
  ] as const)('%i is an alarm, %s, with its meaning', (number, priority, cause) => {
    const { fault, alarm } = watch();
    fault(number, S);
    expect(alarm()).toMatchObject({ state: 'unacknowledged', priority, values: { cause } });
  });

  it('a blind guard stands until the device starts anew; no hello of the same start ends it', () => {
    const { w, emit, fault, tick, alarm } = watch();
    fault(3, S);
    tick(60 * S);
    expect(alarm()).toMatchObject({ state: 'unacknowledged', priority: 'high' });
    step(
      w,
      { i: 'notice', tUs: 61 * S, notice: { n: 'device', what: 'reset', bootId: 2, deviceId: 'd' } },
      emit,
    );
    expect(alarm()?.state).toBe('returned');
  });

  it('hostlost and hostback are events', () => {
    const { w, events, emit } = watch();
    for (const code of ['hostlost', 'hostback'] as const)
      step(
        w,
        { i: 'device', tUs: S, frame: { t: 'E', number: 0, tick: 0, code, channel: null, value: null } },
        emit,
      );
    expect(events.flatMap((e) => (e.e === 'device' ? [e.what] : []))).toEqual(['hostlost', 'hostback']);
  });
});

describe('the gravest fault', () => {
  const none = (): DeviceState => ({ guard: null, tripped: false, deaf: false, presses: [], faults: [] });

  it('is the one under which the guard is blind, whatever came later', () => {
    const d = none();
    addFault(d, 5, 0);
    addFault(d, 6, 1);
    addFault(d, 99, 2);
    expect(gravestFault(d, 10)).toBe(5);
    addFault(d, 3, 3);
    expect(gravestFault(d, 10)).toBe(3);
    expect(isBlind(3) && isBlind(5) && !isBlind(6) && !isBlind(null)).toBe(true);
  });

  it('without a limit ends with one; another after a moment; a restart forgets what came before it', () => {
    const d = none();
    addFault(d, 6, 0);
    addFault(d, 1, 0);
    expect(gravestFault(d, 0.5 * S)).toBe(6);
    limitTaken(d);
    expect(gravestFault(d, 0.5 * S)).toBe(1);
    expect(gravestFault(d, S)).toBeNull();
    addFault(d, 3, 2 * S);
    addFault(d, 5, 4 * S);
    forgetFaults(d, 3 * S);
    expect(gravestFault(d, 5 * S)).toBe(5);
  });
});
