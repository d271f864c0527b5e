import type { Carried, SignedAs } from '../../job/enclosed.ts';
import { OCCASIONS } from './occasions.ts';

/** Photos and signatures by hand beside a job or a run. */
const CARRIED: Record<Carried, string> = {
  place: 'den Ort',
  person: 'den Namen einer Person',
  time: 'die Zeit',
  device: 'die Kamera',
  other: 'weitere Angaben',
};

export const PHOTOS = {
  title: 'Fotos und Unterschriften',
  lead: 'Mit der Aufzeichnung versiegelt, auf ihrem Nachweis und in ihrer Datei. Ein Foto wird hier verkleinert, und was die Kamera dazu vermerkt hat (Ort, Name, Zeit), wird nicht behalten.',
  leadSealed: 'Wie sie mit der Aufzeichnung versiegelt wurden.',
  none: 'Noch keine.',
  present: (names: string) => `Kolonne an dem Tag: ${names}`,
  noneSealed: 'Keine waren da, als die Aufzeichnung versiegelt wurde.',
  occasion: 'Was es zeigt',
  occasions: OCCASIONS,
  by: 'Kürzel',
  note: 'Bemerkung',
  take: 'Foto aufnehmen',
  choose: 'Fotos wählen',
  original: 'Auch die Originaldatei behalten',
  originalText:
    'Das Original sagt vielleicht, wo, wann und von wem es aufgenommen wurde. Wer die Aufzeichnung bekommt, bekommt auch das.',
  reducing: (n: number, of: number) => (of === 1 ? 'Verkleinert es' : `Verkleinert Foto ${n} von ${of}`),
  kept: (n: number) => (n === 1 ? 'Behalten.' : `${n} Fotos behalten.`),
  taken: {
    camera: (when: string) => `aufgenommen ${when}`,
    file: (when: string) => `Datei vom ${when}`,
  },
  withOriginal: (bytes: string, says: string) =>
    says === '' ? `mit seinem Original, ${bytes}` : `mit seinem Original, ${bytes}, das nennt: ${says}`,
  carries: (list: readonly Carried[]) => list.map((c) => CARRIED[c]).join(', '),
  open: (what: string) => `${what}: groß ansehen`,
  remove: 'Entfernen',
  removeAsk: 'Dieses Foto entfernen?',
  removeText: 'Es wird aus diesem Browser entfernt. Es gibt kein Zurück.',
  gone: 'Das Foto ist nicht mehr da.',
  compare: 'Vorher und nachher, nebeneinander',
  left: 'Links',
  right: 'Rechts',
  close: 'Schließen',
  addText:
    'Ein Foto oder eine Unterschrift nach dem Versiegeln ist auch ein Nachtrag: für sich signiert, klein. Ein Foto braucht ein Kürzel.',
  signTitle: 'Unterschreiben',
  signLead:
    'Mit Finger, Stift oder Maus. Es zeigt, wer dabei war; die Aufzeichnung selbst versiegelt der Schlüssel des Computers.',
  as: 'Für',
  asWhom: { crew: 'die Kolonne', client: 'den Auftraggeber' } satisfies Record<SignedAs, string>,
  signed: { crew: 'Für die Kolonne', client: 'Vom Auftraggeber gesehen' } satisfies Record<SignedAs, string>,
  name: 'Name',
  nameNeeded: 'Eine Unterschrift braucht ihren Namen.',
  pad: 'Feld zum Unterschreiben',
  undo: 'Letzten Strich zurücknehmen',
  clear: 'Leeren',
  keep: 'Diese Unterschrift behalten',
  blank: 'Das Feld ist leer: quer darüber unterschreiben, dann behalten.',
  full: 'Kein Platz für weitere Striche. Behalten oder das Feld leeren.',
  removeSigned: 'Diese Unterschrift entfernen',
};

/** The firm's mark and its people. */
export const FIRM = {
  mark: 'Zeichen der Firma',
  markText:
    'Steht auf Nachweisen, neben dem Namen der Firma. SVG, PNG oder JPEG, bis 2 MB; es wird hier neu gezeichnet, klein, und sonst nichts von der Datei behalten.',
  markChoose: 'Zeichen wählen',
  markRemove: 'Zeichen entfernen',
  markRemoved: 'Zeichen entfernt.',
  refused: {
    large:
      'Die Datei ist zu groß für ein Zeichen: bis 2 MB und 8000 Pixel je Seite. Kleiner speichern, dann wählen.',
    unread: 'Das ist kein Bild, das sich hier zeichnen lässt. Eine SVG-, PNG- oder JPEG-Datei wählen.',
  },
  far: 'Zweiter Bildschirm',
  farText:
    'Der Druck und sonst nichts, in einem eigenen Fenster für eine große Anzeige an diesem Computer. Es zeigt KEINE DATEN, wenn die überwachende Seite geschlossen wird oder stehen bleibt; es zeigt keinen Alarm.',
  farOpen: 'Zweiten Bildschirm öffnen',
  people: 'Leute',
  peopleText:
    'Wer angekreuzt ist, ist heute da. Das wird einmal am Tag gewählt; die Namen werden mit den Läufen des Tages versiegelt und stehen auf dem Nachweis, und die Kürzel werden angeboten, wo für etwas gezeichnet wird.',
  nobody: 'Noch ist niemand eingetragen.',
  hereToday: 'Wer heute da ist',
  hereText: 'Die Liste bleibt auf diesem Computer. Morgen ist niemand angekreuzt.',
  initials: 'Kürzel',
  initialsKnown: 'Dieses Kürzel ist vergeben.',
  name: 'Name',
  addPerson: 'Diese Person hinzufügen',
  personRemoved: (initials: string) => `${initials} entfernt.`,
};
