/** Handing the client what was made. */
export const HANDOVER = {
  make: 'Envoi pour le client',
  what: 'Un seul fichier avec l’enregistrement, son certificat, les photos et comment les vérifier. Le certificat en PDF : l’ouvrir et l’imprimer.',
  making: 'Préparation de l’envoi',
  saved: 'L’envoi est enregistré.',
  share: 'Partager',
  shareRest: 'Partager certificat et photos',
  shareRestText:
    'Ce navigateur ne partage pas de fichiers zip : l’envoi avec le fichier d’enregistrement est gardé ici, le joindre.',
  shareTitle: 'Enregistrement d’une réparation',
  shared: 'Remis.',
  print: 'Imprimer, ou enregistrer en PDF',
  again: 'Enregistrer l’envoi de nouveau',
};
