/** Words of backup and restore. */
export const BACKUP = {
  title: 'Sauvegarde',
  lead: 'Un seul fichier avec tout ce que contient cet ordinateur : fiches, packers, résines, capteurs, relevés de banc, sessions, enregistrements scellés, fichiers gardés, décisions et réglages. La clé de signature n’y est pas : elle ne peut pas être extraite.',
  link: 'Sauvegarder et restaurer',
  make: 'Faire une sauvegarde',
  makeWhat: 'Garder le fichier loin de cet ordinateur. En refaire un après chaque jour de travail.',
  making: 'Sauvegarde en cours',
  made: 'Enregistrée. Elle contient :',
  leftOut: (n: number) =>
    n === 1
      ? 'Une session n’a pas encore de fin et n’y est pas.'
      : `${n} sessions n’ont pas encore de fin et n’y sont pas.`,
  empty: 'Il n’y a encore rien à garder : ni fiche, ni session.',
  restore: 'Restaurer',
  restoreWhat:
    'Choisir une sauvegarde. Elle est d’abord contrôlée, et on vous montre ce qui serait écrit. Rien de ce qui est ici n’est remplacé.',
  choose: 'Choisir une sauvegarde',
  looking: 'Contrôle de la sauvegarde',
  summary: 'Ce qu’elle contient',
  madeBy: (date: string, software: string) => `Faite le ${date} par ${software}.`,
  group: 'Quoi',
  groups: {
    job: 'Fiches de chantier',
    packer: 'Packers',
    resin: 'Résines',
    sensor: 'Capteurs',
    registers: 'Tables de registres',
    columns: 'Tables de colonnes',
    checklist: 'Listes de contrôle',
    bench: 'Relevés de banc',
    settings: 'Réglages',
    run: 'Sessions',
    seal: 'Sceaux',
    addition: 'Ajouts aux enregistrements',
    review: 'Décisions sur des enregistrements',
    enclosed: 'Photos et signatures, par chantier ou session',
    import: 'Fichiers d’ailleurs',
  },
  fates: {
    new: 'nouveau',
    same: 'déjà ici',
    grows: 'complété',
    differs: 'différent ici',
    refused: 'refusé',
  },
  why: {
    future: 'd’une version plus récente : mettre d’abord ce programme à jour',
    form: 'pas dans la forme de son genre',
    'file-missing': 'son fichier n’est pas dans la sauvegarde',
    open: 'la session n’a pas de fin',
    'other-run': 'il nomme une autre session',
    signature: 'son sceau n’a pas été signé par sa clé',
    key: 'l’empreinte qu’il nomme n’est pas celle de sa clé',
    pages: 'son sceau est celui d’autres blocs',
    log: 'ce qu’il porte d’un journal de contreseing ne tient pas, ou n’en vient pas',
    chain: 'ses ajouts n’en découlent pas, ou ne sont pas signés',
    'unsealed-here': 'la session est ici sans sceau, et n’en prend un que par la clé de cet ordinateur',
  },
  untitled: (id: string) => `sans nom (${id})`,
  differing: 'Ce qui est différent ici',
  choices: {
    mine: 'Laisser de côté : seul reste ce qui est ici',
    both: 'Garder les deux : celui de la sauvegarde sous un autre nom',
  },
  takeSettings: 'Prendre les réglages de la sauvegarde à la place de ceux d’ici',
  strange: (n: number) =>
    n > 1
      ? `${n} de ses lignes ne sont pas des documents et sont laissées de côté.`
      : `${n} de ses lignes n’est pas un document et est laissée de côté.`,
  leftOutThere: (n: number) =>
    n > 1
      ? `${n} sessions n’avaient pas de fin quand elle a été faite et n’y sont pas.`
      : `${n} session n’avait pas de fin quand elle a été faite et n’y est pas.`,
  writes: (bytes: string) => `À écrire : ${bytes}`,
  writesInto: (bytes: string, free: string) => `À écrire : ${bytes} (${free} libres)`,
  noRoom: 'Il n’y a pas assez de place sur cet ordinateur.',
  take: 'Que prendre',
  takeRuns: 'Sessions',
  takeSeals:
    'Sceaux de ces sessions. Sans eux, cet ordinateur peut les sceller de nouveau, avec sa propre clé',
  takeAdditions:
    'Ajouts aux enregistrements. À ceux d’ici, seulement si leur clé est connue ici, ou cochée ci-dessous',
  takeDecisions: 'Décisions sur des enregistrements déjà ici',
  keys: 'Clés qu’elle nomme',
  keysWhat:
    'N’importe qui peut écrire une sauvegarde. Ne cocher une clé que si vous avez comparé son empreinte avec une empreinte venue par une autre voie. Sans coche, ses enregistrements sont restaurés quand même, comme signés par une clé inconnue ici.',
  keyRole: {
    own: (date: string) => `Clé de signature de cet autre ordinateur depuis le ${date}, selon la sauvegarde`,
    known: (name: string, date: string) => `Connue là-bas comme « ${name} » depuis le ${date}`,
    signer: 'A signé quelque chose dedans, et n’est dans aucune de ses listes',
  },
  keySigned: (seals: number, additions: number) =>
    `Signé dans cette sauvegarde : ${seals} ${seals > 1 ? 'sceaux' : 'sceau'}, ${additions} ${additions > 1 ? 'ajouts' : 'ajout'}.`,
  keyHere: 'Déjà connue ici.',
  keyTick: {
    own: 'Compter ses enregistrements comme ceux de cet ordinateur',
    known: (name: string) => `La faire connaître ici comme « ${name} »`,
  },
  keyNew:
    'La clé de signature n’est pas dans la sauvegarde. Une nouvelle est faite sur cet ordinateur ; il faut donner son empreinte à l’entreprise.',
  keyStays: 'Cet ordinateur garde sa propre clé de signature. Celle de la sauvegarde n’y est pas.',
  keyMade:
    'Une nouvelle clé de signature a été faite sur cet ordinateur. Donner son empreinte à l’entreprise :',
  keyNone:
    'Ce navigateur ne fait pas de clés de signature. Les enregistrements peuvent être vus ici, pas scellés.',
  go: 'Restaurer cette sauvegarde',
  going: 'Restauration',
  nothing: 'Tout ce que contient cette sauvegarde est déjà ici.',
  done: (both: number) =>
    both === 0
      ? 'Restauré comme choisi.'
      : `Restauré comme choisi ; ${both} ${both > 1 ? 'gardés' : 'gardé'} sous un autre nom.`,
  reload: 'Recharger pour le voir',
  cancel: 'Annuler',
  running: 'Une session est en cours. Restaurer quand elle sera close.',
  other: 'En choisir une autre',
};
