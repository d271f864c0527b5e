/** Words of the list of jobs and of opening a sheet file. */
export const JOBS = {
  title: 'Chantiers',
  back: 'Retour',
  start: 'Ouvrir une session',
  backToLive: 'Retour à la session en direct',
  newJob: 'Nouvelle fiche',
  same: 'Comme la dernière',
  sheets: 'Fiches de chantier',
  noSheets:
    'Aucune fiche encore. Une session peut s’ouvrir sans fiche ; la remplir alors pendant le durcissement.',
  openTitle: 'Une session n’a pas été close',
  maybeFull: 'Un packer est peut-être sous pression.',
  maybeFullAt: (pressure: string, when: string) =>
    `Le packer est peut-être sous pression : vu pour la dernière fois à ${pressure} le ${when}.`,
  notSeenEmpty: (pressure: string, when: string) =>
    `Le packer n’a pas été vu vide : sa ligne était en dernier à ${pressure} le ${when}.`,
  leftTodo:
    'Rester à l’écart de la conduite, voir le manomètre, dégonfler et voir le packer vide avant de raccorder ou d’ouvrir quoi que ce soit.',
  saidEmpty: 'Je l’ai vu vide',
  lineReads: (pressure: string) =>
    `La ligne indique ${pressure}. Revoir le manomètre : le packer est-il quand même vide ?`,
  emptyAllTheSame: 'Vu vide, la mesure est fausse',
  notSure: 'Retour, il est peut-être plein',
  hold: 'appui long',
  seeLeft: 'Voir',
  maybeFullTodo:
    'Fermer la vanne d’air, rester à l’écart de la conduite, suivre le manomètre, et reprendre la session qui n’a pas été close.',
  connectResume: 'Connecter et reprendre',
  openText:
    'Le programme ou l’ordinateur s’est arrêté pendant l’enregistrement de cette session. Tout est gardé jusqu’à la dernière demi-seconde.',
  reconnecting: {
    trying:
      'Connexion automatique au port d’où venaient les mesures. La session ne continue que si vous appuyez.',
    failed: 'La connexion automatique n’a pas réussi. Aucune mesure n’arrive : voir le câble, puis appuyer.',
  },
  resume: 'Reprendre',
  resumeRun: (title: string, date: string) => `Reprendre : ${title}, ${date}`,
  resumeText: 'Connecter le même boîtier ; le temps manquant est marqué comme lacune.',
  closeInterrupted: 'Clore comme interrompue',
  closeTitle: 'Clore cette session comme interrompue ?',
  closeText: 'Le tracé est gardé et marqué comme interrompu. La session ne pourra plus être reprise.',
  storageKept: 'Le navigateur garde les enregistrements de cette page.',
  storageNotKept:
    'Le navigateur peut effacer les enregistrements de cette page quand le disque est plein. Faire une sauvegarde (Réglages).',
  filesFault: 'Rien ne peut être enregistré.',
  documentsFault:
    'Les chantiers, packers, résines et capteurs gardés ici ne sont pas vus, et ce qui est saisi maintenant est perdu quand la page se ferme. La surveillance fonctionne.',
  storageRoom: (free: string) => `${free} libres.`,
  fileRefused: (field: string, why: string | null) =>
    [
      'Ce fichier n’est pas un fichier de fiche lisible.',
      ...(why === null ? [] : [field === '' ? why : `${field} : ${why}`]),
    ].join(' '),
  fileKept: 'Ajouté. Les entrées déjà ici sont inchangées.',
  newTitle: 'Nouveau chantier',
  stateOpen: 'ouverte',
  stateInterrupted: 'interrompue',
  practiceTag: 'exercice',
  peak: (pressure: string) => `pic ${pressure}`,
  gaps: (n: number) => (n === 1 ? '1 lacune' : `${n} lacunes`),
  alarms: (n: number) => (n === 1 ? '1 alarme' : `${n} alarmes`),
  refused: (n: number) =>
    n === 1
      ? 'Un document n’a pas pu être lu et reste tel quel.'
      : `${n} documents n’ont pas pu être lus et restent tels quels.`,
  removeTitle: 'Retirer cette fiche ?',
  removeText: 'Les sessions enregistrées avec elle sont gardées.',
  removed: 'Retirée.',
};
