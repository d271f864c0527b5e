/** Words of the screens and controls that stand for themselves. */
export const UI = {
  app: 'Steadybar',
  colon: ' :',
  skip: 'Aller à la page',
  jobs: 'Chantiers',
  live: 'Direct',
  archive: 'Archives',
  settings: 'Réglages',
  about: 'Infos',
  mainNav: 'Pages',
  menu: 'Menu',
  card: 'Aide-mémoire',
  helpOn: (what: string) => `Aide : ${what}`,
  standingMarks: 'Marques permanentes',

  // values
  pressure: 'Pression',
  temperature: 'Température',
  rated: 'Admissible',
  ceiling: 'Plafond',
  working: 'Travail',
  floor: 'Plancher',
  lines: 'Courbes du tracé',
  notKnown: 'inconnu',
  oldReading: 'Mesure ancienne',
  oldReadingOf: (age: string) => `Mesure ancienne, ${age}`,
  lostReading: 'Mesure perdue.',
  noReading: 'Pas de mesure',
  overRange: (end: string) => `PLUS DE ${end}`,
  ladder: (now: string, ceiling: string, rated: string) =>
    `Pression ${now}. Plafond ${ceiling}. Admissible ${rated}.`,
  ladderNoLimit: (now: string) => `Pression ${now}. Aucune limite : pas d’alerte de surpression`,

  // alarms
  /** @param detail what the program says of it, for whoever mends it; often empty */
  failed: (title: string, todo: string, detail: string) =>
    detail === '' ? `${title}. ${todo}` : `${title}. ${todo} (${detail})`,
  noAlarms: 'Aucune alarme.',
  notLive: 'Non connecté : pas d’alarmes.',
  acknowledge: 'Acquitter',
  shelve: 'Mettre de côté',
  shelveText: 'Elle se tait dix minutes, puis revient si elle tient toujours. Le motif est enregistré.',
  engineSilent: 'La surveillance ne répond plus',
  engineSilentVerb: ['SUIVRE LE', 'MANOMÈTRE'],
  engineSilentTodo:
    'Rien sur cet écran n’est en direct. Suivre le manomètre, rester à l’écart, puis recharger cette page.',
  reload: 'Recharger cette page',
  pageFailed: 'Cette page a échoué',
  pageFailedTodo:
    'La surveillance continue et les alarmes sonnent toujours, mais suivre le manomètre. Réessayer ou recharger : une session ouverte est proposée de nouveau.',

  pageFault: 'Une partie de cette page n’a pas pu être dessinée',
  pageFaultTodo:
    'La surveillance continue et les alarmes sonnent toujours, mais les valeurs ici peuvent être anciennes. Suivre le manomètre, puis recharger.',
  pageFaultSeen: 'Vu',

  // buttons
  cancel: 'Annuler',
  save: 'Enregistrer',
  saved: 'Enregistré',
  remove: 'Retirer',
  back: 'Retour',
  undo: 'Défaire',
  close: 'Fermer',
  retry: 'Réessayer',

  // data on their way
  update: 'Une nouvelle version est prête.',
  updateNow: 'Redémarrer avec la nouvelle version',
  loading: 'Chargement',
  noAnswer:
    'Les données gardées ne répondent pas. La page en direct n’en est pas touchée. Réessayer ; si cela dure, recharger.',

  // stages
  stages: 'Étapes',

  // second screen
  far: {
    title: 'Pression, deuxième écran',
    noData: 'PAS DE DONNÉES',
    twoPages: 'DEUX PAGES : EN FERMER UNE',
    note: 'Donné par la page qui surveille. Aucune alarme ne s’affiche ici.',
    units: { bar: 'bar', kPa: 'kPa', psi: 'psi' },
  },

  // practice
  practiceWord: 'EXERCICE',
  practiceBanner: 'EXERCICE. Rien ici n’est une vraie ligne.',
};
