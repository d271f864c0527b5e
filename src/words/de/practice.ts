import type { Check, DrillCode, Outcome } from '../../practice/codes.ts';
import type { Checked, Sign } from '../../practice/shapes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Übungen an der Übungsanlage und ihre Nachbesprechung. Titel und Ziel verraten nichts; was schiefging, steht dahinter. */

type DrillWords = { readonly title: string; readonly goal: string; readonly fault: string };

const DRILL: Record<DrillCode, DrillWords> = {
  'drill-stuck-open': {
    title: 'Füllen: nicht über den Höchstdruck',
    goal: 'Der Packer bleibt unter seinem Höchstdruck, und der Zulufthahn bleibt zu, sobald er zu ist.',
    fault: 'Der Druckregler klemmte offen und ließ den vollen Druck durch.',
  },
  'drill-creep': {
    title: 'Füllen: anhalten, wo es sein soll',
    goal: 'Bis zum Arbeitsdruck füllen, den Zulufthahn selbst zudrehen und unter der Obergrenze bleiben.',
    fault: 'Der Druckregler stieg nach.',
  },
  'drill-unplug': {
    title: 'Füllen: schnell am Hahn, eins',
    goal: 'Sobald der Druck nicht mehr bekannt ist, ist der Zulufthahn innerhalb von zehn Sekunden zu.',
    fault: 'Das Kabel ging ab; die Luft lief weiter.',
  },
  'drill-blown-hose': {
    title: 'Füllen: schnell am Hahn, zwei',
    goal: 'Sobald etwas nicht stimmt, ist der Zulufthahn innerhalb von zehn Sekunden zu und bleibt zu.',
    fault: 'Der Schlauch flog von der Kupplung.',
  },
  'drill-burst': {
    title: 'Füllen: schnell am Hahn, drei',
    goal: 'Sobald etwas nicht stimmt, ist der Zulufthahn innerhalb von zehn Sekunden zu und bleibt zu, und die Leitung wird entlüftet.',
    fault: 'Der Packer platzte.',
  },
  'drill-relief': {
    title: 'Füllen: wenn es nicht steigt',
    goal: 'Nicht dagegen füllen: Zulufthahn innerhalb von zwanzig Sekunden zu, kein Halten, und die Leitung entlüftet.',
    fault: 'Das Sicherheitsventil öffnete weit unter seiner Einstellung.',
  },
  'drill-leak': {
    title: 'Halten: oben bleiben',
    goal: 'Ab dem Augenblick, in dem etwas schiefgeht, den Packer zwanzig Minuten lang nahe am Arbeitsdruck halten.',
    fault: 'Ein Leck begann.',
  },
  'drill-kink': {
    title: 'Entlüften: leer ist leer',
    goal: 'Mit der Leerprobe zeigen, dass der Packer leer ist, bevor abgekuppelt oder der Lauf beendet wird.',
    fault: 'Der Schlauch knickte beim Entlüften: die Leitung zeigte null, und der Packer war voll.',
  },
  'drill-moved': {
    title: 'Anlegen: bevor wieder aufgedreht wird',
    goal: 'Für den Arbeitsdruck erst aufdrehen, wenn die Zuluft unter der Obergrenze steht, und füllen.',
    fault: 'Der Druckregler wurde in der Pause beim Anlegen hochgedreht.',
  },
  'drill-differ': {
    title: 'Anlegen: wem zu glauben ist',
    goal: 'Wo zwei Anzeigen sich widersprechen, das Manometer vergleichen, bevor weiter gefüllt wird; dann füllen.',
    fault: 'Der zweite Sensor zeigte viel zu wenig.',
  },
  'drill-open-probe': {
    title: 'Härten: die Stunden, die zählen',
    goal: 'Erst entlüften, wenn die Härtezeit erreicht ist, und den Lauf bei leerem Packer beenden.',
    fault: 'Der Fühler am Kurzliner brach.',
  },
  'drill-slow-batch': {
    title: 'Härten: genau diese Charge',
    goal: 'Sofort „Harz ist gemischt“ drücken. Erst entlüften, wenn die Härtezeit dieser Charge erreicht ist, und den Lauf bei leerem Packer beenden.',
    fault: 'Die Charge war langsam; nur der Becher zeigte es.',
  },
};

const OUTCOME: Record<Outcome, { readonly word: string; readonly means: string }> = {
  met: { word: 'Ziel erreicht', means: 'Alles, was das Ziel verlangt, wurde getan.' },
  'not-met': { word: 'Ziel nicht erreicht', means: 'Was fehlte, steht unten.' },
  'not-played': {
    word: 'Nicht gespielt',
    means: 'Der Lauf endete, bevor etwas schiefging. Er zählt nicht: noch einmal spielen und weiterarbeiten.',
  },
  'broken-off': {
    word: 'Abgebrochen',
    means: 'Der Lauf hat kein eigenes Ende oder ging an einer anderen Baustelle weiter. Er zählt nicht.',
  },
};

/** Nach dem Namen, den die Anlage dem Gehörten gibt. */
const SENSED: Readonly<Record<Extract<Sign, { by: 'ear' }>['sensed'], string>> = {
  'hose-blows': 'Luft strömt laut aus dem offenen Schlauch',
  burst: 'Ein Knall: Luft strömt laut aus dem Packer',
  'relief-blows': 'Das Sicherheitsventil bläst ab',
};

const PRACTICE = {
  title: 'Üben',
  lead: 'Zwölf Übungen an der Übungsanlage, jede mit einem Ziel. In jeder geht früher oder später etwas schief: was und wann, wird vorher nicht gesagt. Danach kommt die Nachbesprechung.',
  who: 'Wer übt?',
  nobody: 'Niemand genannt',
  whoText: 'Die Kürzel stehen unter Einstellungen, Personen. Die Ergebnisse bleiben auf diesem Rechner.',
  play: 'Spielen',
  again: 'Noch einmal spielen',
  running: 'Ein Lauf ist im Gange. Erst beenden.',
  notYet: 'Noch nicht gespielt',
  played: (n: number, met: number) =>
    n === 1
      ? met === 1
        ? 'Auf Anhieb erreicht'
        : 'Einmal gespielt, nicht erreicht'
      : `${met} von ${n} Malen erreicht`,
  progress: (met: number, all: number) => `${met} von ${all} erreicht`,
  last: (outcome: string, date: string) => `${outcome}, ${date}`,
  free: 'Freies Üben',
  freeText:
    'Der ganze Auftrag ohne Störung; Störungen stellt man selbst. Weitere Baustellen stehen auf der Live-Seite.',
  certificateNote:
    'Ein beendeter Lauf lässt sich in seiner Durchsicht als Übungsaufzeichnung mit Übungsnachweis versiegeln.',
  toList: 'Alle Übungen',
  goal: 'Ziel',
  dial: 'Manometer',
  atSite: 'Auf der Baustelle',
  quiet: 'Nichts zu hören',
};

const DEBRIEF = {
  title: 'Nachbesprechung',
  plotLabel: 'Druck über der Laufzeit, mit den Nummern der Liste',
  keyRead: 'vom Sensor angezeigt',
  keyTruth: 'im Packer selbst',
  keyRated: 'Höchstdruck',
  lead: 'Übungsanlage: nichts hier ist von einer echten Leitung.',
  none: 'Dieser Lauf war nicht an der Übungsanlage: es gibt nichts zu besprechen.',
  playedBy: (who: string) => `Gespielt von ${who}`,
  goalIs: 'Ziel',
  checks: 'Was das Ziel verlangt',
  wentWrong: 'Was schiefging',
  happened: 'Was geschah',
  when: 'Laufzeit',
  what: 'Was',
  who: { rig: 'Störung', sign: 'gesehen', ear: 'gehört', hand: 'Hand' },
  figures: 'In Zahlen',
  faultAt: 'Es ging schief bei',
  firstSign: 'Erstes Zeichen',
  signAfter: (after: string, what: string) => `${after} später: ${what}`,
  noSign: 'keines',
  action: 'Erste Hand, die half',
  actionAfter: (after: string) => `${after} nach dem Zeichen`,
  actionBefore: 'vor jedem Zeichen',
  noAction: 'keine',
  peak: 'Höchster Druck im Packer',
  margin: 'Abstand zum Höchstdruck',
  overBy: (over: string) => `darüber um ${over}`,
  could: 'Eine bereite Hand (drei Sekunden)',
  couldPeak: (peak: string) => `hätte bei ${peak} angehalten`,
  print: 'Drucken oder als PDF sichern',
  review: 'Verlauf und Durchsicht',
  open: 'Nachbesprechung',
  more: (n: number) => `${n} weitere stehen in der Aufzeichnung.`,
  truth: 'Den Druck im Packer selbst zeigt kein Sensor; bekannt ist er nur an der Übungsanlage.',
};

const GAUGED: Readonly<Partial<Record<Check, 'bar' | 'seconds'>>> = {
  'under-rated': 'bar',
  'under-ceiling': 'bar',
  filled: 'bar',
  'held-up': 'bar',
  vented: 'bar',
  'empty-opened': 'bar',
  'shut-in-time': 'seconds',
  'held-long': 'seconds',
};

const CHECK: Record<Check, string> = {
  'under-rated': 'Packer unter seinem Höchstdruck',
  'under-ceiling': 'Packer unter der Obergrenze',
  'shut-in-time': 'Zulufthahn zu nach dem ersten Zeichen',
  'stays-shut': 'Zulufthahn blieb zu',
  vented: 'Leitung entlüftet',
  'turned-down': 'Druckregler heruntergedreht, bevor der Hahn aufging',
  'gauge-compared': 'Manometer verglichen, bevor weiter gefüllt wurde',
  filled: 'Bis zum Arbeitsdruck gefüllt',
  'held-up': 'Packer trotz Leck oben gehalten',
  'held-long': 'Zwanzig Minuten mit dem Leck gehalten',
  'not-held': 'Kein Halten darauf begonnen',
  'empty-opened': 'Packer leer beim Abkuppeln oder am Ende des Laufs',
  'tested-empty': 'Leerprobe blieb bei null',
  'cure-waited': 'Härtezeit vor dem Entlüften erreicht',
};

export const practice = (f: Format) => ({
  DRILL,
  OUTCOME,
  SENSED,
  PRACTICE,
  DEBRIEF,

  /** Eine Forderung mit ihrer Zahl, ihrer Grenze, und ob sie erfüllt ist. */
  checkText({ check, ok, value, limit }: Checked, units: DisplayUnits = METRIC): string {
    const kind = GAUGED[check];
    const show = (x: number): string => (kind === 'bar' ? f.pressure(x, units) : f.duration(x));
    const figure =
      kind === undefined || value === null
        ? ''
        : limit === null
          ? ` (${show(value)})`
          : ` (${show(value)}, Grenze ${show(limit)})`;
    return `${ok ? 'Ja' : 'Nein'}: ${CHECK[check]}${figure}`;
  },

  /** Was eine Hand tat, nach dem Namen der Anlage dafür. @param value 0 bis 1, oder bar */
  handText(name: string, value: number | null, units: DisplayUnits = METRIC): string {
    switch (name) {
      case 'valve':
        return value === 0 ? 'Zulufthahn zu' : `Zulufthahn auf, ${f.percent(value ?? 0)}`;
      case 'regulator':
        return `Druckregler auf ${f.pressure(value, units)}`;
      case 'vent':
        return value === 0 ? 'Ablasshahn zu' : 'Ablasshahn auf';
      case 'couple':
        return value === 0 ? 'Schlauch abgekuppelt' : 'Schlauch angekuppelt';
      case 'end':
        return value === 0 ? 'Schlauchende auf' : 'Schlauchende zu';
      case 'warm':
        return value === 0 ? 'Fühler losgelassen' : 'Fühler in der Hand';
      default:
        return name;
    }
  },
});
