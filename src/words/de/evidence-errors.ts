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
    title: 'Übung',
    todo: 'Eine Übungsaufzeichnung geht an keinen Auftraggeber. Als Datei speichern.',
  },
  open: {
    title: 'Der Lauf hat kein Ende',
    todo: 'Beenden oder als unterbrochen schließen, dann versiegeln.',
  },
  unreadable: {
    title: 'Die Aufzeichnung ist nicht lesbar',
    todo: 'Ihr erster Block ist beschädigt: sie lässt sich nicht versiegeln.',
  },
  sealed: {
    title: 'Schon versiegelt',
    todo: 'Was berichtigt werden muss, wird signiert hinzugefügt.',
  },
  'not-sealed': { title: 'Nicht versiegelt', todo: 'Erst die Aufzeichnung versiegeln.' },
  'key-missing': {
    title: 'Dieser Browser kann kein Ed25519',
    todo: 'Einen neueren Browser nehmen, oder die Datei von Hand prüfen, wie ihre CHECK.txt sagt.',
  },
  'too-large': {
    title: 'Die Datei ist zu groß',
    todo: 'Keine Datei dieses Programms ist so groß.',
  },
  'language-future': {
    title: 'Die Papiere der Aufzeichnung sind in einer Sprache, die es hier nicht gibt',
    todo: 'Dieses Programm aktualisieren, um sie zu sehen. Die Aufzeichnung selbst bleibt davon unberührt.',
  },
  'not-a-backup': {
    title: 'Keine Sicherung',
    todo: 'Eine Datei wählen, die diese Seite gemacht hat. Nichts wurde geändert.',
  },
  'backup-damaged': {
    title: 'Die Sicherung ist beschädigt',
    todo: 'Sie wurde abgeschnitten oder verändert. Neu holen oder eine ältere nehmen. Nichts wurde geändert.',
  },
  'backup-future': {
    title: 'Die Sicherung stammt aus einer späteren Version',
    todo: 'Dieses Programm aktualisieren, dann wiederherstellen. Nichts wurde geändert.',
  },
  'reason-needed': {
    title: 'Ein Grund fehlt',
    todo: 'Diese Aufzeichnung hat Ausnahmen: schreiben, warum sie trotzdem freigegeben wird. Noch ist nichts entschieden.',
  },
  cancelled: { title: 'Abgebrochen', todo: 'Nichts wurde geändert.' },
  'picture-not-a-picture': {
    title: 'Kein Foto',
    todo: 'Eine JPEG-, PNG- oder WebP-Datei wählen. Nichts wurde behalten.',
  },
  'picture-heic': {
    title: 'Ein Kameraformat (HEIC)',
    todo: 'Die Kamera auf JPEG stellen („maximale Kompatibilität“) oder das Foto als JPEG speichern, dann wählen. Nichts wurde behalten.',
  },
  'picture-drawing': {
    title: 'Eine Zeichnung, kein Foto',
    todo: 'Eine JPEG-, PNG- oder WebP-Datei wählen. Nichts wurde behalten.',
  },
  'picture-broken': {
    title: 'Das Foto lässt sich nicht öffnen',
    todo: 'Es ist beschädigt oder abgeschnitten. Neu aufnehmen oder nochmal von der Kamera kopieren. Nichts wurde behalten.',
  },
  'picture-large': {
    title: 'Das Foto ist zu groß',
    todo: 'Es gehen bis zu 64 MB und 110 Megapixel. Kleiner speichern, dann wählen. Nichts wurde behalten.',
  },
  'picture-twice': { title: 'Dieses Foto ist schon hier', todo: 'Es wurde nicht zweimal genommen.' },
  'picture-sealed': {
    title: 'Es steht in einer versiegelten Aufzeichnung',
    todo: 'Es bleibt, wie es versiegelt wurde. Was berichtigt werden muss, wird signiert hinzugefügt.',
  },
  'picture-unread': {
    title: 'Dieser Browser kann Fotos nicht verkleinern',
    todo: 'Eine neuere Version nehmen. Nichts wurde behalten.',
  },
  'pictures-full': {
    title: 'Keine weiteren Fotos für diesen Lauf',
    todo: 'Eine Aufzeichnung nimmt 40. Eines entfernen, das dasselbe zeigt wie ein anderes.',
  },
  'signature-blank': {
    title: 'Das Feld ist leer',
    todo: 'Mit Finger oder Stift quer über das Feld unterschreiben, dann behalten.',
  },
};
