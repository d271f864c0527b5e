/** Stories with two pressures on one line. */
import type { SecondPressure } from '../../job/codes.ts';
import type { Setup } from '../../job/setup.ts';
import { PRESSURE_CHANNEL, setupOf } from '../../job/testing/givens.ts';
import { FLAG, type SecondReading } from '../../sensing/reading.ts';
import { viewOf } from '../step.ts';
import type { AlarmView } from '../view.ts';
import type { Flow, Script } from './script.ts';

// Limits: rated 2.5 bar, working 1.8, ceiling 2.48; U of both sensors 0.02, of their difference 0.028.
export const setupWith = (role: SecondPressure = 'outlet-pressure', more: Partial<Setup> = {}): Setup =>
  setupOf({
    tap: 'hose',
    channels: [PRESSURE_CHANNEL, { ...PRESSURE_CHANNEL, index: 1, role }],
    ...more,
  });

const second = (
  bar: number | null,
  role: SecondPressure,
  more: Partial<SecondReading> = {},
): SecondReading => ({
  channel: 1,
  role,
  bar,
  uBar: 0.02,
  flags: bar === null ? FLAG.fault : 0,
  stepBar: 0.001,
  ...more,
});

export type Course = number | ((s: number) => number);
const at = (course: Course, s: number): number => (typeof course === 'number' ? course : course(s));

/** Both pressures for so many seconds, sample by sample; null: that one gives no value. */
export function both(
  s: Script,
  seconds: number,
  bar: Course | null,
  other: Course | null,
  role: SecondPressure = 'outlet-pressure',
  flow: Flow & { readonly second?: Partial<SecondReading> } = {},
): Script {
  const { more, second: told, hz = 20, ...rest } = flow;
  for (let k = 1; k <= Math.round(seconds * hz); k++) {
    const value = other === null ? null : at(other, k / hz);
    s.flow(1 / hz, bar === null ? null : at(bar, k / hz), {
      hz,
      ...rest,
      more: { ...more, second: second(value, role, told), ...(bar === null ? { flags: FLAG.fault } : {}) },
    });
  }
  return s;
}

export const alarmOf = (s: Script, code: AlarmView['alarm']): AlarmView | undefined =>
  viewOf(s.w, Math.round(s.tS * 1e6)).alarms.find((a) => a.alarm === code && a.state !== 'normal');
