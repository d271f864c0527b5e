import type { JobDocument } from '../../job/job-document.ts';
import type { MapKind } from '../../job/reading-map.ts';
import type { Setup } from '../../job/setup.ts';
import type { Priority } from '../../watch/codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { OCCASIONS } from './occasions.ts';

/**
 * Words of the certificate. They say what the record holds and no more: time and pressure at the sensor, the data
 * sheet's cure time as a lower bound. They promise nothing about the resin or the repair.
 */

const CERTIFICATE = {
  title: 'Nachweis über Druck und Härtezeit',
  practice: {
    title: 'Übungsnachweis',
    mark: 'ÜBUNG',
    what: 'ÜBUNG. An der Übungsanlage aufgezeichnet: es gab keinen Packer, kein Rohr und kein Harz. Das ist keine Aufzeichnung eines Auftrags und beweist keine Sanierung.',
    trainee: 'Übender',
    trainer: 'Vom Ausbilder gesehen',
  },
  lead: 'Von Steadybar aus einer versiegelten Aufzeichnung gemacht und aus nichts anderem. Daten und Uhrzeiten sind UTC nach der Uhr des Computers; Laufzeit zählt ab dem ersten Messwert.',
  /** @param run the run's own number */
  record: (run: string) => `Aufzeichnung ${run}`,
  pageOf: (n: number, of: number) => `Seite ${n} von ${of}`,
  noException: 'Ausnahmen: keine, von der die Aufzeichnung weiß.',
  exceptionsAre: (n: number) => (n === 1 ? '1 Ausnahme:' : `${n} Ausnahmen, die schwerste zuerst:`),
  allOnNext: (n: number) => `und ${n} weitere auf Seite 2`,
  peakRated: (rated: string) => `Spitze, Höchstdruck ${rated}`,
  peakOnly: 'Spitze, keine Grenze gesetzt',
  lowestFloor: (floor: string) => `tiefster Wert beim Halten, Mindestdruck ${floor}`,
  lowestOnly: 'tiefster Wert beim Halten, Mindestdruck nicht bekannt',
  leakMost: 'Leck höchstens, Wärme herausgerechnet',
  leakOf: 'Leck, Wärme herausgerechnet',
  leakNone: 'Leck: nicht zu sagen',
  most: (rate: string) => `≤ ${rate}`,
  coldestShort: 'kälteste wahrscheinliche Stelle',
  batchesOf: 'Harz, Chargen',
  waterAbove: 'Grundwasser über der Sohle',
  groundAt: 'Erdreich oder Rohr',
  sensorU: (sensor: string, u: string) => `${sensor}, ± ${u}`,
  calibrated: 'Kalibriert',
  gaugeAtSeat: 'Manometer und Sensor, beim Anlegen',
  witness: 'Rückstellprobe',
  cup: 'Probenbecher',
  metres: (m: string) => `${m} m`,
  doesNotShort:
    'welches Rohr saniert wurde, wo der Sensor saß, dass die Uhr des Computers richtig ging, wie fest das Harz ist, ob jemand den Auftrag abgenommen hat. Berichtigungen stehen in der Nachweisdatei. Seite 3: mehr, und wie man verifiziert, ohne dem Absender zu trauen.',
  added: (n: number) =>
    n === 1
      ? 'Nach dem Versiegeln signiert, 1 Nachtrag:'
      : `Nach dem Versiegeln signiert, ${n} Nachträge, der letzte:`,
  decided: {
    released: (by: string, when: string) => `Freigegeben von ${by}, ${when}.`,
    rejected: (by: string, when: string) => `Zurückgewiesen von ${by}, ${when}.`,
  },
  because: (reason: string) => `Grund: „${reason}“.`,
  decisionNote: 'Diese Entscheidung sagt, wer dies gedruckt hat; kein Siegel deckt sie.',
  utcTime: (time: string) => `${time} UTC`,
  runTime: (time: string) => `Laufzeit ${time}`,
  /** @param length of the run */
  runLong: (length: string) => `Lauf von ${length}`,
  siteNot: 'Baustelle nicht angegeben',
  pipeNot: 'Rohr nicht angegeben',
  fingerprintLabel: 'Fingerabdruck der Aufzeichnung (SHA-256 ihres signierten Manifests)',
  details: 'Einzelheiten der Aufzeichnung',
  repair: 'Was saniert wurde',
  how: 'Wie',
  held: 'Was die Aufzeichnung zeigt',
  trace: 'Druck und Temperaturen über den Lauf',
  traceNote:
    'Leitungsdruck am Sensor (Überdruck) und Temperaturen an den Fühlern, mit den geltenden Grenzen. Graue Säulen sind Zeiten ohne Messwerte; Marken oben sind Alarme.',
  exceptions: 'Ausnahmen',
  noExceptions: 'Keine, von der die Aufzeichnung weiß.',
  moreExceptions: (n: number) => `und ${n} weitere in der Aufzeichnung`,
  doesNot: 'Was diese Seite nicht beweist',
  doesNotText:
    'Das Siegel zeigt, dass der Inhaber des Signierschlüssels genau diese Aufzeichnung signiert hat und dass seither nichts darin verändert wurde. Es zeigt nicht, welches Rohr saniert wurde oder dass die Messkurve von dieser Sanierung ist: wer den Computer hat, kann an jeder Luftleitung einen Lauf beginnen. Es zeigt nicht, wo Drucksensor oder Fühler saßen, dass die Uhr des Computers richtig ging oder dass die Einträge des Auftragsblatts stimmen; die haben Menschen eingetippt. Härtezeit ist die Zeit laut Datenblatt bei den gemessenen oder angenommenen Temperaturen; ob das Harz hart ist, sagen Rückstellprobe und Augenschein, nicht diese Seite. Nach dem Versiegeln signierte Berichtigungen stehen in der Nachweisdatei, nicht hier.',
  check: 'Wie man verifiziert',
  checkText:
    'Die Nachweisdatei verlangen (.steadybar.zip). CHECK.txt darin hat die Schritte von Hand, mit openssl und sha256sum und nichts von Steadybar; wer das Programm hat, öffnet die Datei stattdessen unter „Datei verifizieren“. Der Code enthält die SHA-256 von manifest.json der Datei, dieselbe wie hier:',
  key: 'Signiert mit dem Schlüssel (mit der Schlüsselliste der Firma vergleichen):',
  made: (run: string, software: string, engine: string, sealed: string, sealedBy: string) =>
    `Lauf ${run}; aufgezeichnet von ${software}, Überwachung ${engine}; versiegelt ${sealed} von ${sealedBy}.`,
  codeOpens: (page: string) =>
    `Er öffnet die Seite zum Verifizieren unter ${page} mit diesem Fingerabdruck eingetragen; ob das die Seite der Firma ist, sagt die Firma.`,
  when: 'Wer begrenzt, wann sie gemacht wurde',
  noWitness:
    'Kein Gegenzeichner hatte das Protokoll des Computers gesehen, als diese Seite gemacht wurde: ihre Zeiten sagt allein die Uhr des Computers.',
  openedAfter: (when: string, key: string) =>
    `Nach ${when} geöffnet: was der Gegenzeichner mit dem Schlüssel ${key} da signierte, stand davor im Protokoll.`,
  sealedBefore: (when: string, key: string) =>
    `Vor ${when} versiegelt: der Gegenzeichner mit dem Schlüssel ${key} signierte da das Protokoll, mit dieser Aufzeichnung darin.`,
  stampedBefore: (when: string) =>
    `Vor ${when} versiegelt: das sagt ein Zeitstempel (RFC 3161) über das Protokoll; openssl ts -verify prüft ihn.`,
  qrLabel: 'QR-Code mit dem Fingerabdruck des Manifests',
  signatures: 'Unterschriften',
  signCrew: 'Für die Kolonne',
  signFirm: 'Für die Firma',
  signClient: 'Vom Auftraggeber gesehen',
  signLine: 'Name, Datum, Unterschrift',
  signedBy: (name: string, when: string) => `${name}, ${when}, von Hand auf dem Bildschirm des Computers`,
  present: 'Kolonne an dem Tag',
  atComputer: (names: string, list: string) =>
    names === '' ? `Am Computer: ${list}` : `${names}; am Computer: ${list}`,
  checklist: 'Checkliste',
  checklistOf: (list: string) =>
    `${list}, wie der Auftrag sie behielt, als er angelegt wurde. Antworten sind das Wort der Kolonne; was während des Laufs geantwortet wurde, steht in dessen Aufzeichnung.`,
  checkItem: 'Punkt',
  checkAnswer: 'Antwort',
  checkWhen: 'Wann',
  checkBy: 'Wer',
  checkDone: 'ja',
  checkOpen: 'nicht beantwortet',
  checkSafety: (item: string) => `${item} (Sicherheit)`,
  photos: 'Fotos',
  photosNote:
    'Wie sie mit der Aufzeichnung versiegelt wurden; in ihrer Datei sind sie größer. Das Siegel zeigt, dass sie seither nicht ausgetauscht wurden, nicht, was sie zeigen.',
  photoOf: (n: number, what: string) => `${n} ${what}`,
  photoTaken: {
    camera: (when: string) => `aufgenommen ${when} nach der Uhr des Computers`,
    file: (when: string) => `eine Datei vom ${when}`,
  },
  photoOriginal: 'das Original ist in der Nachweisdatei',
  photoMissing: 'Dieses Foto war nicht da, als diese Seite gemacht wurde.',
  photosMore: (n: number) =>
    n === 1 ? 'Eines mehr ist in der Nachweisdatei.' : `${n} weitere sind in der Nachweisdatei.`,
  occasions: OCCASIONS,
  notKnown: 'nicht bekannt',
  notStated: 'nicht angegeben',

  // rows
  site: 'Baustelle',
  client: 'Auftraggeber',
  reference: 'Zeichen',
  defect: 'Schaden',
  pipe: 'Rohr',
  chainage: (metres: string) => `bei ${metres} m ab dem Anfangsschacht`,
  long: (mm: string) => `${mm} mm lang`,
  dn: (dn: number) => `DN ${dn}`,
  inner: (mm: string) => `Innendurchmesser ${mm} mm`,
  crew: 'Kolonne',
  date: 'Zeitraum',
  fromTo: (from: string, to: string) => `${from} bis ${to}`,
  utc: (date: string, time: string) => `${date} ${time} UTC`,
  packer: 'Packer',
  serial: (serial: string) => `Seriennummer ${serial}`,
  rated: 'Höchstdruck',
  ratedHere: (pressure: string) => `${pressure} bei diesem Durchmesser`,
  resin: 'Harz',
  batch: (resin: string) => `Charge ${resin}`,
  batches: (resin: string, hardener: string) => `Chargen ${resin} und ${hardener}`,
  mixedAt: (temperature: string) => `gemischt bei ${temperature}`,
  warmed: 'Packer gewärmt',
  warmedTo: (temperature: string) => `auf ${temperature}`,
  sleeve: 'Kurzliner',
  layers: (n: number) => (n === 1 ? '1 Lage' : `${n} Lagen`),
  overlap: (mm: string) => `${mm} mm über jedes Ende des Schadens hinaus`,
  line: 'Luftleitung',
  wetLine: 'mit Wasser darin',
  onLine: 'Luftleitung',
  tap: 'Messstelle',
  channel: (n: number) => `Kanal ${n}`,
  type: (letter: string) => `Typ ${letter}`,
  sensors: 'Sensoren',
  sensor: 'Sensor',
  place: 'Position',
  calibration: 'Kalibrierung',
  against: (reference: string) => `gegen ${reference}`,
  notCalibrated: 'nicht kalibriert',
  asTyped: 'Einträge des Auftragsblatts sind, wie die Kolonne sie eintippte.',

  working: 'Arbeitsdruck',
  airTest: 'Luftprüfung',
  airTestNone: 'geplant, nicht gemacht',
  outlet: 'Zuluft am Reglerausgang, vor dem Füllen',
  held_: 'Druck gehalten',
  band: 'Haltebereich',
  bandUpTo: (ceiling: string) => `Mindestdruck nicht bekannt, bis ${ceiling}`,
  bandOf: (floor: string, ceiling: string) => `${floor} bis ${ceiling}`,
  bandSeen: (floor: string, ceiling: string) =>
    `${floor} bis ${ceiling} (Mindestdruck aus dem, was das Füllen zeigte)`,
  leak: 'Leck',
  peak: 'Spitze des Laufs',
  peakU: (peak: string, u: string) => `${peak} ± ${u} (k = 2)`,
  cure: 'Härtezeit laut Datenblatt',
  coldest: 'Kälteste wahrscheinliche Stelle beim Aushärten',
  noHold: 'Kein Halten wurde aufgezeichnet.',
  holdNumber: (n: number, held: string) => `Halten ${n}: ${held}`,
};

/** How wet the defect was, beside what it is. */
const INFILTRATED: Record<JobDocument['defect']['infiltration'], string> = {
  'not-looked': 'nach eindringendem Wasser nicht gesehen',
  none: 'kein eindringendes Wasser gesehen',
  damp: 'feucht',
  dripping: 'tropfend',
  running: 'fließendes Wasser',
};

/** What warmed the packer from outside while the sleeve cured. */
const WARMED_BY: Record<JobDocument['heating']['by'], string> = {
  unknown: 'nicht angegeben',
  none: 'nein',
  'hot-air': 'mit Heißluft',
  water: 'mit warmem Wasser',
  steam: 'mit Dampf',
};

/** Of what the pipe is, beside its size; what is not known is not stated. */
const PIPE_OF: Record<Exclude<JobDocument['pipe']['material'], 'unknown'>, string> = {
  clay: 'Steinzeug',
  concrete: 'Beton',
  pvc: 'PVC',
  pe: 'PE',
  iron: 'Guss',
  grp: 'GFK',
};

const HOW_FED: Record<Setup['line'], string> = {
  closed: 'Hahn zu',
  'supplied-relieving': 'gespeist, Druckregler entlastet',
  'supplied-nonrelieving': 'gespeist, Druckregler entlastet nicht',
  unknown: 'nicht bekannt',
};

const ALARM: Record<Priority, string> = {
  urgent: 'Alarm, dringend',
  high: 'Alarm, hoch',
  low: 'Alarm, niedrig',
};

export function certificate(f: Format) {
  const CURE_LINE = {
    met: 'an der kältesten wahrscheinlichen Stelle erreicht (vorsichtige Rechnung)',
    metAfter: (s: number) => `${f.duration(s)} nach Beginn der Zählung`,
    /** @param c coldest that it may have been */
    sinceMixing: (minutes: number, c: number) =>
      `${f.duration(minutes * 60)} vor dem Anlegen seit dem Mischen gezählt, bei ${f.quantity('temperature', c, METRIC, 1)} oder wärmer`,
    metThen: (s: number) => `das Halten ging noch ${f.duration(s)} weiter`,
    notMet: (s: number) =>
      `in dieser Aufzeichnung nicht erreicht (vorsichtige Rechnung); ${f.duration(s)} zählten`,
    light: 'nicht beurteilt: das Harz härtet durch Licht',
    noResin: 'nicht verfolgt: kein Harz mit Härtezeiten auf dem Auftragsblatt',
    notStarted: 'begann nicht zu zählen',
  };

  const heldText = (
    bandS: number,
    holdS: number,
    low: number | null,
    high: number | null,
    uBar: number | null,
    floorKnown: boolean,
  ): string => {
    const bounds =
      low === null || high === null
        ? 'kein brauchbarer Druck'
        : `${f.pressure(low)} bis ${f.pressure(high)}${uBar === null ? '' : `, je ± ${f.pressure(uBar)} (k = 2)`}`;
    const where = floorKnown ? 'im Haltebereich' : 'gefüllt und nicht über der Obergrenze';
    return `${f.duration(bandS)} ${where}, von ${f.duration(holdS)}; ${bounds}`;
  };

  /** Every exception in plain words. */
  const EXCEPTION = {
    interrupted:
      'Der Lauf wurde nicht von der Kolonne beendet: er wurde offen gefunden und als unterbrochen geschlossen.',
    resumed: (n: number, s: number) =>
      `Die Aufzeichnung brach ab und wurde wieder aufgenommen (${n}-mal); ${f.duration(s)} fehlen.`,
    damage: (n: number) =>
      `${n} ${n === 1 ? 'Block' : 'Blöcke'} der Aufzeichnung ${n === 1 ? 'war' : 'waren'} auf dem Computer beschädigt, bevor sie versiegelt wurde.`,
    noJob:
      'Kein Auftragsblatt gehört zu dieser Aufzeichnung: Baustelle, Packer, Harz und Sensoren sind nicht bekannt.',
    noPacker: 'Der Packer ist nicht bekannt.',
    noLimit: 'Keine Grenze war gesetzt: nichts warnte vor dem Höchstdruck des Packers.',
    noMargin: (reason: string) =>
      `Der Arbeitsdruck war der Höchstdruck, ohne Reserve. Angegebener Grund: ${reason}`,
    overRated: (bar: number) => `Der Messwert ging über den Höchstdruck: ${f.pressure(bar)}.`,
    overCeiling: (bar: number) => `Der Messwert ging über die Obergrenze: ${f.pressure(bar)}.`,
    noFloor: 'Der Mindestdruck ist nicht bekannt, nichts sagt also, ob der Druck darunter fiel.',
    floorSeen:
      'Der Druck beim freien Füllen des Packers war nicht bekannt und wurde aus dem Füllen genommen.',
    noWater: 'Das Grundwasser über dem Rohr ist nicht bekannt.',
    noFree: 'Der Druck beim freien Füllen des Packers ist nicht bekannt.',
    tap: 'Der Sensor las nicht den Druck im Packer (oder es ist nicht bekannt): Halten und Leck waren nicht zu beurteilen.',
    tapHose: 'Der Sensor saß im Schlauch: solange Luft strömte, war sein Messwert nicht der Druck im Packer.',
    lineUnknown: 'Es ist nicht bekannt, wie der Packer gespeist wurde: ein Leck war nicht zu sagen.',
    lineSupplied: 'Die Leitung wurde beim Halten gespeist: ein Leck war nicht zu sehen.',
    supplyWentOn: 'Der Packer wurde mit einer Zuluft gefüllt, die im Test zu hoch war oder nachstieg.',
    supplyVoid: (why: string) => `Der Zulufttest galt nicht mehr: ${why}.`,
    noZero: 'Der Drucksensor wurde nicht bei offener Kupplung genullt.',
    noSecondZero: 'Der zweite Drucksensor wurde nicht genullt.',
    noGauge: 'Das Manometer wurde nicht mit dem Sensor verglichen.',
    gaugeDiffers: (gauge: number, reading: number | null) =>
      `Manometer und Sensor waren uneins: ${f.pressure(gauge)} und ${reading === null ? 'kein Messwert' : f.pressure(reading)}.`,
    probeUnchecked: (place: string) => `Der Fühler (${place}) wurde nicht mit einem Thermometer verglichen.`,
    probeDiffers: (place: string) => `Der Fühler (${place}) und das Thermometer waren uneins.`,
    readBy: {
      registers:
        'Messwerte kamen nach einer Registerkarte von einem Bus: ihre Zeiten sind die dieses Computers, und kein Gerät hielt eine eigene Grenze.',
      columns:
        'Ungeprüfte Leitung: Messwerte kamen als einfacher Text ohne Prüfsumme, ein gestörter sieht vielleicht richtig aus; ihre Zeiten sind die dieses Computers, und kein Gerät hielt eine eigene Grenze.',
    } satisfies Record<MapKind, string>,
    besideDevice: (id: string) =>
      `Temperaturen kamen von einem zweiten Adapter (${id}), zur Uhrzeit dieses Computers.`,
    besideBy: {
      registers: (id: string) =>
        `Temperaturen kamen von einem zweiten Adapter (${id}), nach einer Registerkarte von einem Bus, zur Uhrzeit dieses Computers.`,
      columns: (id: string) =>
        `Temperaturen kamen von einem zweiten Adapter (${id}) über eine ungeprüfte Leitung: eine gestörte sieht vielleicht richtig aus; ihre Zeiten sind die dieses Computers.`,
    } satisfies Record<MapKind, (id: string) => string>,
    besideGap: (n: number, s: number) =>
      `Die Temperaturen des zweiten Adapters fehlen ${n === 1 ? 'einmal' : `${n}-mal`}, insgesamt ${f.duration(s)}.`,
    besideGone: (at: string) => `Die Temperaturen des zweiten Adapters fehlen ab ${at}.`,
    noProbe: 'Keine Temperatur wurde gemessen.',
    noSleeveProbe:
      'Kein Fühler am Kurzliner: die Härtezeit ging nach anderen Fühlern oder der geplanten Temperatur des Erdreichs.',
    uncalibrated: (what: string) => `Nicht kalibriert: ${what}.`,
    pressureSensor: 'der Drucksensor',
    secondPressure: 'der zweite Drucksensor',
    probe: (place: string) => `der Fühler (${place})`,
    unnamedPlace: 'Position nicht benannt',
    sharedLine:
      'Zwei Packer hingen an dieser Leitung: die Messwerte sind bestenfalls von einem, und ein Leck ist keinem zuzuordnen.',
    lightCured:
      'Aushärtung wurde nicht beurteilt: das Harz härtet durch Licht, Zeit und Temperatur sagen nichts darüber.',
    heatingUnknown:
      'Es ist nicht angegeben, ob der Packer von außen gewärmt wurde: die Härtezeit zählte, als wäre er es.',
    noMixed: 'Der Zeitpunkt des Mischens wurde nicht eingegeben.',
    noBatch: 'Die Charge von Harz oder Härter ist nicht notiert.',
    cup: (said: string) => `${said}.`,
    witnessNone: 'Keine Rückstellprobe wurde aufgezeichnet.',
    witnessSoft: 'Die Rückstellprobe wurde als nicht hart aufgezeichnet.',
    witnessWarm: 'Die Rückstellprobe lag nicht bei Rohrtemperatur.',
    reboundNone: 'Nicht aufgezeichnet: dass die Leitung nach dem Entlüften, Ablasshahn zu, bei null blieb.',
    airTestFailed: 'Die Luftprüfung der Sanierung wurde nicht bestanden.',
    airTestUnsaid: (why: string) => `Die Luftprüfung sagt nichts über die Sanierung: ${why}.`,
    airTestNone: 'Eine Luftprüfung der Sanierung war geplant und wurde nicht gemacht.',
    airTestEarlier: (what: string) => `Früher: ${what}`,
    reboundBack: 'Nach dem Entlüften kam der Druck bei geschlossenem Ablasshahn zurück.',
    noHold: 'Kein Halten wurde aufgezeichnet.',
    notHeld: (s: number) => `Der Druck war ${f.duration(s)} des Haltens außerhalb des Haltebereichs.`,
    attempts: (n: number) => `${n} Versuche wurden gemacht.`,
    abandoned: 'Ein Versuch wurde aufgegeben.',
    byData: 'Abschnitte wurden aus den Daten gelesen, nicht von der Kolonne eingegeben.',
    topUps: (n: number) => `Die geschlossene Leitung wurde beim Halten ${n}-mal nachgefüllt oder geöffnet.`,
    loss: 'Die Kolonne antwortete, dass Druck verloren ging.',
    override: (what: string, reason: string) => `Entgegen der Warnung weitergemacht (${what}): ${reason}`,
    setupRefused: 'Eine Änderung des Auftragsblatts während des Laufs wurde abgelehnt.',
    gap: (reason: string, n: number, s: number) =>
      `Messwerte fehlen: ${reason} (${n} ${n === 1 ? 'Lücke' : 'Lücken'}, insgesamt ${f.duration(s)}).`,
    alarm: (priority: Priority, title: string, n: number, at: string) =>
      `${ALARM[priority]}: ${title}, ${n === 1 ? `bei Laufzeit ${at}` : `${n}-mal, zuerst bei Laufzeit ${at}`}.`,
    note: (at: string, text: string) => `Notiz bei Laufzeit ${at}: ${text}`,
    checkPassed: (item: string, reason: string, by: string) =>
      `Ohne Sicherheitspunkt weitergemacht${by === '' ? '' : ` (${by})`}: ${item}. Grund: ${reason}`,
    safetyOpen: (list: string) => `Sicherheitspunkte der Checkliste, die niemand beantwortet hat: ${list}.`,
    unticked: (list: string) => `Punkte der Checkliste, die niemand beantwortet hat: ${list}.`,
    keyLost:
      'Der frühere Signierschlüssel des Computers ging verloren; nur das Wort der Firma bürgt für den jetzigen.',
  };

  return { CERTIFICATE, CURE_LINE, EXCEPTION, HOW_FED, INFILTRATED, PIPE_OF, WARMED_BY, heldText };
}
