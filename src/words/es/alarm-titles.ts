import type { AlarmCode, AlarmState, Priority } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import { leftFull, unannounced } from '../said/alarm-cases.ts';

export const ALARM_TITLE: Record<AlarmCode, string> = {
  'over-range': 'Sobre el rango del sensor',
  'over-rated': 'Sobre la presión admisible',
  'over-test': 'Sobre la presión de ensayo',
  ceiling: 'En el techo',
  rising: 'Va a pasar el techo',
  'supply-over': 'Suministro demasiado alto',
  'supply-moved': 'El regulador se ha movido',
  'pressure-lost': 'Lectura de presión perdida',
  'device-trip': 'Saltó el límite del aparato',
  'fast-fall': 'La presión cae deprisa',
  'below-floor': 'Bajo el mínimo',
  leaking: 'Hay fuga',
  'band-exit': 'Va a salir de la banda',
  lift: 'El calor del curado sube la presión',
  'device-unarmed': 'Límite del aparato apagado',
  'device-deaf': 'El aparato no responde',
  'device-fault': 'El aparato avisa de un fallo',
  'device-reset': 'El aparato se reinició',
  'supply-low': 'Tensión del sensor baja',
  'slow-readings': 'Las lecturas llegan despacio',
  stuck: 'Lectura clavada',
  'reading-jump': 'La lectura dio un salto',
  'line-contradicted': 'La línea no es la declarada',
  'sensors-differ': 'Los sensores de presión discrepan',
  'second-lost': 'Segunda presión perdida',
  'gauge-differs': 'Manómetro y sensor discrepan',
  rebound: 'Aire donde no debe haber',
  'temperature-lost': 'Temperatura perdida',
  cold: 'Demasiado frío para curar',
  'pot-life': 'Se acaba la vida de la mezcla',
  'batch-slow': 'La mezcla reacciona despacio',
  'store-fault': 'No se guarda el registro',
  'clock-jump': 'El ordenador se durmió',
  garbage: 'Ruido en el cable',
};

export const PRIORITY: Record<Priority, string> = { urgent: 'Urgente', high: 'Importante', low: 'Menor' };

export const ALARM_STATE: Record<AlarmState, string> = {
  normal: 'normal',
  unacknowledged: 'sin reconocer',
  acknowledged: 'reconocida',
  returned: 'terminada, sin reconocer',
  shelved: 'aplazada',
  suppressed: 'suprimida por diseño',
};

export const alarmTitle = ({ alarm, values }: { alarm: AlarmCode; values: AlarmValues }): string => {
  if (alarm !== 'rebound') return ALARM_TITLE[alarm];
  if (leftFull(values)) return 'Aún bajo presión';
  return unannounced(values) ? 'Entra aire sin aviso' : 'La presión ha vuelto';
};

export const alarmLine = (alarm: { alarm: AlarmCode; priority: Priority; values: AlarmValues }): string =>
  `${PRIORITY[alarm.priority]}: ${alarmTitle(alarm)}`;
