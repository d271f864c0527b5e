import type { BudgetCode, BudgetRow } from '../../sensing/uncertainty.ts';

/** The uncertainty budget of a pressure reading, row by row. */
export const BUDGET = {
  title: 'Uncertainty of the reading',
  text: 'Each source as a standard uncertainty; their combination, doubled (k = 2), is taken off the rated pressure.',
  component: 'Source',
  standard: 'Standard uncertainty',
  distribution: 'Distribution',
  share: 'Share',
  combined: 'Combined',
  expanded: 'Expanded, k = 2',
};

export const BUDGET_ROW: Record<BudgetCode, string> = {
  reference: 'Reference of the calibration',
  residual: 'Scatter about the calibration line',
  drift: 'Drift since the calibration',
  environment: 'Temperature of the sensor',
  sensor: 'Sensor by its data sheet, not calibrated',
  resolution: 'Resolution, one step',
  zero: 'Zero',
  supply: 'Sensor power',
  noise: 'Noise',
  class: 'Tolerance class of the thermocouple',
  away: 'Corrected by an offset, away from where it was compared',
  junction: 'Cold junction',
};

export const BUDGET_SHAPE: Record<BudgetRow['distribution'], string> = {
  normal: 'normal',
  rectangular: 'rectangular',
};
