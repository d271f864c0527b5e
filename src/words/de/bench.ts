import type { BenchPoint, ReasonOf, RefusedLine, Verdict } from '../../job/bench-codes.ts';
import type { DisplayUnits, Format } from '../create-format.ts';

/** What was found, as its sentence tells it. */
export interface Told {
  readonly value: number | null;
  readonly against: number | null;
  readonly more: number | null;
}

/** Under it a device lets its limit be raised or taken away (firmware-protocol/SPEC.md, 7). */
const SMALL_BAR = 0.1;

type Sentence = (told: Told, units: DisplayUnits) => string;

export const BENCH = {
  title: 'Prüfplatz',
  lead: 'Ein gebautes oder gekauftes Gerät ausprobieren, bevor es einen Packer überwacht: was seine Leitung sagt, was seine Sensoren zeigen, ob sein Alarm zu hören ist. So lange hängt kein Packer an der Leitung.',
  connectTitle: 'Das Gerät verbinden, das ausprobiert wird',
  connect: 'Gerät verbinden',
  connectOther: 'Anderen Anschluss wählen',
  practice: 'Mit der Übungsanlage ausprobieren',
  disconnect: 'Trennen',
  inRun:
    'Ein Lauf ist im Gang. Der Prüfplatz nimmt so lange keinen Anschluss und probiert nichts: weiter nach dem Ende des Laufs.',
  toLive: 'Zur Live-Seite',
  limitSet:
    'Eine Grenze gilt für einen Packer, der vielleicht voll ist. Der Prüfplatz sieht nur zu; das erst beenden.',
  listening: (device: string, firmware: string) => `${device}, Firmware ${firmware}`,
  nobody: 'Noch hat niemand gesagt, wer er ist.',
  listened: (time: string) => `${time} zugehört.`,
  again: 'Neu beginnen',
  points: 'Was sich zeigte',
  channel: (index: number) => `Kanal ${index}`,
  tries: 'Von Hand auszuprobieren',
  zeroText: 'Die Leitung zur Luft öffnen, einen Moment warten.',
  zero: 'Hier nullen',
  spanText: 'Auf einen ruhigen Druck pumpen und eintippen, was der Bezug zeigt.',
  reference: 'Bezug zeigt',
  compare: 'Vergleichen',
  warmText: 'Die Spitze eines Fühlers in die warme Hand nehmen, dann drücken; eine Minute halten.',
  warm: (index: number, place: string | null) =>
    place === null ? `In meiner Hand: Kanal ${index}` : `In meiner Hand: Kanal ${index}, ${place}`,
  warmPractice: 'Übung: alle Fühler in die Hand nehmen',
  warmPracticeEnd: 'Übung: die Fühler loslassen',
  guardText: (bar: string) =>
    `Seine Gerätegrenze wird auf ${bar} gesetzt, und das Gerät bestätigt es. Dann von Hand pumpen, ohne Packer, bis es ertönt. Dieser Computer alarmiert auch, wie er soll.`,
  arm: (bar: string) => `Gerätegrenze auf ${bar} setzen`,
  pump: 'Sie ist an. Langsam über die Grenze pumpen.',
  heardAsk: 'Sie hat ausgelöst. War sein Summer zu hören?',
  heard: 'Gehört',
  notHeard: 'Nicht gehört',
  takeAway: 'Grenze wieder wegnehmen',
  putBack: 'Gerätegrenze setzen, wie sie war',
  stillArmed: (bar: string) =>
    `Das Gerät hält noch die Grenze dieser Probe, ${bar}. Erst den Druck ablassen, dann wegnehmen; ein Lauf setzt seine eigene.`,
  taken: 'Die Grenze der Probe ist weg.',
  lines: 'Zeilen, wie sie kamen',
  linesText: 'Neueste zuerst. Eine abgelehnte Zeile steht mit ihrem Grund; nichts davon wurde gelesen.',
  linesMade:
    'Diese Quelle spricht das Protokoll nicht: die Zeilen sind, was aus dem Gekommenen gemacht wurde.',
  noLines: 'Über die Leitung kam nichts.',
  read: 'gelesen',
  baud: (n: number) => `${n} Baud`,
  refusedTitle: 'Abgelehnte Zeilen',
  refusedCount: (n: number) => (n === 1 ? '1 Zeile' : `${n} Zeilen`),
  keepTitle: 'Als Blatt des Geräts behalten',
  by: 'Ausprobiert von (Kürzel)',
  notes: 'Notizen',
  keep: 'Dieses Blatt behalten',
  kept: 'Bei den Sensoren des Geräts behalten.',
  keptPractice: 'Als Übung behalten. Es ist kein Blatt eines echten Geräts.',
  records: 'Prüfplatzblätter',
  noRecords: 'Noch keine. Ein oben ausprobiertes Gerät lässt sich hier behalten.',
  open: 'Blattdatei öffnen',
  imported: 'Hinzugefügt. Es ist als aus einer Datei markiert.',
  fileRefused: (what: string) => `Nicht übernommen: ${what}`,
  gone: 'Dieses Blatt gibt es hier nicht mehr.',
  recordTitle: (device: string) => `Prüfplatzblatt von ${device}`,
  practiceMark: 'ÜBUNG: kein echtes Gerät',
  fileMark: 'Aus einer Datei: nicht an diesem Computer ausprobiert',
  device: 'Gerät',
  firmware: 'Firmware',
  when: 'Behalten',
  byRow: 'Ausprobiert von',
  speed: 'Geschwindigkeit',
  listenedRow: 'Zugehört',
  said: 'Was es von sich sagt',
  print: 'Drucken',
  export: 'Als Datei speichern',
  notProved: 'Es sagt, wie dieses Gerät an jenem Tag an jenem Computer war. Es ist keine Kalibrierung.',
  toBench: 'Am Prüfplatz ausprobieren',
  fromSensors: 'Prüfplatz: ein Gerät ausprobieren',
  sensorNone: 'Vom Gerät dieses Sensors ist kein Prüfplatzblatt da.',
  sensorNoDevice: 'Oben das Gerät eintragen: dann stehen hier seine Prüfplatzblätter.',
};

export const VERDICT: Readonly<Record<Verdict, string>> = {
  good: 'Gut',
  doubtful: 'Zweifelhaft',
  bad: 'Schlecht',
  'not-tried': 'Nicht ausprobiert',
};

export const POINT: Readonly<Record<BenchPoint, string>> = {
  lines: 'Gelesene Zeilen',
  rate: 'Messrate',
  lost: 'Verlorene Messwerte',
  clock: 'Uhr',
  restarts: 'Neustarts',
  step: 'Kleinste Stufe',
  noise: 'Rauschen',
  drift: 'Drift',
  zero: 'Null',
  span: 'Spanne',
  supply: 'Sensorspeisung',
  warm: 'Warme Hand',
  guard: 'Sein Alarm',
};

export const REFUSED: Readonly<Record<RefusedLine, string>> = {
  garbage: 'keine Zeile des Protokolls: ein unbekannter Buchstabe, oder Bytes, die kein Text sind',
  crc: 'ihre Prüfsumme stimmt nicht: gestört, oder anders gerechnet',
  form: 'ihre Prüfsumme stimmt, ihre Form nicht: ein Feld außerhalb seiner Grenzen, eines fehlt oder zu viele',
  long: 'länger als 128 Bytes ohne Ende',
  partial: 'eine halbe Zeile, vom Öffnen des Anschlusses abgeschnitten: kein Fehler',
  unknown: 'aus einer späteren Version des Protokolls: kein Fehler',
};

/** The sentence of each reason. */
export function benchReasons(f: Format) {
  const n = (value: number | null): string => (value === null ? '–' : f.count(value));
  const fixed = (value: number | null, digits: number): string =>
    value === null ? '–' : f.fixed(value, digits);
  const small = (mbar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', mbar, units, 1);
  const smallBar = (bar: number | null, units: DisplayUnits): string =>
    f.quantity('smallPressure', bar === null ? null : bar * 1000, units);
  const kelvin = (k: number | null, units: DisplayUnits): string =>
    f.quantity('temperatureDifference', k, units);

  const refused: Sentence = (t) => `${n(t.value)} von ${n(t.against)} Zeilen abgelehnt.`;
  const rate: Sentence = (t) =>
    t.against === null
      ? `${fixed(t.value, 1)} Messwerte je Sekunde.`
      : `${fixed(t.value, 1)} Messwerte je Sekunde; das Gerät nennt ${fixed(t.against, 0)}.`;
  const lost: Sentence = (t) => `${n(t.value)} von ${n(t.against)} Messwerten fehlen.`;
  const clock: Sentence = (t) =>
    `${fixed(t.value, 0)} ± ${fixed(t.against, 0)} ppm gegen die Uhr dieses Computers.`;
  const step: Sentence = (t, u) => `${small(t.value, u)} je Stufe (${n(t.against)} Bit).`;
  const noise: Sentence = (t, u) =>
    `${small(t.value, u)}, ${fixed(t.against, 1)} Zählschritte (Standardabweichung); ${fixed(t.more, 0)} Zählschritte vom tiefsten zum höchsten in einer Sekunde.`;
  const drift: Sentence = (t, u) =>
    `${f.pressureRate(t.value, u)} ± ${f.pressureRate(t.against, u)}, über ${f.duration(t.more)} in Ruhe.`;
  const zero: Sentence = (t, u) =>
    `Die offene Leitung zeigt ${smallBar(t.value, u)}; höchstens ${smallBar(t.against, u)} dürfen abgezogen werden.`;
  const span: Sentence = (t, u) =>
    `${smallBar(t.value, u)} daneben bei ${f.pressure(t.more, u)}; beide zusammen dürfen ${smallBar(t.against, u)} auseinander liegen.`;
  const supply: Sentence = (t) =>
    `Tiefste ${fixed(t.against, 2)} V von ${fixed(t.more, 2)} V, ${t.value === null ? '–' : f.percent(Math.max(0, t.value))} darunter.`;
  const warm: Sentence = (t, u) =>
    `Um ${kelvin(t.value, u)} bewegt, von ${f.temperature(t.against, u)} aus, in ${f.duration(t.more)}.`;
  const tripped: Sentence = (t, u) =>
    `Ausgelöst bei ${f.pressure(t.value, u)}, Grenze ${f.pressure(t.against, u)}.`;
  const and =
    (first: Sentence, second: string): Sentence =>
    (t, u) =>
      `${first(t, u)} ${second}`;
  const only =
    (text: string): Sentence =>
    () =>
      text;

  const reasons: { readonly [P in BenchPoint]: Readonly<Record<ReasonOf<P>, Sentence>> } = {
    lines: {
      few: (t) => `${n(t.against)} Zeilen bisher: zu wenige.`,
      clean: refused,
      some: and(refused, 'Eine einzelne ist ein Knacken im Kabel; im Auge behalten.'),
      many: and(refused, 'Kabel tauschen; ist die Firmware neu, eine Zeile mit dem Protokoll vergleichen.'),
    },
    rate: {
      few: only('Zehn Sekunden zuhören.'),
      kept: rate,
      slow: and(rate, 'Langsam: eine Vorhersage beim Füllen hat wenig, wonach sie gehen kann.'),
      'too-slow': and(rate, 'Zu langsam zum Füllen. Baudrate erhöhen oder weniger Kanäle senden.'),
    },
    lost: {
      few: only('Bisher zu wenige Messwerte.'),
      none: lost,
      some: and(lost, 'Jeder ist eine Lücke in der Aufzeichnung.'),
      many: and(lost, 'Die Leitung ist zu langsam für die Messrate, oder das Gerät zu beschäftigt.'),
    },
    clock: {
      few: (t) => `${f.duration(t.more)} von einer Minute zugehört.`,
      close: clock,
      off: and(clock, 'Ein grober Taktgeber: Anstiege liegen um so viel daneben.'),
      'far-off': and(clock, 'Sein Takt ist nicht 100 µs: die Firmware berichtigen.'),
    },
    restarts: {
      few: (t) => `${f.duration(t.against)} von einer Minute zugehört.`,
      none: (t) => `Keiner in ${f.duration(t.against)}.`,
      restarted: (t) =>
        `${n(t.value)}-mal neu gestartet: Strom zu schwach, ein Watchdog, oder sein Stecker wurde gezogen (dann neu beginnen).`,
    },
    step: {
      'no-channel': only('Es hat keinen Druckkanal.'),
      fine: step,
      coarse: and(step, 'Ein kleines Leck wird spät gesehen.'),
      'too-coarse': and(
        step,
        'Zu grob zum Halten: ein feinerer Wandler, oder ein Sensor mit kleinerem Messbereich.',
      ),
      'no-scale': only(
        'Seine Zeile sagt nicht, welches Signal null und welches das Ende ist: beide in das Blatt des Sensors eintragen.',
      ),
    },
    noise: {
      few: only('Die Leitung zehn Sekunden in Ruhe lassen.'),
      quiet: noise,
      noisy: and(noise, 'Das Kabel des Sensors schirmen, oder mehr mitteln.'),
      'too-noisy': and(
        noise,
        'Zu viel, um ein Leck oder eine Vorhersage zu sehen: schirmen, erden, den Strom trennen.',
      ),
      frozen: and(
        noise,
        'Kein Zählschritt bewegt: eine Stufe ist gröber als das Rauschen, oder der Sensor hängt. Etwas pumpen.',
      ),
      'no-reading': only('Der Sensor liefert keinen Druck: Aderbruch, kein Sensor, falscher Messbereich.'),
    },
    drift: {
      few: (t) => `${f.duration(t.more)} von drei Minuten in Ruhe.`,
      steady: drift,
      drifts: and(drift, 'Eine Viertelstunde warm werden lassen und neu beginnen.'),
      unsure: and(drift, 'Noch nicht sicher: länger in Ruhe lassen.'),
      'drifts-far': and(
        drift,
        'So viel wie ein gemeldetes Leck. Warm werden lassen und neu beginnen; bleibt es, taugt der Sensor nicht zum Halten.',
      ),
    },
    zero: {
      'not-taken': only('Noch nicht genullt.'),
      'not-still': only('Die Leitung bewegte sich. Öffnen, warten, nochmal nullen.'),
      near: zero,
      far: and(zero, 'Mehr als die Hälfte davon: im Auge behalten.'),
      'too-far': and(
        zero,
        'Abgelehnt: Leitung unter Druck, falscher Messbereich, oder ein Sensor, der falsch zeigt.',
      ),
      'no-reading': only('Es gab keinen Druck zum Nullen.'),
    },
    span: {
      'not-compared': only('Noch nicht verglichen.'),
      'not-still': only('Die Leitung bewegte sich. Warten, bis sie steht, neu vergleichen.'),
      agrees: span,
      'too-low': and(span, 'So niedrig, dass es wenig über die Spanne sagt: höher vergleichen.'),
      'just-off': and(span, 'Knapp darüber: nullen und neu vergleichen.'),
      differs: and(span, 'Falsche Spanne oder Skala, oder der Bezug zeigt falsch.'),
    },
    supply: {
      'not-measured': only('Das Gerät misst sie nicht.'),
      few: only('Zehn Sekunden zuhören.'),
      steady: supply,
      sags: and(supply, 'Sie gibt nach: schwacher Anschluss, langes Kabel.'),
      'sags-far': and(supply, 'Zu niedrig: anderer Anschluss, Hub mit eigenem Netzteil.'),
      'told-low': and(supply, 'Das Gerät selbst nennt sie zu niedrig.'),
    },
    warm: {
      'not-held': only('Noch nicht gehalten.'),
      holding: and(warm, 'Weiter halten.'),
      rises: warm,
      little: and(warm, 'Wenig: war die Spitze in der Hand?'),
      none: and(warm, 'Sie stieg nicht: Kurzschluss, oder ein anderer Fühler wurde gehalten.'),
      falls: and(warm, 'Sie fiel: die beiden Adern sind vertauscht.'),
      'no-reading': only('Er liefert keine Temperatur: unterbrochen, oder nicht eingesteckt.'),
    },
    guard: {
      'not-armed': only('Noch nicht ausprobiert.'),
      refused: (_, u) =>
        `Abgelehnt: es nimmt eine andere Grenze nur unter ${f.pressure(SMALL_BAR, u)}. Den Druck ablassen und nochmal versuchen.`,
      armed: (t, u) => `Grenze ${f.pressure(t.against, u)}; Spitze bisher ${f.pressure(t.more, u)}.`,
      'not-asked': and(tripped, 'Sagen, ob er zu hören war.'),
      heard: and(tripped, 'Gehört.'),
      late: and(tripped, 'Gehört, aber spät: langsam pumpen und nochmal versuchen.'),
      absent: only('Das Gerät hat keinen eigenen Alarm: nur dieser Computer warnt.'),
      'no-answer': only('Es beantwortete den Befehl nicht: es hört nichts, oder nimmt keine Grenze.'),
      'not-kept': only('Es hält die gegebene Grenze nicht.'),
      silent: (t, u) =>
        `Bis ${f.pressure(t.more, u)} gepumpt, über eine Grenze von ${f.pressure(t.against, u)}, und sie löste nicht aus.`,
      mute: and(tripped, 'Es sagt nicht, dass sein Summer ertönt.'),
      'not-heard': and(tripped, 'Nicht gehört: lauterer Summer, oder seine Ader.'),
    },
  };
  return {
    /** What was found at a point, with its numbers; null where the point has no such reason. */
    foundText(point: BenchPoint, reason: string, told: Told, units: DisplayUnits): string {
      const of: Readonly<Record<string, Sentence>> = reasons[point];
      return Object.hasOwn(of, reason) ? of[reason]!(told, units) : '';
    },
  };
}
