import type { CalibrationRefusal } from '../../sensing/calibration.ts';

/** What a sensor's calibration amounts to, beside its points. */
export const CALIBRATION = {
  title: 'Ce que donnent les points',
  asLeftCounts: 'La droite d’étalonnage passe par les points après réglage.',
  asFoundCounts: 'Rien n’a été réglé : la droite d’étalonnage passe par les points avant réglage.',
  point: 'Étalon',
  residual: 'Écart à la droite d’étalonnage',
  gain: 'Gain',
  correction: (at: string) => `Correction à ${at}`,
  scatter: 'Dispersion autour de la droite d’étalonnage, incertitude type',
  assumed: 'Supposée : deux points ne laissent aucune dispersion à mesurer. Un troisième la montre.',
  assumedOne: 'Supposée : une comparaison ne laisse aucune dispersion à mesurer. Une deuxième la montre.',
  offset: 'Correction partout',
  byOffset: 'Corrigé d’un décalage : des points si proches ne disent rien d’une pente.',
  far: 'Plus de 3 K d’écart : un thermocouple ne s’écarte pas autant. Restait-il de la glace, la pointe y était-elle, stable, et est-ce bien cette sonde ? Comparer encore une fois.',
  worstFound: 'Plus grande erreur avant réglage',
  worstLeft: 'Plus grande erreur après réglage',
  drift: (at: string) => `D’avant à après réglage, au plus à ${at}`,
  series: 'Étalonnages',
  sinceLast: 'A bougé depuis l’étalonnage précédent',
  due: (days: number) => (days < 0 ? `En retard de ${-days} j.` : `À refaire dans ${days} j.`),
};

/** Why the points make no calibration. The sensor is then judged by its own data sheet. */
export const CALIBRATION_REFUSAL: Record<CalibrationRefusal, string> = {
  'too-few': 'Pas encore d’étalonnage : il faut au moins deux points ; pour une température, un.',
  'too-many': 'Pas d’étalonnage : plus de onze points.',
  'not-finite': 'Pas d’étalonnage : un point ou l’étendue n’est pas un nombre.',
  narrow: 'Pas d’étalonnage : les points couvrent moins de la moitié de l’étendue.',
  gain: 'Pas d’étalonnage : la pente est fausse de plus d’un dixième. Mauvaise étendue, ou autre unité ?',
  offset: 'Pas d’étalonnage : le bas est faux de plus d’un vingtième de l’étendue.',
  residual: 'Pas d’étalonnage : un point est à plus d’un centième de l’étendue de la droite d’étalonnage.',
  'far-off':
    'Pas d’étalonnage : plus de 10 K d’écart. Fils croisés, autre type de thermocouple, ou glace non brassée ?',
  scattered:
    'Pas d’étalonnage : les points divergent de plus de 2 K. Comparer de nouveau, brassé, et attendre que cela tienne.',
};
