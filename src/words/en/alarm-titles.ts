import type { AlarmCode, AlarmState, Priority } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { leftFull, unannounced } from '../said/alarm-cases.ts';

/** A few words that name the alarm by its code alone: where its values are at hand, alarmTitle says it better. */
export const ALARM_TITLE: Record<AlarmCode, string> = {
  'over-range': 'Over the sensor’s range',
  'over-rated': 'Over the rated pressure',
  'over-test': 'Over the test pressure',
  ceiling: 'At the ceiling',
  rising: 'Will pass the ceiling',
  'supply-over': 'Supply is too high',
  'supply-moved': 'Regulator has moved',
  'pressure-lost': 'Pressure reading lost',
  'device-trip': 'Device limit tripped',
  'fast-fall': 'Pressure falls fast',
  'below-floor': 'Under the hold floor',
  leaking: 'Leaking',
  'band-exit': 'Will leave the hold band',
  lift: 'Cure heat raises pressure',
  'device-unarmed': 'Device limit off',
  'device-deaf': 'Device does not answer',
  'device-fault': 'Device reports a fault',
  'device-reset': 'Device restarted',
  'supply-low': 'Sensor power low',
  'slow-readings': 'Readings come slowly',
  stuck: 'Reading stuck',
  'reading-jump': 'Reading jumped',
  'line-contradicted': 'Line is not as declared',
  'sensors-differ': 'Pressure sensors disagree',
  'second-lost': 'Second pressure lost',
  'gauge-differs': 'Dial gauge and sensor differ',
  rebound: 'Air where none should be',
  'temperature-lost': 'Temperature lost',
  cold: 'Too cold to cure',
  'pot-life': 'Pot life runs out',
  'batch-slow': 'Batch reacts slowly',
  'store-fault': 'Record is not being kept',
  'clock-jump': 'Computer was asleep',
  garbage: 'Noise on the cable',
};

export const PRIORITY: Record<Priority, string> = { urgent: 'Urgent', high: 'High', low: 'Low' };

export const ALARM_STATE: Record<AlarmState, string> = {
  normal: 'normal',
  unacknowledged: 'not acknowledged',
  acknowledged: 'acknowledged',
  returned: 'over, not acknowledged',
  shelved: 'put aside',
  suppressed: 'suppressed by design',
};

/** A few words that name the alarm, read from three metres. */
export const alarmTitle = ({ alarm, values }: { alarm: AlarmCode; values: AlarmValues }): string => {
  if (alarm !== 'rebound') return ALARM_TITLE[alarm];
  if (leftFull(values)) return 'Still under pressure';
  return unannounced(values) ? 'Air comes in unannounced' : 'Pressure came back';
};

/** The short form for a narrow strip or a spoken cue. */
export const alarmLine = (alarm: { alarm: AlarmCode; priority: Priority; values: AlarmValues }): string =>
  `${PRIORITY[alarm.priority]}: ${alarmTitle(alarm)}`;
