/** Handing the client what was made. */
export const HANDOVER = {
  make: 'Paket für den Auftraggeber',
  what: 'Eine Datei mit der Aufzeichnung, ihrem Nachweis, den Fotos und wie man sie prüft. Der Nachweis als PDF: öffnen und drucken.',
  making: 'Stellt das Paket zusammen',
  saved: 'Das Paket ist gespeichert.',
  share: 'Teilen',
  shareRest: 'Nachweis und Fotos teilen',
  shareRestText:
    'Dieser Browser teilt keine Zip-Dateien: das Paket mit der Nachweisdatei ist hier gespeichert, es mitschicken.',
  shareTitle: 'Aufzeichnung einer Sanierung',
  shared: 'Übergeben.',
  print: 'Drucken oder als PDF speichern',
  again: 'Paket nochmal speichern',
};
