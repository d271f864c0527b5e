import type { Wants } from '../../job/checklist.ts';

/** Words of the editor of checklists. */
export const CHECKLIST = {
  one: 'Liste de contrôle',
  none: 'Aucune à vous : les fiches prennent la liste fournie. Nouveau en fait une copie dans vos mots.',
  head: 'La liste',
  text: 'Elle commence en copie de la liste fournie. Une fiche prend la liste telle qu’elle est ce jour-là et la garde : ce qui est changé ici ne change ni chantier ni enregistrement.',
  name: 'Nom',
  inUse: 'Les nouvelles fiches la prennent',
  items: 'Points',
  itemsText:
    'Chacun est demandé à son moment et pas avant. Un point de sécurité est demandé avant que la touche mène plus loin ; on ne continue sans lui que pour un motif, qui figure sur le certificat.',
  itemText: 'Ce qui est regardé',
  at: 'Demandé',
  safety: 'Point de sécurité',
  wants: 'Réponse',
  unit: 'Unité du nombre',
  noText: 'Pas encore de mots',
  add: (moment: string) => `Ajouter un point : ${moment}`,
  up: (item: string) => `Plus tôt : ${item}`,
  down: (item: string) => `Plus tard : ${item}`,
  remove: 'Enlever ce point',
  removed: (item: string) => `Enlevé : ${item}`,
  empty: 'Il ne reste aucun point. En ajouter un, ou recommencer avec la liste fournie.',
  beginAgain: 'Recommencer avec la liste fournie',
  full: (most: number) => `${most} points : une liste n’en a pas plus.`,
  saveFile: 'Enregistrer dans un fichier',
  openFile: 'Ouvrir un fichier',
  fileTooLarge: 'Le fichier n’est pas une liste de contrôle : il est trop gros. Rien n’a été changé ici.',
  fileRefused: (why: string) =>
    `Le fichier n’est pas une liste de contrôle : ${why} Rien n’a été changé ici.`,
  fileTaken: 'Repris. Le parcourir, puis enregistrer.',
  fileTamed: (n: number) =>
    n === 1
      ? 'Repris ; des marques d’un autre programme ont été ôtées d’un texte. Le parcourir, puis enregistrer.'
      : `Repris ; des marques d’un autre programme ont été ôtées de ${n} textes. Les parcourir, puis enregistrer.`,
};

/** What an answer is, beside the tick. */
export const WANTS: Record<Wants, string> = {
  tick: 'Une coche',
  number: 'Une coche et un nombre',
  text: 'Une coche et quelques mots',
};
