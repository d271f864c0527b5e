import type { Finding, Remark, Verdict } from '../../record/findings.ts';
import type { ApartFrom, Reservations } from '../../record/reservations.ts';
import type { Format } from '../create-format.ts';
import {
  ADDITION,
  BESIDE_BY_MAP,
  CLOCK_APART,
  CLOCK_BACK,
  CONTAINER,
  ENTRIES,
  MANIFEST,
  NOT_JUDGED,
  PAGE,
  PAPERS_APART,
  PROOF,
  READ_BY_MAP,
  TERM,
} from './finding-parts.ts';

/** Words of sealing, verifying and keys. */
const THIS_BROWSER = 'dieser Browser';
const UNKNOWN_KEY = 'ein hier nicht bekannter Schlüssel';

const EVIDENCE = {
  // seal
  sealTitle: 'Versiegeln',
  sealWhat:
    'Versiegeln signiert diese Aufzeichnung mit dem Schlüssel des Computers. Von da an lässt sich nichts darin ändern, ohne dass es auffällt. Erst das Auftragsblatt prüfen: Packer, Harz, Chargen und Sensoren werden versiegelt, wie sie jetzt sind.',
  seal: 'Diese Aufzeichnung versiegeln',
  sealAsk: 'Diese Aufzeichnung versiegeln?',
  sealAskText:
    'Messkurve, Ereignisse und das Auftragsblatt, wie es jetzt ist, werden signiert. Danach wird nichts umgeschrieben; Berichtigungen sind signierte Nachträge.',
  sealing: 'Versiegelt',
  practiceWhat:
    'Versiegeln macht eine Übungsaufzeichnung mit einem Übungsnachweis. Sie verifiziert als Übungsaufzeichnung und nie als Auftrag.',
  practiceSeal: 'Als Übungsaufzeichnung versiegeln',
  practiceFile: 'Übungsaufzeichnung speichern',
  practiceCertificate: 'Übungsnachweis',
  practiceFileWhat: 'Geht an keinen Auftraggeber und in keinen gemeinsamen Ordner.',
  openFirst:
    'Der Lauf hat noch kein Ende. Beenden oder als unterbrochen schließen, bevor er versiegelt wird.',
  sealedAt: 'Versiegelt',
  sealedBy: (date: string, who: string) => `Versiegelt ${date}, Signatur: ${who}`,
  key: 'Schlüssel',
  keyOf: (who: string) => `Schlüssel (${who})`,
  file: 'Nachweisdatei speichern',
  fileWhat:
    'Eine Datei für den Auftraggeber: Messkurve, Ereignisse, Nachweis, und wie man sie von Hand mit openssl und sha256sum prüft.',
  building: 'Baut die Datei',
  certificate: 'Nachweis',
  newFirst:
    'Auf diesem Computer wurde ein Signierschlüssel gemacht. Der Firma seinen Fingerabdruck geben: daran erkennen andere, dass Aufzeichnungen von hier sind.',
  newAfterLoss:
    'Der frühere Signierschlüssel dieses Computers ist weg, darum wurde ein neuer gemacht. Andere sehen eine neue Signatur: der Firma den Fingerabdruck nennen.',

  // additions
  additions: 'Signierte Nachträge',
  additionsSay: 'Was nachgetragen wurde',
  noAdditions:
    'Keine. Was berichtigt werden muss, wird hier mit Kürzel nachgetragen; die versiegelte Aufzeichnung bleibt, wie sie ist.',
  addTitle: 'Zur versiegelten Aufzeichnung nachtragen',
  addKind: 'Was es ist',
  kinds: { correction: 'Berichtigung', note: 'Notiz' },
  addText: 'Text',
  addBy: 'Kürzel',
  add: 'Signieren und nachtragen',
  status: 'Stand',

  // review status
  reviewTitle: 'Entscheidung',
  statuses: { open: 'Keine Entscheidung', released: 'Freigegeben', rejected: 'Zurückgewiesen' },
  statusNote: 'Die Entscheidung bleibt in diesem Browser, neben der Aufzeichnung. Sie ändert nichts darin.',
  release: 'Freigeben',
  reject: 'Zurückweisen',
  reopen: 'Wieder öffnen',
  reason: 'Grund',
  reasonNeeded: 'Eine Zurückweisung braucht ihren Grund.',
  acceptReasonNeeded: 'Diese Aufzeichnung hat Ausnahmen: schreiben, warum sie trotzdem freigegeben wird.',
  reviewer: 'Name',
  nameNeeded: 'Wer entscheidet, gibt einen Namen an.',
  history: 'Früher',

  // judge again
  judge: 'Mit der heutigen Überwachung neu beurteilen',
  judging: 'Beurteilt …',
  judgedSame: (n: number) => `Alle ${n} Ereignisse sind gleich.`,
  judgedWhat:
    'Die versiegelte Aufzeichnung gilt. Dies zeigt, was die heutige Überwachung aus derselben Eingabe anders sagt.',
  judgedRecorded: 'Dies zeigt, was die heutige Überwachung aus derselben Eingabe anders sagt.',
  gone: 'Nur in der Aufzeichnung',
  fresh: 'Nur jetzt gefunden',
  engines: (then: number, now: number) =>
    `Aufgezeichnet von Überwachung ${then}, neu beurteilt von Überwachung ${now}.`,

  // exports
  exportTitle: 'Ausgeben',
  savePicture: 'Bild (SVG)',
  savePng: 'Bild (PNG)',
  saveData: 'Sichtbare Daten (CSV)',

  // keys
  keyTitle: 'Signierschlüssel dieses Computers',
  keyNone: 'Noch kein Schlüssel. Einer wird gemacht, wenn die erste Aufzeichnung versiegelt wird.',
  keyLost:
    'Der Schlüssel, der hier signiert hat, ist weg (Speicher geleert, oder Sicherung eines anderen Computers). Die nächste Versiegelung macht einen neuen, und andere sehen eine neue Signatur. Früher Signiertes bleibt so gut, wie es war.',
  keyReady: 'Diesen Fingerabdruck der Firma geben. Der Schlüssel selbst verlässt den Computer nie.',
  fingerprintSince: (date: string) => `Fingerabdruck, seit ${date}`,
  knownSince: (name: string, date: string) => `${name}, seit ${date}`,
  keyChange: 'Schlüssel wechseln',
  keyChangeAsk: 'Den Signierschlüssel wechseln?',
  keyChangeText:
    'Ab jetzt signiert ein neuer Schlüssel, und der jetzige bürgt für ihn. Andere sehen eine neue Signatur: der Firma den neuen Fingerabdruck nennen.',
  keyBefore: 'Frühere Schlüssel',
  lost: 'verloren; nur die Firma bürgt für den nächsten',
  changed: 'gewechselt; er bürgt für den nächsten',
  knownTitle: 'Bekannte Schlüssel',
  knownText:
    'Mit diesen Schlüsseln signierte Aufzeichnungen sind hier gültig. Ein Schlüssel ist nur so gut wie der Weg, auf dem sein Fingerabdruck kam.',
  knownNone: 'Noch keine.',
  fingerprint: 'Fingerabdruck',
  owner: 'Wem er gehört',
  know: 'Zu den bekannten Schlüsseln',
  term: {
    open: 'Wann er gilt',
    title: (name: string) => `Wann der Schlüssel von ${name} gilt`,
    from: 'Gilt ab dem Tag',
    until: 'Gilt bis zum Ende des Tages',
    revoked: 'Widerrufen ab dem Tag: in fremden Händen',
    what: 'Was er signierte, solange er galt, bleibt gültig. Einen Schlüssel zu entfernen ist etwas anderes: dann zählt nichts, was er signierte. Wer einen Schlüssel hat, kann mit jedem Datum signieren; späte Aufzeichnungen darum mit einem Gegenzeichner vergleichen.',
    save: 'Speichern',
    wrong: 'Der letzte Tag liegt vor dem ersten.',
    replace: 'Ein anderer Schlüssel tritt jetzt an seine Stelle',
    replaceBy: 'Fingerabdruck des neuen Schlüssels',
    fromThe: (date: string) => `Gilt ab ${date}.`,
    untilThe: (date: string) => `Gilt bis ${date}.`,
    revokedThe: (date: string) => `Widerrufen ab ${date}.`,
    replaced: 'Ein anderer Schlüssel signiert an seiner Stelle.',
  },
  forget: 'Entfernen',
  badFingerprint: 'Ein Fingerabdruck hat 64 Zeichen, a bis f und Ziffern.',

  // verify
  verifyTitle: 'Datei verifizieren',
  verifyLead:
    'Eine Nachweisdatei, oder das Paket, in dem sie kam, wird in diesem Browser Byte für Byte verifiziert. Nichts wird gesendet.',
  choose: 'Datei wählen',
  drop: 'oder hier ablegen',
  inPacket: (packet: string, record: string) =>
    `Das gilt für die Nachweisdatei ${record} im Paket ${packet}. Über die Kopien daneben, Nachweis und Fotos, sagt es nichts.`,
  checking: 'Verifiziert',
  FIRST: {
    valid: 'Bisher: mit einem bekannten Schlüssel signiert; Messkurve, Kette und Kontrollprotokoll stimmen.',
    'unknown-signer':
      'Bisher: Messkurve, Kette und Kontrollprotokoll stimmen, signiert mit einem hier nicht bekannten Schlüssel.',
    'not-derived':
      'Bisher: mit einem bekannten Schlüssel signiert; Messkurve, Kette und Kontrollprotokoll stimmen.',
    changed: 'VERÄNDERT: Signatur, Messkurve, Kette oder Kontrollprotokoll stimmen nicht.',
    incomplete: 'Bisher: ein Teil der Aufzeichnung fehlt.',
    refused: 'Das ist keine Aufzeichnung, die sich hier verifizieren lässt.',
    practice: 'ÜBUNGSAUFZEICHNUNG: an der Übungsanlage aufgezeichnet, keine Aufzeichnung eines Auftrags.',
  },
  firstRest: 'Die anderen Dateien werden neu gemacht.',
  cancelled:
    'Abgebrochen. Über diese Datei ist nichts gesagt, und nichts davon wurde behalten. Zum Verifizieren nochmal wählen.',
  expected: 'Fingerabdruck, den der Nachweis hat',
  expectedHint:
    'Die 64 Zeichen am Fuß seiner ersten Seite, oder von seinem Code eingetragen. Ohne ihn gilt jede versiegelte Aufzeichnung für sich.',
  expectedNone: 'Ein Fingerabdruck hat 64 Zeichen, 0 bis 9 und a bis f.',
  expectedSame: 'Derselbe Fingerabdruck: das ist die Aufzeichnung jenes Nachweises.',
  expectedOther:
    'ANDERER FINGERABDRUCK: diese Datei ist nicht die Aufzeichnung jenes Nachweises, was hier auch sonst über sie steht.',
  findings: 'Was gefunden wurde',
  remarks: 'Gut zu wissen',
  openRecord: 'Öffnen',
  keep: 'Im Archiv behalten',
  kept: 'Im Archiv behalten.',
  alreadyKept: 'Sie ist schon im Archiv.',
  others: (n: number) =>
    n === 1
      ? 'Eine andere Datei desselben Laufs bleibt daneben.'
      : `${n} andere Dateien desselben Laufs bleiben daneben.`,
  recorded: 'Aufgezeichnet',
  samples: 'Messwerte',
  readOnly: 'Datei von anderswo: hier lässt sich nichts darin ändern.',
  changedNote: 'Diese Datei ist nicht die Aufzeichnung, die signiert wurde. Was sie zeigt, beweist nichts.',
  unknownNote:
    'Mit einem hier nicht bekannten Schlüssel signiert. Die Firma fragen, wem dieser Schlüssel gehört.',

  // certificate
  print: 'Drucken oder als PDF speichern',
  saveHtml: 'Als Seite speichern (HTML)',
  certificateLanguage: 'Sprache des Nachweises',
  /** @param language of the one that was sealed, its name in itself */
  certificateCopy: (language: string) => `Eine Kopie zum Lesen. Der versiegelte Nachweis: ${language}.`,
};

const VERDICT: Record<Verdict, { readonly word: string; readonly means: string }> = {
  valid: {
    word: 'Gültig',
    means: 'Mit einem bekannten Schlüssel signiert, und jedes Byte ist, wie es signiert wurde.',
  },
  changed: {
    word: 'Verändert',
    means: 'Das ist nicht die Aufzeichnung, die signiert wurde. Nicht als Beweis benutzen.',
  },
  refused: {
    word: 'Abgelehnt',
    means: 'Das ist keine Aufzeichnung, die sich hier verifizieren lässt.',
  },
  'unknown-signer': {
    word: 'Unbekannte Signatur',
    means:
      'Ganz und unverändert; sie oder ein Nachtrag ist mit einem Schlüssel signiert, der hier nicht bekannt ist oder für diese Zeit nicht gilt.',
  },
  'not-derived': {
    word: 'Nicht nachgerechnet',
    means:
      'Mit einem bekannten Schlüssel signiert, und jedes Byte ist, wie es signiert wurde. Ob ihre Aussagen aus ihren Messwerten folgen, wurde hier nicht gezeigt.',
  },
  incomplete: { word: 'Unvollständig', means: 'Ein Teil der Aufzeichnung fehlt.' },
  practice: {
    word: 'Übungsaufzeichnung',
    means:
      'An der Übungsanlage aufgezeichnet. Das ist keine Aufzeichnung eines Auftrags, wer auch signiert hat.',
  },
};

const witnessOf = (name: string | null): string =>
  name === null
    ? 'ein hier nicht bekannter Gegenzeichner'
    : name === ''
      ? 'dieser Browser selbst'
      : `der Gegenzeichner ${name}`;

/** What a good verdict does not vouch for, a sentence each. */
const APART_FROM: Record<ApartFrom, string> = {
  clock: 'Uhren sind uneins: unten steht, welche und um wie viel.',
  device: 'Was das Gerät von sich sagte, passt nicht zum Setup: siehe unten.',
  papers: 'Die Papiere sind nicht die, nach denen der Lauf beurteilt wurde: unten steht, welche.',
};

const reservedText = ({ unjudged, failed, otherwise, notMade, apart }: Reservations): readonly string[] =>
  [
    failed
      ? 'Das Nachrechnen brach ab: entweder enthält die Aufzeichnung, was sich nicht nachvollziehen lässt, oder dieses Programm hat einen Fehler. So oder so ist nichts gesagt.'
      : '',
    unjudged ? 'Die Urteile wurden nicht nachgerechnet: sie sind das Wort dessen, der signierte.' : '',
    otherwise.length === 0
      ? ''
      : `Wie signiert, aber nicht, was diese Version aus der Aufzeichnung macht: ${otherwise.join(', ')}.`,
    notMade.length === 0 ? '' : `Nicht neu gemacht, nur die Signatur steht dafür: ${notMade.join(', ')}.`,
    ...apart.map((from) => APART_FROM[from]),
  ].filter((t) => t !== '');

export const evidence = (f: Format) => ({
  reservedText,
  EVIDENCE,
  VERDICT,

  /** Whose key it is: null is not known here, empty this browser's own. */
  signerText: (signer: string | null): string =>
    signer === null ? UNKNOWN_KEY : signer === '' ? THIS_BROWSER : signer,

  /** @param firstUs run clock of the first sample: places are told as in the trace, from it on */
  findingText(finding: Finding, firstUs: number): string {
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    const span = (from: number | null, to: number | null): string => {
      const begins = from !== null && from > firstUs;
      const ends = to !== null && to > firstUs;
      if (begins) return ends ? `, von Laufzeit ${at(from)} bis ${at(to)}` : `, ab Laufzeit ${at(from)}`;
      return ends ? `, bis Laufzeit ${at(to)}` : ', am Anfang des Laufs';
    };
    switch (finding.f) {
      case 'refused':
        return `Nicht gelesen: ${CONTAINER[finding.why]} (Byte ${finding.offset}).`;
      case 'container':
        return `Die Datei um die Aufzeichnung: ${CONTAINER[finding.why]} bei Byte ${finding.offset}${finding.file === null ? '' : `, ${finding.file}`}.`;
      case 'missing':
        return `Fehlt: ${finding.file}.`;
      case 'strange':
        return `Gehört nicht zur Aufzeichnung: ${finding.file}.`;
      case 'file':
        return `${finding.file} wurde verändert${finding.offset === null ? '' : ` bei Byte ${finding.offset}`}.`;
      case 'practice':
        return 'Sie sagt selbst, dass sie eine Übungsaufzeichnung ist.';
      case 'manifest':
        return `manifest.json: ${MANIFEST[finding.why]}.`;
      case 'entries':
        return `Messkurve: ${ENTRIES[finding.what](finding.count)}; zuerst in Block ${finding.page}, Laufzeit ${at(finding.tUs)}.`;
      case 'scale':
        return `Das Setup von Block ${finding.page} (Laufzeit ${at(finding.tUs)}) liest Kanal ${finding.channel} nach einer anderen Skala, als das Gerät dafür nannte: seine Drücke oder Temperaturen sind nicht, was der Sensor sagte.`;
      case 'translation':
        return `${finding.count} ${finding.count === 1 ? 'Messwert ist' : 'Messwerte sind'} nicht, was die Lesekarte aus dem macht, was über die Leitung kam; zuerst in Block ${finding.page}, Laufzeit ${at(finding.tUs)}.`;
      case 'setup':
        if (finding.what === 'uncertainty')
          return `Das Setup von Block ${finding.page} (Laufzeit ${at(finding.tUs)}) hält den Messwert am Höchstdruck für sicherer, als Sensor und Kalibrierung ihn lassen: kein Plan hat es gemacht.`;
        return finding.channel === null
          ? `Das Setup von Block ${finding.page} (Laufzeit ${at(finding.tUs)}) hat eine Obergrenze über dem Höchstdruck minus Messunsicherheit und nennt keinen Grund: kein Plan hat es gemacht.`
          : `Das Setup von Block ${finding.page} (Laufzeit ${at(finding.tUs)}) liest Kanal ${finding.channel} mit Steigung oder Versatz, die nicht aus seinen Kalibrierpunkten sind: kein Plan hat es gemacht.`;
      case 'contradiction':
        return `Manifest und Messkurve widersprechen einander in: ${finding.members.join(', ')}.`;
      case 'pages': {
        const pages =
          finding.pages === 1
            ? finding.page === 0
              ? 'der erste Block (Block 0)'
              : `Block ${finding.page}`
            : `Blöcke ${finding.page} bis ${finding.page + finding.pages - 1}`;
        return `Messkurve: ${pages} ${PAGE[finding.why]}${span(finding.fromUs, finding.toUs)}.`;
      }
      case 'judgement':
        if (finding.moved > 0)
          return `${finding.moved} Ereignisse der Aufzeichnung stehen in anderer Reihenfolge, als geurteilt wurde (${finding.kinds.join(', ')}): von zwei gleichen zählt das letzte.`;
        return `Was die Aufzeichnung urteilte, folgt nicht aus ihren Messwerten: ${finding.recorded} ihrer Ereignisse finden sich nicht wieder, ${finding.again} andere schon (${finding.kinds.join(', ')}).`;
      case 'witness':
        return `Kontrollprotokoll: ${PROOF[finding.why]}.`;
      case 'addition':
        return `Nachtrag ${finding.number}: ${ADDITION[finding.why]}.`;
      case 'addition-signer':
        return `Nachtrag ${finding.number} ist mit einem Schlüssel signiert, der ${finding.why === undefined ? 'nicht unter den bekannten ist' : `nicht zählt: ${TERM[finding.why]}`}.`;
      case 'signer':
        return finding.why === undefined
          ? 'Der Schlüssel ist nicht unter den bekannten.'
          : `Der Schlüssel ist ${TERM[finding.why]}.`;
    }
  },

  /** @param firstUs arrival of the first reading on the run clock, µs */
  remarkText(r: Remark, firstUs = 0): string {
    const utc = (ms: number | null): string => (ms === null ? '(nicht vermerkt)' : f.dateTimeZone(ms));
    const at = (us: number): string => f.stopwatch(Math.max(0, us - firstUs) / 1e6);
    switch (r.r) {
      case 'interrupted':
        return 'Der Lauf wurde unterbrochen: niemand hat ihn beendet.';
      case 'resumed':
        return `Der Lauf wurde unterbrochen und wieder aufgenommen (${r.times}); die Lücken sind markiert.`;
      case 'damaged-at-sealing':
        return `${r.pages} ${r.pages === 1 ? 'Block war' : 'Blöcke waren'} auf dem Computer beschädigt, bevor die Aufzeichnung versiegelt wurde.`;
      case 'no-job':
        return 'Kein Auftragsblatt gehört zu diesem Lauf.';
      case 'not-logged':
        return 'In keinem Kontrollprotokoll vermerkt: wann sie geöffnet wurde, sagt allein der Computer.';
      case 'logged':
        return `Im Kontrollprotokoll des Computers vermerkt (${r.origin}), nach der Uhr des Computers: geöffnet ${utc(r.openedUtcMs)}, beendet ${utc(r.endedUtcMs)}, versiegelt ${utc(r.sealedUtcMs)}; dazwischen der Kopf der Kette ${r.heads}-mal.`;
      case 'no-witness':
        return 'Noch hat niemand sonst jenes Protokoll gesehen: kein Gegenzeichner begrenzt, wann es geschrieben wurde. Ein Foto seines Codes tut es, oder das Büro.';
      case 'bounded':
        if (r.fingerprint === null)
          return `Vor ${utc(r.utcMs)} versiegelt: das sagt ein Zeitstempel. Seine Signatur prüft openssl ts -verify, nicht diese Seite.`;
        return r.side === 'not-before'
          ? `Nach ${utc(r.utcMs)} geöffnet: davor steht im Protokoll ein Sicherungspunkt, den ${witnessOf(r.name)} da signierte.`
          : `Vor ${utc(r.utcMs)} versiegelt: ${witnessOf(r.name)} signierte da das Protokoll, mit dieser Aufzeichnung darin.`;
      case 'additions':
        return `${r.count} ${r.count === 1 ? 'signierter Nachtrag' : 'signierte Nachträge'}.`;
      case 'no-sums':
        return 'Keine signierten Prüfsummen: die anderen Dateien wurden neu gemacht und verglichen.';
      case 'states-apart':
        return r.count === 1
          ? `Ein Zustand des Programms, der in Block ${r.page} (Laufzeit ${at(r.tUs)}) aufbewahrt ist, ergibt sich nicht aus den Messwerten. Er wurde nicht benutzt: beurteilt wurde von davor an weiter.`
          : `${r.count} Zustände des Programms, die in der Aufzeichnung aufbewahrt sind, der erste in Block ${r.page} (Laufzeit ${at(r.tUs)}), ergeben sich nicht aus den Messwerten. Sie wurden nicht benutzt: beurteilt wurde von davor an weiter.`;
      case 'derived-otherwise':
        return `${r.file} ist, wie signiert; diese Version würde sie anders machen.`;
      case 'not-judged':
        return r.page === undefined
          ? `Urteile nicht nachgerechnet: ${NOT_JUDGED[r.why]}.`
          : `Urteile ab Block ${r.page} nicht nachgerechnet: ${NOT_JUDGED[r.why]}.`;
      case 'not-derived':
        return r.failed
          ? `${r.file} ist, wie signiert; das Neumachen brach ab. Entweder enthält die Aufzeichnung, was sich nicht nachvollziehen lässt, oder dieses Programm hat einen Fehler.`
          : `${r.file} ist, wie signiert; sie wurde hier nicht neu gemacht.`;
      case 'clock-back':
        return `${CLOCK_BACK[r.what](r.at, r.times)}, um ${f.duration(r.seconds)}. Die Uhr des Computers wurde gestellt, oder eine Zeit ist nicht wahr.`;
      case 'clock-apart':
        return `${CLOCK_APART[r.what]}: ${f.duration(r.seconds)} auseinander${r.tUs === undefined ? '' : `, bei Laufzeit ${at(r.tUs)}`}. Eine Uhr ging falsch, oder eine Zeit ist nicht wahr.`;
      case 'gaps':
        return `Messwerte fehlen: ${r.count} ${r.count === 1 ? 'Lücke' : 'Lücken'} von einer Sekunde oder mehr, die längste von ${f.duration(r.seconds)} bis Laufzeit ${at(r.tUs)}.`;
      case 'read-by-map':
        return r.beside ? BESIDE_BY_MAP[r.map] : READ_BY_MAP[r.map];
      case 'device-limit':
        return `Das Gerät bewachte ${f.quantity('pressure', r.deviceBar)}, und die Obergrenze des Setups ist ${f.quantity('pressure', r.ceilingBar)}: ihm wurde eine andere Grenze gesagt, oder es nahm keine höhere.`;
      case 'device-counts':
        return `Das Gerät bewachte ${r.counts} Zählschritte als ${f.quantity('pressure', r.mbar / 1000)}, ${r.lines}-mal; nach dem Setup sind das ${r.expected} Zählschritte. Seine Grenze kam nach einer anderen Skala oder Kalibrierung, als das Setup nennt.`;
      case 'papers-apart':
        return `Die mitversiegelten Papiere sind nicht die, nach denen der Lauf beurteilt wurde: ${r.what.map((w) => PAPERS_APART[w]).join(', ')}.`;
      case 'key-followed':
        return `Der Schlüssel folgte auf einen anderen (${r.reason}); der andere ${r.endorsed ? 'bürgt' : 'bürgt nicht'} für ihn.`;
    }
  },

  progressText: (what: string, share: number): string =>
    share <= 0 ? `${what} …` : `${what} … ${Math.round(share * 100)} %`,

  holdLine: (inBandS: number | null, holdS: number | null, floorKnown: boolean): string =>
    inBandS === null || holdS === null
      ? '–'
      : `${f.duration(inBandS)} von ${f.duration(holdS)}${floorKnown ? '' : ' (Mindestdruck nicht bekannt)'}`,
});
