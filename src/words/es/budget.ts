import type { BudgetCode, BudgetRow } from '../../sensing/uncertainty.ts';

export const BUDGET = {
  title: 'Incertidumbre de la lectura',
  text: 'Cada fuente como incertidumbre típica; su combinación, doblada (k = 2), se resta de la presión admisible.',
  component: 'Fuente',
  standard: 'Incertidumbre típica',
  distribution: 'Distribución',
  share: 'Parte',
  combined: 'Combinada',
  expanded: 'Expandida, k = 2',
};

export const BUDGET_ROW: Record<BudgetCode, string> = {
  reference: 'Patrón de la calibración',
  residual: 'Dispersión en torno a la recta de calibración',
  drift: 'Deriva desde la calibración',
  environment: 'Temperatura del sensor',
  sensor: 'Sensor según su ficha técnica, sin calibrar',
  resolution: 'Resolución, un escalón',
  zero: 'Cero',
  supply: 'Tensión del sensor',
  noise: 'Ruido',
  class: 'Clase de tolerancia del termopar',
  away: 'Corregido con una desviación, lejos de donde se comparó',
  junction: 'Unión fría',
};

export const BUDGET_SHAPE: Record<BudgetRow['distribution'], string> = {
  normal: 'normal',
  rectangular: 'rectangular',
};
