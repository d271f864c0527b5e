import type { BudgetCode, BudgetRow } from '../../sensing/uncertainty.ts';

/** The uncertainty budget of a pressure reading, row by row. */
export const BUDGET = {
  title: 'Messunsicherheit des Messwerts',
  text: 'Jede Quelle als Standardunsicherheit; ihre Kombination, verdoppelt (k = 2), wird vom Höchstdruck abgezogen.',
  component: 'Quelle',
  standard: 'Standardunsicherheit',
  distribution: 'Verteilung',
  share: 'Anteil',
  combined: 'Kombiniert',
  expanded: 'Erweitert, k = 2',
};

export const BUDGET_ROW: Record<BudgetCode, string> = {
  reference: 'Bezugsgerät der Kalibrierung',
  residual: 'Streuung um die Kalibriergerade',
  drift: 'Drift seit der Kalibrierung',
  environment: 'Temperatur des Sensors',
  sensor: 'Sensor laut Datenblatt, nicht kalibriert',
  resolution: 'Auflösung, eine Stufe',
  zero: 'Null',
  supply: 'Sensorspeisung',
  noise: 'Rauschen',
  class: 'Toleranzklasse des Thermoelements',
  away: 'Um einen Versatz berichtigt, abseits der Vergleichsstelle',
  junction: 'Vergleichsstelle',
};

export const BUDGET_SHAPE: Record<BudgetRow['distribution'], string> = {
  normal: 'Normal',
  rectangular: 'Rechteck',
};
