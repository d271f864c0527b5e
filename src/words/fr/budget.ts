import type { BudgetCode, BudgetRow } from '../../sensing/uncertainty.ts';

/** The uncertainty budget of a pressure reading, row by row. */
export const BUDGET = {
  title: 'Incertitude de la mesure',
  text: 'Chaque source en incertitude type ; leur composition, doublée (k = 2), est retranchée de la pression admissible.',
  component: 'Source',
  standard: 'Incertitude type',
  distribution: 'Loi',
  share: 'Part',
  combined: 'Composée',
  expanded: 'Élargie, k = 2',
};

export const BUDGET_ROW: Record<BudgetCode, string> = {
  reference: 'Étalon de l’étalonnage',
  residual: 'Dispersion autour de la droite d’étalonnage',
  drift: 'Dérive depuis l’étalonnage',
  environment: 'Température du capteur',
  sensor: 'Capteur selon sa fiche technique, non étalonné',
  resolution: 'Résolution, un pas',
  zero: 'Zéro',
  supply: 'Tension du capteur',
  noise: 'Bruit',
  class: 'Classe de tolérance du thermocouple',
  away: 'Corrigé d’un décalage, loin du point comparé',
  junction: 'Soudure froide',
};

export const BUDGET_SHAPE: Record<BudgetRow['distribution'], string> = {
  normal: 'normale',
  rectangular: 'rectangulaire',
};
