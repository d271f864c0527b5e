/** Parts of what a verification tells: a phrase for each code. */
import type { MapKind } from '../../job/reading-map.ts';
import type { Finding, Remark } from '../../record/findings.ts';
import type { TermFault } from '../../record/key-terms.ts';
import type { AdditionFault } from '../../record/seal.ts';
import type { ProofFault } from '../../record/witness/check-proof.ts';

export const PAGE: Record<Extract<Finding, { f: 'pages' }>['why'], string> = {
  crc: 'verändert',
  torn: 'abgeschnitten',
  missing: 'fehlend',
  order: 'nicht in der Reihe',
  chain: 'nicht der Block, den der nächste nennt',
  form: 'nicht lesbar',
  version: 'aus einer späteren Version',
  run: 'aus einem anderen Lauf',
  rewritten: 'irgendwo in dieser Spanne neu gemacht',
  end: 'am Ende fehlend',
  cut: 'fehlend: die Datei endet hier',
};

export const ADDITION: Record<AdditionFault, string> = {
  form: 'nicht lesbar',
  version: 'aus einer späteren Version',
  signature: 'seine Signatur stimmt nicht',
  fingerprint: 'sein Schlüssel ist nicht der genannte',
  order: 'nicht an seinem Platz',
  record: 'zu einer anderen Aufzeichnung',
  'too-many': 'mehr, als eine Aufzeichnung nimmt, und nicht gelesen',
};

export const NOT_JUDGED: Record<Extract<Remark, { r: 'not-judged' }>['why'], string> = {
  engine: 'die Aufzeichnung ist von einer anderen Version der Überwachung',
  damaged: 'Blöcke wurden auf dem Computer beschädigt',
  'too-long':
    'der Lauf will länger als acht Tage gewesen sein, oder länger als zwei, in denen kaum etwas gelesen wurde',
  'not-asked': 'nur Signaturen, Kette und Prüfsummen wurden geprüft',
  failed:
    'das Beurteilen brach ab. Entweder enthält die Aufzeichnung, was sich nicht beurteilen lässt, oder dieses Programm hat einen Fehler: so oder so ist nichts gesagt',
};

export const CLOCK_BACK = {
  pages: (at: number, times: number) =>
    times === 1
      ? `Die Uhr lief im Lauf zurück, vor Block ${at}`
      : `Die Uhr lief im Lauf ${times}-mal zurück, zuerst vor Block ${at}`,
  end: () => 'Der Lauf endete nach der Uhr, bevor er geöffnet wurde',
  sealing: () => 'Die Aufzeichnung wurde nach der Uhr versiegelt, bevor der Lauf vorbei war',
  addition: (at: number) => `Nachtrag ${at} ist nach der Uhr älter als das, wozu er gehört`,
} as const;

export const CLOCK_APART: Record<Extract<Remark, { r: 'clock-apart' }>['what'], string> = {
  opened: 'Das Kontrollprotokoll vermerkte eine andere Zeit des Öffnens',
  ended: 'Das Kontrollprotokoll vermerkte eine andere Zeit des Endes',
  sealed: 'Es wurde als versiegelt vermerkt, bevor es nach eigener Angabe versiegelt wurde',
  'not-before':
    'Nach eigener Angabe wurde es geöffnet, bevor ein Gegenzeichner signierte, was sein erster Block nennt',
  'not-after':
    'Nach eigener Angabe wurde es versiegelt, nachdem ein Gegenzeichner das Protokoll mit dieser Aufzeichnung signiert hatte',
  device: 'Nach der Uhr des Geräts dauerte der Lauf anders als nach der des Computers',
  'device-step':
    'Ab einem Augenblick kamen die Messwerte später oder früher, als die Uhr des Geräts sagt, wie wenn ein Stück herausgeschnitten wurde',
  pages:
    'Nach der Uhr des Computers dauerte der Lauf anders oder wurde zu anderer Zeit geöffnet, als seine Blöcke sagen',
};

export const PAPERS_APART: Record<Extract<Remark, { r: 'papers-apart' }>['what'][number], string> = {
  sensor: 'anderer Sensor oder Messbereich',
  calibration: 'andere Kalibrierung',
  packer: 'ein Packer mit anderem Höchstdruck',
  resin: 'anderes Harz, oder anderes Datenblatt davon',
  pipe: 'anderer Durchmesser des Rohrs',
  site: 'andere Messstelle, Art der Leitung, Wärmung oder Nässe',
  'air-test': 'andere Luftprüfung',
};

export const TERM: Readonly<Record<TermFault, string>> = {
  before: 'bekannt, und dies wurde signiert, bevor er galt',
  after: 'bekannt, und dies wurde signiert, als er nicht mehr galt',
  revoked: 'widerrufen, und dies wurde danach signiert',
};

export const READ_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Nach einer Registerkarte von einem Bus gelesen: die Messwerte tragen nur die Uhr dieses Computers, und kein Gerät bewachte eine eigene Grenze.',
  columns:
    'Ungeprüfte Leitung: die Messwerte kamen als einfacher Text ohne Prüfsumme, tragen nur die Uhr dieses Computers, und kein Gerät bewachte eine eigene Grenze.',
};

export const ENTRIES = {
  setup: (n: number) => (n === 1 ? 'ein Setup ist keines' : `${n} Setups sind keine`),
  command: (n: number) =>
    n === 1 ? 'ein Tastendruck hat nicht seine Form' : `${n} Tastendrücke haben nicht ihre Form`,
  notice: (n: number) =>
    n === 1 ? 'eine Meldung hat nicht ihre Form' : `${n} Meldungen haben nicht ihre Form`,
  event: (n: number) =>
    n === 1 ? 'ein Ereignis hat nicht seine Form' : `${n} Ereignisse haben nicht ihre Form`,
  map: (n: number) => (n === 1 ? 'eine Lesekarte ist keine' : `${n} Lesekarten sind keine`),
} as const;

export const MANIFEST: Record<Extract<Finding, { f: 'manifest' }>['why'], string> = {
  form: 'nicht in der Form eines Manifests',
  signature: 'die Signatur stimmt nicht',
  fingerprint: 'der Schlüssel ist nicht der genannte',
  practice: 'ein Übungslauf wurde als Auftrag versiegelt, was keines unserer Programme tut',
};

export const CONTAINER: Record<Extract<Finding, { f: 'refused' | 'container' }>['why'], string> = {
  'not-a-zip': 'keine Zip-Datei',
  'not-a-record': 'keine Aufzeichnung dieses Programms',
  version: 'aus einer späteren Version des Programms: eine neuere nehmen',
  compressed: 'innen komprimiert, was keine Aufzeichnung ist',
  encrypted: 'verschlüsselt',
  zip64: 'von einer Größe, die keine Aufzeichnung hat',
  name: 'ein Name, den keine Aufzeichnung hat',
  twice: 'ein Name, der zweimal steht',
  'too-many': 'zu viele Dateien darin',
  truncated: 'abgeschnitten',
  sequence: 'Dateien in anderer Reihenfolge',
  header: 'nicht, wie sie gemacht wurde (Kopf)',
  behind: 'nicht, wie sie gemacht wurde (dahinter)',
};

export const PROOF: Record<ProofFault, string> = {
  form: 'eine Datei davon hat nicht ihre Form',
  key: 'es ist von einem anderen Protokoll, als das Manifest nennt',
  note: 'ein Sicherungspunkt ist nicht von seinem Protokoll signiert, oder nicht von seinem Gegenzeichner',
  inclusion: 'das Vermerkte ist nicht im Baum des Sicherungspunkts',
  consistency: 'ein Sicherungspunkt ist nicht der Anfang des anderen: zwei Geschichten',
  content: 'das Vermerkte gehört nicht zu dieser Aufzeichnung',
  twice: 'der Lauf wurde mehrmals versiegelt',
  addition: 'ein Nachtrag wurde vermerkt, den die Datei nicht hat',
  stamp: 'der Zeitstempel gehört zu etwas anderem',
};

/** The same of the temperatures of a second adapter. */
export const BESIDE_BY_MAP: Readonly<Record<MapKind, string>> = {
  registers:
    'Temperaturen kamen nach einer Registerkarte von einem zweiten Bus: ihre Zeiten sind die des Computers. Was darüber kam, steht in der Aufzeichnung und wurde nachgerechnet.',
  columns:
    'Temperaturen kamen über eine zweite, UNGEPRÜFTE Leitung: eine gestörte Zeile sieht vielleicht richtig aus; ihre Zeiten sind die des Computers. Was darüber kam, steht in der Aufzeichnung und wurde nachgerechnet.',
};
