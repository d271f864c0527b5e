/** Words of what is due, of the day's mix, and of a repair that is done once more. */
export const DUE = {
  title: 'À voir',
  damaged: 'Dommage dans son carnet : le réparer ou le réformer',
  'over-rated': 'Il a dépassé sa pression admissible : l’inspecter avant de le remettre',
  'not-inspected': 'Pas inspecté depuis sa dernière session',
  overdueBy: (days: number) =>
    days === 1 ? 'Étalonnage en retard d’un jour' : `Étalonnage en retard de ${days} jours`,
  dueIn: (days: number) =>
    days === 0
      ? 'Étalonnage à refaire aujourd’hui'
      : days === 1
        ? 'Étalonnage à refaire demain'
        : `Étalonnage à refaire dans ${days} jours`,
  'not-sealed': 'Session non scellée',
  'not-sent': 'Fichier d’enregistrement non envoyé',
  sentOtherwise: 'Il a été envoyé',
  more: (n: number) => `et ${n} de plus, aux archives`,
};

export const MIX = {
  title: 'Résine du jour',
  sleeves: (n: number) => (n === 1 ? '1 manchette' : `${n} manchettes`),
  masses: (whole: string, hardener: string | null) =>
    hardener === null ? `${whole} mélangés` : `${whole} mélangés, dont ${hardener} de durcisseur`,
  noMass: (n: number) =>
    n === 1
      ? '1 manchette n’a pas encore de masse : voir sa fiche de chantier'
      : `${n} manchettes n’ont pas encore de masse : voir leurs fiches de chantier`,
  each: (minutes: number) =>
    `Mélanger pour chaque manchette à part, juste avant son imprégnation : vie en pot ${minutes} min au mélange le plus chaud.`,
  eachUnknown:
    'Mélanger pour chaque manchette à part, juste avant son imprégnation : sa vie en pot n’attend pas la précédente.',
  packer: (name: string, n: number) => `${name} : ${n} réparations, l’une après l’autre`,
  least: (time: string) => `au moins ${time} pour mise en œuvre et durcissement`,
  leastUnknown: 'temps inconnu : mise en œuvre ou température du sol manquante',
};

export const AGAIN = {
  title: 'Refaire pareil',
  what: (title: string) =>
    `Comme ${title} : mêmes ligne, packer, résine, capteurs et boîtier. Nouveau pour celui-ci :`,
  name: 'Titre',
  position: 'Position (abscisse)',
  length: 'Longueur du défaut',
  resinBatch: 'Lot de résine',
  hardenerBatch: 'Lot de durcisseur',
  sameBatch: (batches: string) => `Des mêmes lots : ${batches}`,
  inspected: 'Le packer a été inspecté depuis sa sortie : ni coupure, ni abrasion, ni usure',
  zero: 'Le zéro se refait avant la session : le dernier ne compte pas.',
  rest: 'Infiltration, température de mélange et tous les contrôles sont redemandés aussi.',
  make: 'Faire la fiche',
};
