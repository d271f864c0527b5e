import type { Stage } from '../../watch/codes.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** One sentence for the crew, and a second that stands in grey under it. */
export interface Instruction {
  readonly say: string;
  readonly besides: string;
}

/** What an instruction may name; each takes what it needs, in bar and seconds. */
export interface Told {
  readonly bar?: number | null;
  readonly s?: number | null;
  readonly units?: DisplayUnits;
}

type Say = (told?: Told) => Instruction;

/** Durations shorter than this have tenths of a second, s. */
const TENTHS_S = 3;
const NOBODY = 'Niemand in Rohrachse oder über der Öffnung.';
const NO_PLUG = 'Niemand nahe den Rohrverschlüssen: einer kann herausfliegen.';
const KINK = 'Ein Knick kann Luft verbergen: langsam am Seil ziehen, niemand in Rohrachse.';
const LEAVE = 'Zulufthahn zu lassen.';
/** Where it is only inferred that a hand has shut it. */
const SHUT_LEAVE = 'Zulufthahn zu und zu lassen.';

/**
 * What to do now, by stage and state. 'Bereit am Zulufthahn' and 'Zulufthahn zu lassen' share no word but the tap: a
 * hand that goes to it and one that stays away must not be told by two that look alike. A count stands first, so that
 * an order read short does not mean 'now'. Nothing here says that anything is safe or cured.
 */
export function instructions(f: Format) {
  const always =
    (say: string, besides: string): Say =>
    () => ({ say, besides });
  const to = ({ bar, units = METRIC }: Told = {}): string | null =>
    bar === undefined || bar === null ? null : f.pressure(bar, units);
  /** A count goes by whole seconds, to its end: 'in 2.0 s' after 'in 3 s' looks like another number. */
  const time = ({ s }: Told = {}): string | null =>
    s === undefined || s === null ? null : s < TENTHS_S ? `${f.fixed(s, 0)}\u00a0s` : f.duration(s);
  /** Rounded down, to the minute where seconds would only draw the eye: as the time slot has it. */
  const timeLeft = ({ s }: Told = {}): string | null =>
    s === undefined || s === null
      ? null
      : s < 600
        ? f.duration(Math.floor(Math.max(0, s)))
        : `${Math.floor(s / 60)}\u00a0min`;
  const openTo: Say = (told) => {
    const bar = to(told);
    return {
      say: bar === null ? 'Zulufthahn langsam auf.' : `Zulufthahn langsam auf, bis ${bar}.`,
      besides: NOBODY,
    };
  };
  const overRated =
    (say: string): Say =>
    (told) => {
      const bar = to(told);
      const was = bar === null ? 'Er war über dem Höchstdruck' : `Er war bei ${bar}, über dem Höchstdruck`;
      return { say, besides: `${was}: den Packer vor dem nächsten Einsatz begutachten.` };
    };
  const topUp =
    (besides: string): Say =>
    (told) => {
      const bar = to(told);
      return { say: bar === null ? 'Langsam nachfüllen.' : `Langsam nachfüllen bis ${bar}.`, besides };
    };
  const FIND_LOSS = always(
    'Erst den Verlust suchen.',
    'Keine Luft hinein, Abstand halten: Schlauch ab oder Packer gerissen?',
  );
  const JUMPED = always('Manometer prüfen.', 'Der Sensor ist gesprungen: nach ihm keine Luft hinein.');
  const PROVE_FIRST = 'Vorher Zuluft testen (Mehr, Prüfungen) oder auslassen.';
  const STANDS = always(
    'Zulufthahn zu, Manometer ansehen.',
    'Der Messwert steht. Ist ein Hahn oder die Sensorleitung zu? Ist die Zuluft an?',
  );
  const NOT_RISING = {
    blocked: always(
      'Zulufthahn zu, Schlauch ansehen.',
      'Die Zuluft steht über dem Packer und gibt nichts her. Ein Hahn zu oder ein Knick?',
    ),
    level: always(
      'Druckregler ansehen.',
      'Zuluft und Messwert sind gleich: mehr kommt nicht. Ist er eingestellt? Knickt der Schlauch?',
    ),
    escapes: always(
      'Zulufthahn zu, auf Luft horchen.',
      'Luft strömt, nichts steigt: Schlauch ab, Leck, Sensorleitung zu, oder er faltet sich auf.',
    ),
  };
  const stayed = (told?: Told): string => {
    const seen = time(told);
    return seen === null ? 'Blieb bei null.' : `Blieb ${seen} bei null.`;
  };
  const LOW_ZERO = always(
    'Manometer ablesen.',
    'Vielleicht noch Luft: der Sensor zeigt zu wenig, seine Null ist keine. Niemand am Packer.',
  );
  /**
   * How to pull, and what was seen, never that it is empty. That it may hold air stands in capitals under the pressure;
   * said here again it told nobody what to do.
   */
  const pull: Say = (told) => ({ say: 'Niemand davor, langsam ziehen.', besides: `${stayed(told)} ${KINK}` });

  /** Of an air test: to a pressure in the small unit. */
  const slowly =
    (what: string, besides: string): Say =>
    ({ bar, units = METRIC } = {}) => ({
      say: bar === undefined || bar === null ? `${what}.` : `${what} bis ${f.testPressure(bar, units)}.`,
      besides,
    });

  const INSTRUCTIONS = {
    prepare: {
      connect: always('Gerät verbinden.', 'Nicht verbunden: keine Alarme.'),
      'left-open': always(
        'Luft zu, Abstand halten.',
        'Ein Packer ist vielleicht voll, nichts überwacht ihn. Manometer ansehen, verbinden, fortsetzen.',
      ),
      'left-open-seen': always(
        'Luft zu, Abstand halten.',
        'Ein Packer ist vielleicht voll, bis zum Fortsetzen gilt keine Grenze. Manometer ansehen, fortsetzen.',
      ),
      'left-full': always(
        'Luft zu, Abstand halten.',
        'Der Packer eines früheren Laufs wurde nicht leer gesehen. Zulufthahn zu, Manometer ansehen.',
      ),
      resume: always('Fortsetzen oder Packer wählen.', 'Ein Übungslauf wurde nicht geschlossen.'),
      packer: always('Packer wählen.', 'Keine Grenze: keine Druckwarnung.'),
      'packer-limited': always('Packer wählen.', 'Bis dahin gilt die Obergrenze des Laufs davor.'),
      zero: always(
        'Kupplung auf, dann nullen.',
        'Ansehen, dass sie auf ist. Der Messwert muss nahe null stillstehen.',
      ),
      pressure: always(
        'Erst die Leitung entlüften.',
        'Sie steht unter Druck: Zulufthahn zu, Ablasshahn auf, Abstand halten. Jetzt nie eine Kupplung öffnen.',
      ),
      'supply-failed': always(
        'Zuluft nicht getestet: siehe Prüfungen.',
        'Den Schlauch vom Packer lassen, bis klar ist, warum.',
      ),
      'supply-open': always(
        'Zuluft auf.',
        'Schlauch vom Packer ab, sein Ende zu. Hahn zügig und weit auf; Schlauch festhalten.',
      ),
      'supply-rises': always('Warten: die Zuluft steigt.', 'Sie muss zur Ruhe kommen.'),
      'supply-asked': always(
        'Hängt der Packer am Schlauch?',
        'Die Leitung füllt sich langsamer als ein Schlauch. Wenn ja: Zulufthahn sofort zu.',
      ),
      'supply-watch': ((told) => {
        const bar = to(told);
        const left = time(told);
        return {
          say: left === null ? 'Warten: steigt sie nach?' : `${left} warten: steigt sie nach?`,
          besides: bar === null ? 'Nichts anfassen.' : `Sie steht bei ${bar}. Nichts anfassen.`,
        };
      }) as Say,
      'supply-lower': ((told) => {
        const bar = to(told);
        return {
          say: 'Regler runter, nicht ankuppeln.',
          besides:
            bar === null
              ? 'Die Zuluft steht über der Obergrenze. Erst etwas ablassen: sie schoss vielleicht über.'
              : `Die Zuluft steht bei ${bar}, über der Obergrenze. Erst etwas ablassen: sie schoss vielleicht über.`,
        };
      }) as Say,
      'supply-shut': ((told) => {
        const bar = to(told);
        return {
          say: 'Zulufthahn zu, dann drücken.',
          besides:
            bar === null
              ? 'Die Leitung muss ihren Druck halten.'
              : `Sie stand bei ${bar}. Die Leitung muss das halten.`,
        };
      }) as Say,
      'supply-tight': ((told) => {
        const left = time(told);
        return {
          say: 'Warten: Zulufthahn bleibt zu.',
          besides: left === null ? 'Hält die Leitung?' : `Hält die Leitung noch ${left}?`,
        };
      }) as Say,
      'supply-vent': ((told) => {
        const bar = to(told);
        return {
          say: 'Ablasshahn auf: Leitung leeren.',
          besides: bar === null ? 'Die Zuluft ist getestet.' : `Die Zuluft ist getestet, ${bar}.`,
        };
      }) as Say,
      checklist: always(
        'Sicherheitspunkte beantworten.',
        'Sie stehen auf der Checkliste und sind vor der Luft dran.',
      ),
      sound: always('Alarmton testen.', 'Einmal am Tag, bevor Luft hineingeht: am Hahn hinhören.'),
      warm: always('Fühler in der Hand wärmen.', 'Vor dem Mischen, jeden neben einem Thermometer.'),
      mix: always('Harz mischen, dann drücken.', 'Der Tastendruck startet die Topfzeit.'),
      'mix-unproved': always(
        'Harz mischen, dann drücken.',
        `${PROVE_FIRST} Der Tastendruck startet die Topfzeit.`,
      ),
      'ready-unproved': always('Schlauch ankuppeln, beginnen.', `${PROVE_FIRST} ${NOBODY}`),
      ready: ((told) => {
        const left = timeLeft(told);
        return {
          // The time alone was read as an order to let air in.
          say: left === null ? 'Schlauch ankuppeln, beginnen.' : `Anlegen beginnen binnen ${left}.`,
          besides: `Schlauch ankuppeln, Zulufthahn zu. ${NOBODY}`,
        };
      }) as Say,
    },
    seat: {
      open: (told) => ({ ...openTo(told), besides: `Der Schlauch ist am Packer. ${NOBODY}` }),
      'was-over-rated': overRated('Packer ganz entlüften.'),
      stands: STANDS,
      ...NOT_RISING,
      shut: always('Zulufthahn zu.', 'Der Anlegedruck ist erreicht.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      settle: ((told) => {
        const left = time(told);
        return {
          say: SHUT_LEAVE,
          besides: left === null ? 'Er kommt zur Ruhe.' : `Er kommt zur Ruhe. Manometer ablesen in ${left}.`,
        };
      }) as Say,
      compare: always('Manometerwert eintippen.', 'Zulufthahn bleibt so lange zu.'),
      compared: always('Füllen beginnen.', 'Manometer und Sensor stimmen überein.'),
      differs: always('Finden, wer falsch zeigt.', 'Bis dahin gilt der höhere Wert.'),
    },
    inflate: {
      open: openTo,
      stands: STANDS,
      ...NOT_RISING,
      'was-over-rated': overRated('Packer ganz entlüften.'),
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      ready: always('Bereit am Zulufthahn.', 'Vor dem Zudrehen wird gezählt.'),
      'count-down': ((told) => ({
        say: `In ${time(told) ?? 'Kürze'}: Zulufthahn zu.`,
        besides: NOBODY,
      })) as Say,
      'shut-now': always('Jetzt Zulufthahn zu.', 'Dann zu lassen.'),
      'too-fast': ((told) => {
        const late = to(told);
        return {
          say: 'Zu schnell: Hahn drosseln.',
          besides: late === null ? 'Die Hand käme zu spät.' : `Die Hand käme um ${late} zu spät.`,
        };
      }) as Say,
      uncounted: always(
        'Bereit am Zulufthahn.',
        'Keine Zählung: der Anstieg ist unruhig. Nach dem Druck gehen.',
      ),
      'reads-low': ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Manometer gilt.' : `Manometer gilt, bis ${bar}.`,
          besides: 'Der Sensor zeigt zu wenig: sein Wert, seine Obergrenze und seine Zählung sind falsch.',
        };
      }) as Say,
      'no-limit': always('Packerschild gilt.', 'Keine Grenze: keine Druckwarnung.'),
      'in-band': always(SHUT_LEAVE, 'Im Arbeitsbereich und ruhig: Halten beginnen.'),
      over: ((told) => {
        const bar = to(told);
        return {
          say: bar === null ? 'Ablasshahn etwas auf.' : `Langsam ablassen bis ${bar}.`,
          besides: 'Über dem Arbeitsbereich. Erst Zulufthahn zu.',
        };
      }) as Say,
    },
    hold: {
      'was-over-rated': overRated('Packer ganz entlüften.'),
      'top-up': topUp('Unter dem Mindestdruck: der Kurzliner löst sich vielleicht von der Wand.'),
      'top-up-soon': topUp('Der Druck fällt zum Mindestdruck. Leck suchen.'),
      'top-up-unknown': topUp('Es leckt, und der Mindestdruck ist nicht bekannt. Leck suchen.'),
      'leak-slow': always('Leck suchen.', 'Noch nicht nachfüllen: die Härtezeit kommt vor dem Mindestdruck.'),
      'reads-low': always(
        'Manometer ablesen.',
        'Der Sensor zeigt zu wenig: nach ihm keine Luft hinein. Manometerwert eintippen.',
      ),
      unread: always('Manometer gilt.', 'Der Messwert steht: nach ihm wird nichts überwacht.'),
      'leak-high': ((told) => {
        const bar = to(told);
        return {
          say: 'Leck suchen.',
          besides: bar === null ? 'Nicht nachfüllen.' : `Nicht nachfüllen: der Druck ist nicht unter ${bar}.`,
        };
      }) as Say,
      'find-loss': FIND_LOSS,
      jumped: JUMPED,
      'vent-open': always(
        'Ablasshahn zu, oder Entlüften.',
        'Der Ablasshahn ist als offen gemeldet: der Packer läuft leer. Niemand am Packer.',
      ),
      keep: always(LEAVE, 'Oft auf diesen Bildschirm sehen.'),
      lift: ((told) => {
        const bar = to(told);
        return {
          say: LEAVE,
          besides:
            bar === null ? 'Reaktionswärme hebt den Druck.' : `Reaktionswärme hebt den Druck auf ${bar}.`,
        };
      }) as Say,
      met: always('Rückstellprobe fühlen.', 'Die bei Rohrtemperatur gelagerte. Ist sie hart?'),
      soft: always(LEAVE, 'Die Rückstellprobe ist nicht hart. Später nochmal fühlen.'),
      warm: always('Rückstellprobe fühlen.', 'Die notierte lag nicht bei Rohrtemperatur.'),
      early: always(LEAVE, 'Die Probe ist als hart notiert, die Härtezeit ist nicht erreicht.'),
      doubted: always(
        'Nachsehen, wo die Probe lag.',
        'Viel zu früh hart: lag sie wärmer als das Rohr, oder ist sie von einem anderen Harz? Den Packer unter Druck lassen.',
      ),
      hard: always('Entlüften beginnen.', 'Probe als hart notiert, Härtezeit laut Datenblatt erreicht.'),
      'cure-not-judged': always(
        'Rückstellprobe fühlen.',
        'Das Harz härtet durch Licht: nachsehen, ob alles hart ist.',
      ),
    },
    'let-down': {
      open: always('Langsam entlüften.', 'Eine Leitung bei null ist kein leerer Packer.'),
      shut: always('Ablasshahn zu: testen.', 'Eine Leitung bei null ist kein leerer Packer.'),
      wait: ((told) => {
        const left = time(told);
        return {
          say: 'Warten: Ablasshahn bleibt zu.',
          besides:
            left === null
              ? 'Der Messwert muss bei null bleiben.'
              : `Der Messwert muss noch ${left} bei null bleiben.`,
        };
      }) as Say,
      stayed: (told) => ({ say: stayed(told), besides: KINK }),
      back: always('Ablasshahn wieder auf.', 'Der Packer ist nicht leer: niemand zieht, niemand kuppelt ab.'),
      'reads-low': always(
        'Manometer ablesen.',
        'Der Sensor zeigt zu wenig: seine Null ist keine. Weiter entlüften, Manometerwert eintippen.',
      ),
      broken: always('Bis null entlüften, neu testen.', 'Der Test brach ab und sagt nichts.'),
      lost: always('Abstand halten.', 'Kein Messwert: der Packer gilt als voll.'),
    },
    done: {
      stayed: pull,
      'was-over-rated': overRated('Vielleicht noch Luft.'),
      'reads-low': LOW_ZERO,
      untested: always(
        'Entlüften, Ablass zu, testen.',
        'Vielleicht noch Luft: kein Test hat ihn bei null bleiben sehen.',
      ),
      unseen: always(
        'Der Packer gilt als voll.',
        'Der Sensor sieht ihn hier nicht: eine Leitung bei null sagt nichts über ihn.',
      ),
      pressure: always('Noch unter Druck.', 'Entlüften, bevor etwas bewegt wird.'),
    },
    'air-test': {
      none: always(
        'Keine Luftprüfung geplant.',
        'Das Auftragsblatt nennt ihr Verfahren. Abschließen oder eines nennen.',
      ),
      coarse: always(
        'Feineren Sensor nehmen.',
        'Seine Messunsicherheit liegt über einem Zehntel des erlaubten Abfalls: der Plan nennt, was reicht.',
      ),
      plugs: always(
        'Hier nicht mit Luft prüfen.',
        'Grundwasser verlangt mehr Druck, als man auf Rohrverschlüsse gibt.',
      ),
      begin: always(
        'Beide Verschlüsse setzen, sichern.',
        'Packer raus, Rohr leer. Ein Verschluss kann herausfliegen: niemand davor oder im Schacht.',
      ),
      fill: slowly('Langsam Luft ein', `Diese Zahl immer im Auge behalten. ${NO_PLUG}`),
      'top-up': slowly('Langsam nachfüllen', `Unter dem Prüfdruck steht die Beruhigungszeit. ${NO_PLUG}`),
      stabilise: always(SHUT_LEAVE, `Die Luft beruhigt sich. ${NO_PLUG}`),
      'let-out': slowly(
        'Langsam ablassen',
        'Dann beide Hähne zu, Zuluft abnehmen: die Prüfzeit beginnt von selbst.',
      ),
      'bring-up': slowly('Langsam Luft ein', 'Dann zu, Zuluft abnehmen: die Prüfzeit beginnt von selbst.'),
      settle: always('Nichts anfassen.', 'Der Prüfdruck steht: die Prüfzeit beginnt von selbst.'),
      timing: always('Nichts anfassen.', `Der Druckabfall wird gemessen. ${NO_PLUG}`),
      vent: always('Ablasshahn auf: alle Luft raus.', NO_PLUG),
      passed: always(
        'Verschlüsse langsam lösen.',
        'Bestanden. Auch bei null kann ein Knick Luft verbergen: nicht davor stehen.',
      ),
      failed: always(
        'Suchen, wo Luft entweicht.',
        'Nicht bestanden. Auch Verschlüsse und Schläuche lecken: abseifen, nochmal prüfen.',
      ),
      unsaid: always(
        'Länger warten, nochmal prüfen.',
        'Nicht zu sagen, ob es hält: Luft auf Rohrtemperatur kommen lassen, Sensor beschatten.',
      ),
      broken: always('Nochmal prüfen oder abschließen.', 'Die Prüfung brach ab und sagt nichts.'),
    },
    abandoned: {
      pressure: always('Langsam entlüften.', 'Bevor etwas bewegt wird. Niemand am Packer.'),
      'reads-low': LOW_ZERO,
      zero: always('Ablasshahn zu, dann testen.', 'Vielleicht noch Luft: testen, bevor etwas bewegt wird.'),
      stayed: pull,
    },
  } satisfies Record<Stage, Record<string, Say>>;

  return { INSTRUCTIONS };
}
