import type { Drift } from '../../sensing/opinion.ts';

/** What a sensor showed in its jobs. */
export const HISTORY = {
  title: 'Au fil des chantiers',
  none: 'Aucun chantier n’a encore contrôlé ce capteur. Zéros, comparaisons avec le manomètre et chauffes en main se rassemblent ici.',
  job: 'Chantier',
  zero: 'Zéro fait',
  gauge: 'Mesure moins manomètre',
  warm: 'Mesure moins thermomètre',
  refused: 'trop loin, refusé',
  differed: 'ne concordait pas',
  before: '(avant l’étalonnage en vigueur)',
  more: (n: number) =>
    n > 1
      ? `${n} chantiers plus anciens ne sont pas affichés.`
      : `${n} chantier plus ancien n’est pas affiché.`,
  plot: (title: string) => `${title}, chantier par chantier`,
};

/** Putting the packer away after a run. */
export const PUT_AWAY = {
  title: 'Ranger le packer',
  note: (packer: string) =>
    `Le nettoyer et le regarder : une coupure est l’endroit où il éclatera. Le cycle va au carnet de ${packer}.`,
  peak: 'Pic',
  leak: 'Fuite du dernier maintien',
  inflated: 'Sous pression',
  found: 'Résultat de l’inspection',
  notYet: 'Pas encore regardé',
  well: 'Ni coupure, ni abrasion, ni usure',
  damage: 'Dommage : ne pas l’utiliser',
  foundNeeded: 'Dire le résultat de l’inspection.',
  by: 'Initiales',
  byNeeded: 'Qui l’a regardé donne ses initiales.',
  what: 'Ce qui a été trouvé',
  log: 'Noter ce cycle',
  done: 'Le cycle est au carnet du packer.',
  logged: (date: string, by: string) => `Noté avec le packer, ${date}, ${by}.`,
  toPacker: 'Voir son carnet',
};

/** What a run’s witness cup has shown, to be kept with its resin. */
export const CUP_KEPT = {
  title: 'Garder le repère du gobelet avec la résine',
  note: (resin: string) =>
    `Par ce qu’ont montré les gobelets de mélanges habituels, le prochain mélange de ${resin} se distingue d’un lent. Ne le garder que d’un mélange approuvé et bien pesé.`,
  mark: 'Ce mélange',
  mass: 'Dans le gobelet',
  known: 'Connu jusqu’ici',
  batches: (n: number, scatter: string) =>
    n === 1
      ? `1 mélange, le prochain à ±${scatter} % près`
      : `${n} mélanges, le prochain à ±${scatter} % près`,
  none: 'Aucun mélange encore',
  keep: 'Le garder avec la résine',
  done: 'Le repère du gobelet est avec la résine.',
  kept: 'Gardé avec la résine.',
  toResin: 'Voir la résine',
  slow: 'Ce mélange était lent selon son gobelet : ce n’est pas le repère d’un habituel, il n’est pas gardé.',
  soft: 'L’échantillon témoin n’était pas dur : ce que montrait le gobelet n’est pas gardé.',
  full: (most: number) => `La résine a ${most} repères : en retirer d’abord un.`,
};

/** A packer over its cycles. */
export const CYCLES = {
  title: 'Cycles',
  count: (n: number) => (n === 1 ? '1 cycle en tout.' : `${n} cycles en tout.`),
  unseen: 'Aucune inspection n’est notée depuis le dernier.',
  none: 'Aucun noté encore. La revue d’une session a « Noter ce cycle » quand le packer est rangé.',
  leak: 'Fuite, cycle par cycle',
  noLeak: 'Aucune fuite n’a été mesurée depuis la dernière réparation.',
  noneSeen: 'aucune vue',
  plot: 'Fuite au fil des cycles',
  day: 'Jour',
};

/**
 * A drift in a sentence or two.
 * @param text shows a figure in the user's units
 * @param none what is said where nothing was measured
 * @param level shows where it stands, where that is read otherwise than a step of it
 */
export function driftText(
  drift: Drift | null,
  text: (off: number) => string,
  none = 'Pas contrôlé depuis l’étalonnage.',
  level = text,
): string {
  if (drift === null) return none;
  const { jobs, now, since, perDay, moving, daysToLimit, jumped } = drift;
  const said = [
    jobs === 1
      ? `${level(now)} en un chantier.`
      : `${level(now)} maintenant, a bougé de ${text(since)} en ${jobs} chantiers.`,
  ];
  if (jumped) said.push('Le dernier pas tranche sur les chantiers d’avant.');
  else if (moving && perDay !== null) {
    said.push(`Il bouge de ${text(perDay * 30)} en 30 jours.`);
    if (daysToLimit === 0) said.push('La tolérance est épuisée.');
    else if (daysToLimit !== null) {
      const days = Math.max(1, Math.round(daysToLimit));
      said.push(
        `À cette allure la tolérance est épuisée dans environ ${days} ${days > 1 ? 'jours' : 'jour'}.`,
      );
    }
  } else
    said.push(
      jobs >= 4
        ? 'Il ne bouge pas plus que sa dispersion.'
        : 'Une allure se dit à partir de quatre chantiers.',
    );
  return said.join(' ');
}
