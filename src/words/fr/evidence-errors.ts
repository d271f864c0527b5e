import type { Advice } from './link.ts';

/** What happened and what to do, for refusals that only the evidence worker has. */
export const EVIDENCE_ERROR: Record<
  | 'practice'
  | 'open'
  | 'unreadable'
  | 'sealed'
  | 'not-sealed'
  | 'key-missing'
  | 'too-large'
  | 'language-future'
  | 'not-a-backup'
  | 'backup-damaged'
  | 'backup-future'
  | 'reason-needed'
  | 'cancelled'
  | 'picture-not-a-picture'
  | 'picture-heic'
  | 'picture-drawing'
  | 'picture-broken'
  | 'picture-large'
  | 'picture-twice'
  | 'picture-sealed'
  | 'picture-unread'
  | 'pictures-full'
  | 'signature-blank',
  Advice
> = {
  practice: {
    title: 'Exercice',
    todo: 'Un enregistrement d’exercice ne va à aucun client. L’enregistrer dans un fichier.',
  },
  open: {
    title: 'La session n’a pas de fin',
    todo: 'La clore, au besoin comme interrompue, puis la sceller.',
  },
  unreadable: {
    title: 'L’enregistrement n’est pas lisible',
    todo: 'Son premier bloc est abîmé : il ne peut pas être scellé.',
  },
  sealed: { title: 'Déjà scellé', todo: 'Ce qui est à corriger s’ajoute, signé.' },
  'not-sealed': { title: 'Non scellé', todo: 'Sceller d’abord l’enregistrement.' },
  'key-missing': {
    title: 'Ce navigateur n’a pas Ed25519',
    todo: 'Prendre un navigateur plus récent, ou contrôler le fichier à la main comme le dit son CHECK.txt.',
  },
  'too-large': { title: 'Le fichier est trop gros', todo: 'Aucun fichier de ce programme n’est aussi gros.' },
  'language-future': {
    title: 'Les papiers de l’enregistrement sont dans une langue absente ici',
    todo: 'Mettre ce programme à jour pour les voir. L’enregistrement lui-même n’en est pas touché.',
  },
  'not-a-backup': {
    title: 'Ce n’est pas une sauvegarde',
    todo: 'Choisir un fichier fait par cette page. Rien n’a été modifié.',
  },
  'backup-damaged': {
    title: 'La sauvegarde est abîmée',
    todo: 'Elle a été coupée ou modifiée. La rechercher de nouveau ou en prendre une plus ancienne. Rien n’a été modifié.',
  },
  'backup-future': {
    title: 'La sauvegarde vient d’une version plus récente',
    todo: 'Mettre ce programme à jour, puis restaurer. Rien n’a été modifié.',
  },
  'reason-needed': {
    title: 'Il faut un motif',
    todo: 'Cet enregistrement a des réserves : écrire pourquoi il est approuvé quand même. Rien n’est encore décidé.',
  },
  cancelled: { title: 'Annulé', todo: 'Rien n’a été modifié.' },
  'picture-not-a-picture': {
    title: 'Ce n’est pas une photo',
    todo: 'Choisir un fichier JPEG, PNG ou WebP. Rien n’a été gardé.',
  },
  'picture-heic': {
    title: 'Un format propre à l’appareil photo (HEIC)',
    todo: 'Régler l’appareil photo sur JPEG (« le plus compatible ») ou enregistrer la photo en JPEG, puis la choisir. Rien n’a été gardé.',
  },
  'picture-drawing': {
    title: 'Un dessin, pas une photo',
    todo: 'Choisir un fichier JPEG, PNG ou WebP. Rien n’a été gardé.',
  },
  'picture-broken': {
    title: 'La photo ne s’ouvre pas',
    todo: 'Elle est abîmée ou coupée. La refaire, ou la copier encore une fois de l’appareil photo. Rien n’a été gardé.',
  },
  'picture-large': {
    title: 'La photo est trop grosse',
    todo: 'Jusqu’à 64 Mo et 110 mégapixels sont acceptés. L’enregistrer plus petite, puis la choisir. Rien n’a été gardé.',
  },
  'picture-twice': { title: 'Cette photo est déjà là', todo: 'Elle n’a pas été prise deux fois.' },
  'picture-sealed': {
    title: 'Elle figure dans un enregistrement scellé',
    todo: 'Elle reste telle qu’elle a été scellée. Ce qui est à corriger s’ajoute, signé.',
  },
  'picture-unread': {
    title: 'Ce navigateur ne sait pas réduire les photos',
    todo: 'En prendre une version plus récente. Rien n’a été gardé.',
  },
  'pictures-full': {
    title: 'Plus de place pour une photo dans cette session',
    todo: 'Un enregistrement en prend 40. En retirer une qui montre la même chose qu’une autre.',
  },
  'signature-blank': {
    title: 'La case est vide',
    todo: 'Signer au doigt ou au stylet dans la case, puis garder.',
  },
};
