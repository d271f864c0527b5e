/** Words of the start page: what this is, its four doors, and how the ladder is read. */
export const WELCOME = {
  what: 'Steadybar surveille l’air du packer jusqu’à ce que la résine ait eu son temps.',
  lead: 'Il lit la pression de la ligne, avertit avant la pression admissible du packer, compte le durcissement au point le plus froid probable et tient l’enregistrement.',
  doors: {
    live: 'Connecter, packer, zéro : trois appuis',
    back: 'L’enregistrement est en cours',
    practice: 'Simulateur : tout le chantier, sans boîtier',
    sheet: 'Prévoir la pression avant de mélanger',
    file: 'Une fiche de chantier, ou un enregistrement à vérifier',
  },
  practise: 'S’exercer',
  openFile: 'Ouvrir un fichier',
  lastRuns: 'Dernières sessions',
  allRuns: 'Toutes aux archives',
  never:
    'Il surveille et avertit. Ce n’est pas un dispositif de sécurité et il ne remplace pas une soupape de sûreté. Pas d’alerte ne veut pas dire pas de danger.',
  empty: 'Rien d’enregistré encore. S’exercer une fois avant le premier chantier.',
  picture: (peak: string, rated: string) => `Pic ${peak}, admissible ${rated}.`,
  pictureNoLimit: (peak: string) => `Pic ${peak}. Aucune limite n’était fixée.`,
  sealed: 'Scellé',
  notSealed: 'Pas encore scellé',
  practice: 'Exercice',
  overRated: 'Admissible dépassée',

  guide: 'Lire l’échelle',
  guideLead: 'La même sur chaque écran en direct, à chaque étape.',
  guidePicture:
    'Une échelle de pression, de zéro jusqu’au-delà de la pression admissible, ses repères nommés à côté.',
  over: { name: 'Au-delà', means: 'un éclatement peut tuer' },
  rated: { name: 'Admissible', means: 'l’arrêt absolu du packer' },
  ceiling: { name: 'Plafond', means: 'l’admissible moins le doute de la mesure' },
  settles: { name: 'S’arrête ici', means: 'vanne fermée au signal' },
  working: { name: 'Travail', means: 'le but de l’étape est sur fond plein' },
  now: { name: 'Pression actuelle', means: 'en grands chiffres à côté' },
  floor: { name: 'Plancher', means: 'dessous, la manchette peut se décoller' },
  seat: { name: 'Plaquer', means: 'premier arrêt : comparer le manomètre' },
};
