import type { Carried, SignedAs } from '../../job/enclosed.ts';
import { OCCASIONS } from './occasions.ts';

/** Photos and signatures by hand beside a job or a run. */
const CARRIED: Record<Carried, string> = {
  place: 'le lieu',
  person: 'le nom d’une personne',
  time: 'l’heure',
  device: 'l’appareil photo',
  other: 'd’autres notes',
};

export const PHOTOS = {
  title: 'Photos et signatures',
  lead: 'Scellées avec l’enregistrement, sur son certificat et dans son fichier. Une photo est réduite ici, et ce que l’appareil photo y a noté (lieu, nom, heure) n’est pas gardé.',
  leadSealed: 'Telles qu’elles ont été scellées avec l’enregistrement.',
  none: 'Aucune encore.',
  present: (names: string) => `Équipe du jour : ${names}`,
  noneSealed: 'Il n’y en avait aucune quand l’enregistrement a été scellé.',
  occasion: 'Ce qu’elle montre',
  occasions: OCCASIONS,
  by: 'Initiales',
  note: 'Remarque',
  take: 'Prendre une photo',
  choose: 'Choisir des photos',
  original: 'Garder aussi le fichier d’origine',
  originalText:
    'L’original peut dire où, quand et par qui elle a été prise. Qui reçoit l’enregistrement reçoit cela aussi.',
  reducing: (n: number, of: number) => (of === 1 ? 'Réduction' : `Réduction de la photo ${n} sur ${of}`),
  kept: (n: number) => (n === 1 ? 'Gardée.' : `${n} photos gardées.`),
  taken: {
    camera: (when: string) => `prise le ${when}`,
    file: (when: string) => `fichier du ${when}`,
  },
  withOriginal: (bytes: string, says: string) =>
    says === '' ? `avec son original, ${bytes}` : `avec son original, ${bytes}, qui dit : ${says}`,
  carries: (list: readonly Carried[]) => list.map((c) => CARRIED[c]).join(', '),
  open: (what: string) => `${what} : la voir en grand`,
  remove: 'Retirer',
  removeAsk: 'Retirer cette photo ?',
  removeText: 'Elle est retirée de ce navigateur. Il n’y a pas de retour.',
  gone: 'La photo n’est plus là.',
  compare: 'Avant et après, côte à côte',
  left: 'Gauche',
  right: 'Droite',
  close: 'Fermer',
  addText:
    'Une photo ou une signature qui vient après le scellement est aussi un ajout : signé à part, petit. Une photo demande des initiales.',
  signTitle: 'Signer à la main',
  signLead:
    'Au doigt, au stylet ou à la souris. Cela montre qui était là ; l’enregistrement lui-même est scellé par la clé de l’ordinateur.',
  as: 'Pour',
  asWhom: { crew: 'l’équipe', client: 'le client' } satisfies Record<SignedAs, string>,
  signed: { crew: 'Pour l’équipe', client: 'Vu par le client' } satisfies Record<SignedAs, string>,
  name: 'Nom',
  nameNeeded: 'Une signature demande son nom.',
  pad: 'Case pour signer',
  undo: 'Défaire le dernier trait',
  clear: 'Effacer',
  keep: 'Garder cette signature',
  blank: 'La case est vide : y signer, puis garder.',
  full: 'Plus de place pour d’autres traits. Garder, ou effacer la case.',
  removeSigned: 'Retirer cette signature',
};

/** The firm's mark and its people. */
export const FIRM = {
  mark: 'Logo de l’entreprise',
  markText:
    'Il est sur les certificats, à côté du nom de l’entreprise. SVG, PNG ou JPEG, jusqu’à 2 MB ; il est redessiné ici, petit, et rien d’autre du fichier n’est gardé.',
  markChoose: 'Choisir le logo',
  markRemove: 'Retirer le logo',
  markRemoved: 'Logo retiré.',
  refused: {
    large:
      'Le fichier est trop gros pour un logo : jusqu’à 2 MB et 8000 pixels de côté. L’enregistrer plus petit, puis le choisir.',
    unread: 'Ce n’est pas une image qui puisse être dessinée ici. Choisir un fichier SVG, PNG ou JPEG.',
  },
  far: 'Deuxième écran',
  farText:
    'La pression et rien d’autre, dans une fenêtre à part pour un grand affichage sur cet ordinateur. Elle dit PAS DE DONNÉES quand la page qui surveille est fermée ou s’arrête ; elle n’affiche aucune alarme.',
  farOpen: 'Ouvrir le deuxième écran',
  people: 'Personnes',
  peopleText:
    'Qui est coché est là aujourd’hui. Cela se choisit une fois par jour ; leurs noms sont scellés avec les sessions du jour et figurent sur le certificat, et leurs initiales sont proposées où l’on signe.',
  nobody: 'Personne n’est encore saisi.',
  hereToday: 'Qui est là aujourd’hui',
  hereText: 'La liste reste sur cet ordinateur. Demain personne n’est coché.',
  initials: 'Initiales',
  initialsKnown: 'Ces initiales sont prises.',
  name: 'Nom',
  addPerson: 'Ajouter cette personne',
  personRemoved: (initials: string) => `${initials} retiré.`,
};
