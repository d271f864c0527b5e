import type { AlarmCode, AlarmState, Priority } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { leftFull, unannounced } from '../said/alarm-cases.ts';

/** Where the values of an alarm are at hand, alarmTitle says it better. */
export const ALARM_TITLE: Record<AlarmCode, string> = {
  'over-range': 'Hors étendue du capteur',
  'over-rated': 'Pression admissible dépassée',
  'over-test': 'Pression d’essai dépassée',
  ceiling: 'Au plafond',
  rising: 'Va dépasser le plafond',
  'supply-over': 'Arrivée d’air trop forte',
  'supply-moved': 'Le détendeur a bougé',
  'pressure-lost': 'Mesure de pression perdue',
  'device-trip': 'Limite du boîtier déclenchée',
  'fast-fall': 'Chute rapide de pression',
  'below-floor': 'Sous le plancher',
  leaking: 'Fuite',
  'band-exit': 'Va sortir de la plage',
  lift: 'Chaleur : la pression monte',
  'device-unarmed': 'Limite du boîtier inactive',
  'device-deaf': 'Le boîtier ne répond pas',
  'device-fault': 'Le boîtier signale un défaut',
  'device-reset': 'Le boîtier a redémarré',
  'supply-low': 'Tension du capteur faible',
  'slow-readings': 'Mesures trop espacées',
  stuck: 'Mesure figée',
  'reading-jump': 'Saut de la mesure',
  'line-contradicted': 'Ligne autre que déclarée',
  'sensors-differ': 'Les deux capteurs divergent',
  'second-lost': 'Deuxième pression perdue',
  'gauge-differs': 'Manomètre et capteur divergent',
  rebound: 'Air là où il ne doit pas',
  'temperature-lost': 'Température perdue',
  cold: 'Trop froid pour durcir',
  'pot-life': 'Fin de vie en pot',
  'batch-slow': 'Mélange lent à réagir',
  'store-fault': 'Rien n’est enregistré',
  'clock-jump': 'Ordinateur mis en veille',
  garbage: 'Parasites sur le câble',
};

export const PRIORITY: Record<Priority, string> = { urgent: 'Urgente', high: 'Haute', low: 'Basse' };

export const ALARM_STATE: Record<AlarmState, string> = {
  normal: 'normale',
  unacknowledged: 'non acquittée',
  acknowledged: 'acquittée',
  returned: 'terminée, non acquittée',
  shelved: 'mise de côté',
  suppressed: 'masquée par conception',
};

/** A few words that name the alarm, read from three metres. */
export const alarmTitle = ({ alarm, values }: { alarm: AlarmCode; values: AlarmValues }): string => {
  if (alarm !== 'rebound') return ALARM_TITLE[alarm];
  if (leftFull(values)) return 'Encore sous pression';
  return unannounced(values) ? 'Arrivée d’air non annoncée' : 'La pression est revenue';
};

/** The short form for a narrow strip or a spoken cue. */
export const alarmLine = (alarm: { alarm: AlarmCode; priority: Priority; values: AlarmValues }): string =>
  `${PRIORITY[alarm.priority]} : ${alarmTitle(alarm)}`;
