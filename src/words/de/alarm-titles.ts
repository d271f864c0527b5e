import type { AlarmCode, AlarmState, Priority } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { leftFull, unannounced } from '../said/alarm-cases.ts';

/** A few words that name the alarm by its code alone: where its values are at hand, alarmTitle says it better. */
export const ALARM_TITLE: Record<AlarmCode, string> = {
  'over-range': 'Über dem Messbereich',
  'over-rated': 'Über Höchstdruck',
  'over-test': 'Über dem Prüfdruck',
  ceiling: 'An der Obergrenze',
  rising: 'Wird die Obergrenze reißen',
  'supply-over': 'Zuluft zu hoch',
  'supply-moved': 'Druckregler verstellt',
  'pressure-lost': 'Druckmesswert verloren',
  'device-trip': 'Gerätegrenze ausgelöst',
  'fast-fall': 'Druck fällt schnell',
  'below-floor': 'Unter Mindestdruck',
  leaking: 'Leck',
  'band-exit': 'Verlässt bald den Haltebereich',
  lift: 'Reaktionswärme hebt den Druck',
  'device-unarmed': 'Gerätegrenze aus',
  'device-deaf': 'Gerät antwortet nicht',
  'device-fault': 'Gerät meldet einen Fehler',
  'device-reset': 'Gerät neu gestartet',
  'supply-low': 'Sensorspeisung niedrig',
  'slow-readings': 'Messwerte kommen langsam',
  stuck: 'Messwert steht',
  'reading-jump': 'Messwert gesprungen',
  'line-contradicted': 'Leitung ist nicht wie angegeben',
  'sensors-differ': 'Drucksensoren uneins',
  'second-lost': 'Zweiter Druck ausgefallen',
  'gauge-differs': 'Manometer und Sensor uneins',
  rebound: 'Luft, wo keine sein soll',
  'temperature-lost': 'Temperatur ausgefallen',
  cold: 'Zu kalt zum Aushärten',
  'pot-life': 'Topfzeit läuft ab',
  'batch-slow': 'Charge reagiert langsam',
  'store-fault': 'Aufzeichnung wird nicht geführt',
  'clock-jump': 'Computer hat geschlafen',
  garbage: 'Rauschen auf dem Kabel',
};

export const PRIORITY: Record<Priority, string> = { urgent: 'Dringend', high: 'Hoch', low: 'Niedrig' };

export const ALARM_STATE: Record<AlarmState, string> = {
  normal: 'normal',
  unacknowledged: 'nicht quittiert',
  acknowledged: 'quittiert',
  returned: 'vorbei, nicht quittiert',
  shelved: 'zurückgestellt',
  suppressed: 'planmäßig unterdrückt',
};

/** A few words that name the alarm, read from three metres. */
export const alarmTitle = ({ alarm, values }: { alarm: AlarmCode; values: AlarmValues }): string => {
  if (alarm !== 'rebound') return ALARM_TITLE[alarm];
  if (leftFull(values)) return 'Noch unter Druck';
  return unannounced(values) ? 'Luft kommt unangesagt' : 'Druck kam zurück';
};

/** The short form for a narrow strip or a spoken cue. */
export const alarmLine = (alarm: { alarm: AlarmCode; priority: Priority; values: AlarmValues }): string =>
  `${PRIORITY[alarm.priority]}: ${alarmTitle(alarm)}`;
