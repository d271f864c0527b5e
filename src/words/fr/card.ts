/** Mots de la carte qui s’imprime là où personne ne regarde d’écran ; ordres, étapes et mises en garde sont ceux du programme. */
export const CARD = {
  lead: 'Une feuille de papier pour là où personne ne regarde l’écran. Elle dit la même chose que l’écran.',
  print: 'Imprimer l’aide-mémoire',
  forJob: 'Pour le chantier',
  blank: 'Vide, à remplir à la main',
  gone: 'Cette fiche de chantier n’est plus là : l’aide-mémoire est vide.',

  numbers: 'Ce chantier',
  potLife: 'Vie en pot',
  hold: 'Maintenir au moins',
  holdAt: (c: string) => `Maintenir au moins (${c})`,
  mixed: 'Mélangé à',
  held: 'Maintien depuis',
  until: 'Maintenir jusqu’à',
  who: 'Équipe',
  call: 'Secours',
  cure: 'Temps de durcissement',
  planned: (date: string) => `Prévu le ${date}. Si l’écran dit moins, c’est l’écran qui compte.`,
  refused: 'LE PLAN REFUSE CE CHANTIER : voir la fiche de chantier.',

  work: 'Ordre du travail',
  alarms: 'Alarme : que faire d’abord',
  otherwise: 'sinon',
  low: 'ce que dit l’écran',

  dark: 'Écran noir ou figé, ordinateur en panne : manomètre et montre',
  darkSteps: (ceiling: string | null): readonly string[] => [
    'Fermer la vanne d’air. Tout le monde à l’écart.',
    'Lire le manomètre. Noter pression, heure, toutes les 5 min.',
    ceiling === null
      ? 'Au plafond ou au-dessus : lâcher de l’air par la purge.'
      : `À ${ceiling} ou plus : lâcher de l’air par la purge.`,
    'Maintenir à la montre, pas moins. Puis tâter le témoin.',
    'Dégonfler par la purge. Manomètre à zéro : pas encore vide.',
  ],

  cautions: 'Mises en garde',
  local:
    'Jamais au-dessus de la pression admissible. Règles locales, permis et notices des fabricants d’abord ; ce qui demande une habilitation est fait par qui l’a.',
};
