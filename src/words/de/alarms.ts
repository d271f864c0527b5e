import type { AlarmCode, LossCause } from '../../watch/codes.ts';
import type { AlarmValues } from '../../watch/events.ts';
import type { AlarmView } from '../../watch/view.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';
import {
  afterFall,
  afterJump,
  areSwapped,
  hasCase,
  inHose,
  isNow,
  isOver,
  isUnderNow,
  leftFull,
  roundedDown,
  SEEN_BAR,
  type Texts,
  unannounced,
} from '../said/alarm-cases.ts';
import { cureAlarms } from './alarms-cure.ts';
import { deviceFault } from './device-faults.ts';
import { STORE_CAUSE } from './link.ts';

const NO_WARNING = 'Gefahr auch ohne Warnung.';

/** Why the reading is lost, and why it was. */
const LOSS: Record<LossCause, { readonly is: string; readonly was: string }> = {
  silence: { is: 'das Gerät schweigt', was: 'das Gerät schwieg' },
  port: { is: 'Kabel oder Anschluss ist weg', was: 'Kabel oder Anschluss war weg' },
  range: { is: 'der Sensor zeigt weit unter null', was: 'der Sensor zeigte weit unter null' },
  fault: { is: 'Sensor oder Ader ist defekt', was: 'Sensor oder Ader war defekt' },
  reset: { is: 'das Gerät ist neu gestartet', was: 'das Gerät startete neu' },
  garbage: { is: 'es kommt nur Rauschen', was: 'es kam nur Rauschen' },
  'other-device': {
    is: 'ein anderes Gerät antwortet: das erste wieder anstecken',
    was: 'ein anderes Gerät antwortete',
  },
  rescaled: {
    is: 'das Gerät hat eine andere Skala: es wird nicht gelesen',
    was: 'das Gerät hatte eine andere Skala',
  },
};

function lossCause(cause: string | undefined, tense: 'is' | 'was'): string {
  if (cause === undefined) return '';
  return ` (${hasCase(LOSS, cause) ? LOSS[cause][tense] : cause})`;
}

function storeCause(cause: string | undefined): string {
  if (cause === undefined) return '';
  return ` (${hasCase(STORE_CAUSE, cause) ? STORE_CAUSE[cause] : cause})`;
}

const GAUGE_FIRST = 'Der Sensor ist gesprungen: erst das Manometer prüfen, keine Luft nachfüllen';
const LOSS_FIRST = 'Erst den Verlust suchen. Abstand halten';
const HOSE_ALONE =
  'Zulufthahn zu, dann Ablasshahn auf: Schlauch festhalten, nichts ankuppeln, Druckregler herunterdrehen';
/** What a packer over its rating asks for; a hose alone sends nobody away who has to hold it. */
const ventIt = (v: AlarmValues): string =>
  inHose(v) ? HOSE_ALONE : 'Zulufthahn zu, dann Ablasshahn auf, alle auf Abstand';

export function alarms(f: Format) {
  /** ' 1.46 bar' when known, else nothing: a text never shows an empty slot. */
  const with_ = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressure(bar, u)}`;
  };

  /** Just under the floor both are one number in print: then it is said once. */
  const underFloor = ({ bar, floorBar }: AlarmValues, u: DisplayUnits): string => {
    const floor = with_(' ', floorBar, u);
    const now = with_(' ', bar, u);
    return `Druck${now === floor ? '' : now} ist unter dem Mindestdruck${floor}`;
  };

  const range = (low: number | undefined, high: number | undefined, u: DisplayUnits): string => {
    if (low === undefined || high === undefined) return '';
    return ` (${f.pressureNumber(low, u)} bis ${f.pressureNumber(high, u)})`;
  };

  const number = (label: string, bar: number | undefined, u: DisplayUnits): string => {
    return bar === undefined ? '' : `${label}${f.pressureNumber(bar, u)}`;
  };

  const seconds = (label: string, s: number | undefined, after = ''): string => {
    return s === undefined ? '' : `${label}${f.duration(s)}${after}`;
  };

  const rate = (label: string, mbarPerMin: number | undefined, u: DisplayUnits): string => {
    return mbarPerMin === undefined ? '' : `${label}${f.pressureRate(mbarPerMin, u)}`;
  };

  /** A time to danger, never longer than it is: ' in 8 s (7 s to 10 s)'. */
  const soon = (v: AlarmValues): string => {
    if (v.inS === undefined) return '';
    const range =
      v.inLowS === undefined || v.inHighS === undefined
        ? ''
        : ` (${f.duration(roundedDown(v.inLowS))} bis ${f.duration(v.inHighS)})`;
    return isNow(v.inS) ? ' binnen einer Sekunde' : ` in ${f.duration(roundedDown(v.inS))}${range}`;
  };

  /** 'let out to 1.35, not under 0.90': advice with a floor, or with the floor said to be unknown; it may be the aim itself. */
  const advice = (v: AlarmValues, u: DisplayUnits): string => {
    if (v.adviceHighBar === undefined) return 'Ablasshahn etwas auf, etwas Luft ablassen';
    const floor =
      v.adviceLowBar === undefined
        ? '; der Mindestdruck ist nicht bekannt'
        : f.pressureNumber(v.adviceLowBar, u) === f.pressureNumber(v.adviceHighBar, u)
          ? ', nicht weiter'
          : `, nicht unter ${f.pressureNumber(v.adviceLowBar, u)}`;
    return `Ablasshahn etwas auf, ablassen bis ${f.pressure(v.adviceHighBar, u)}${floor}`;
  };

  /** ' 5 times a second instead of 50'. */
  const perSecond = (v: AlarmValues): string => {
    if (v.cause === 'late' && v.seconds !== undefined) return ` ${f.fixed(v.seconds, 1)} s zu spät`;
    const { perSecond: now, perSecondBefore: before } = v;
    return now === undefined || before === undefined
      ? ' seltener als zuvor'
      : ` ${f.fixed(now, now < 2 ? 1 : 0)}-mal je Sekunde statt ${f.fixed(before, before < 2 ? 1 : 0)}-mal`;
  };

  const rising: Texts = {
    now: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `Leitung kommt bei ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)} zur Ruhe${number(', Obergrenze ', v.ceilingBar, u)}: jetzt Zulufthahn zu, dann Druckregler herunterdrehen`;
      const ceiling = `${with_(' ', v.ceilingBar, u)}${soon(v)}`;
      const act = 'jetzt Zulufthahn zu; steigt es weiter, Ablasshahn auf';
      if (v.kind === 'left-band')
        return `Druck${with_(' ', v.bar, u)} ist über den Arbeitsbereich hinaus und wird nicht langsamer, Obergrenze${ceiling}: ${act}`;
      if (v.kind === 'opened')
        return `Druck${with_(' ', v.bar, u)} steigt schnell, obwohl der Zulufthahn als zu gemeldet ist, Obergrenze${ceiling}: ${act}`;
      if (v.kind === 'hand-time') return `Obergrenze${ceiling}, schneller als eine Hand reagiert: ${act}`;
      return `Obergrenze${ceiling}: ${act}`;
    },
    was: (v, u) => {
      if (v.kind === 'settle' && v.settleBar !== undefined)
        return `Leitung wäre bei ${f.pressure(v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)} zur Ruhe gekommen${number(', Obergrenze ', v.ceilingBar, u)}`;
      const when = seconds(' in ', v.inS);
      const limit = `Obergrenze${with_(' ', v.ceilingBar, u)}`;
      if (v.kind === 'opened')
        return `Druck stieg schnell${with_(' bei ', v.bar, u)}, obwohl der Zulufthahn als zu gemeldet war, ${limit}${when}`;
      return v.kind === 'left-band'
        ? `Druck war über den Arbeitsbereich hinaus${with_(' bei ', v.bar, u)} und wurde nicht langsamer, ${limit}${when}`
        : `Druck stieg${with_(' bei ', v.bar, u)}, ${limit}${when}`;
    },
  };

  const TEXT: Record<AlarmCode, Texts> = {
    'over-range': {
      now: (v, u) =>
        `Über${with_(' ', v.spanBar, u)}${v.spanBar === undefined ? ' dem' : ', dem'} Ende des Sensors, niemand sieht wie weit: ${ventIt(v)}`,
      was: (v, u) => `über dem Messbereich des Sensors${with_(', ', v.spanBar, u)}`,
    },
    'over-rated': {
      now: (v, u) =>
        v.overBar !== undefined && v.overBar < SEEN_BAR
          ? `Am Höchstdruck${with_(' ', v.ratedBar, u)}: ${ventIt(v)}`
          : `Über Höchstdruck${with_(' um ', v.overBar, u)}${with_(', Höchstdruck ', v.ratedBar, u)}: ${ventIt(v)}`,
      was: (v, u) => `über Höchstdruck${with_(' ', v.ratedBar, u)}${with_(', höchstens ', v.bar, u)}`,
    },
    'over-test': {
      now: (v, u) =>
        `Zwischen den Rohrverschlüssen ist mehr, als die Prüfung erlaubt${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}: Zulufthahn zu, dann Ablasshahn auf, niemand nahe den Verschlüssen`,
      was: (v, u) =>
        `zwischen den Rohrverschlüssen war mehr, als die Prüfung erlaubt${v.ceilingBar === undefined ? '' : `, ${f.testPressure(v.ceilingBar, u)}`}${v.bar === undefined ? '' : `, höchstens ${f.testPressure(v.bar, u)}`}`,
    },
    ceiling: {
      now: (v, u) =>
        `Druck${with_(' ', v.bar, u)} ist an der Obergrenze${with_(' ', v.ceilingBar, u)}: ${inHose(v) ? HOSE_ALONE : 'Zulufthahn zu, dann Ablasshahn auf, Abstand halten'}`,
      was: (v, u) => `an der Obergrenze${with_(' ', v.ceilingBar, u)}${with_(', höchstens ', v.bar, u)}`,
    },
    rising,
    'supply-over': {
      now: (v, u) =>
        `${
          isUnderNow(v)
            ? `Der Reglerausgang${with_(', jetzt ', v.secondBar, u)}, steht vielleicht über der Obergrenze${with_(' ', v.ceilingBar, u)}`
            : `Zuluft${with_(' ', v.secondBar, u)} am Reglerausgang ist über der Obergrenze${with_(' ', v.ceilingBar, u)}`
        }: Zulufthahn zu, nichts ankuppeln, Druckregler herunterdrehen`,
      was: (v, u) =>
        `der Reglerausgang ${isUnderNow(v) ? 'stand vielleicht' : 'war'} über der Obergrenze${with_(' ', v.ceilingBar, u)}${with_('; er war bei ', v.secondBar, u)}`,
    },
    'supply-moved': {
      now: (v, u) =>
        v.secondBar !== undefined
          ? `Zuluft${with_(' ', v.secondBar, u)} am Reglerausgang ist höher, als sie stand${with_(', ', v.lockUpBar, u)}: der Druckregler hat sich verstellt. Zulufthahn zu, Abstand halten`
          : `Druck${with_(' ', v.bar, u)} ist höher als die Zuluft im Test${with_(', ', v.lockUpBar, u)}: der Druckregler hat sich verstellt. Zulufthahn zu, Abstand halten`,
      was: (v, u) =>
        v.secondBar !== undefined
          ? `der Reglerausgang war höher, als er gestanden hatte${with_(', ', v.lockUpBar, u)}${with_('; er war bei ', v.secondBar, u)}`
          : `höher als die Zuluft im Test${with_(', ', v.lockUpBar, u)}${with_('; der Druck war bei ', v.bar, u)}`,
    },
    'pressure-lost': {
      now: (v) =>
        `Druckmesswert verloren${lossCause(v.cause, 'is')}: der Packer gilt als voll, Zulufthahn zu, Abstand halten`,
      was: (v) => `Druckmesswert verloren${lossCause(v.cause, 'was')}`,
    },
    'device-trip': {
      now: (v, u) =>
        `Die Gerätegrenze${with_(' ', v.ceilingBar, u)} hat ausgelöst: Zulufthahn zu, Abstand halten, Manometer ansehen; steht es auch hoch, Ablasshahn auf`,
      was: (v, u) => `die Gerätegrenze${with_(' ', v.ceilingBar, u)} hatte ausgelöst`,
    },
    'fast-fall': {
      now: (v, u) =>
        `${v.cause === 'unseen' ? 'Druck ging verloren, während es niemand sah' : 'Druck fällt schnell'}${with_(', jetzt ', v.bar, u)}. Wird nicht gerade entlüftet: Zulufthahn zu, Abstand halten, nicht nachfüllen. Schlauch ab oder Packer geplatzt?`,
      was: (v, u) =>
        v.cause === 'unseen'
          ? `Druck ging verloren, während es niemand sah${with_(', er war bei ', v.bar, u)}`
          : `Druck fiel schnell${with_(', er war bei ', v.bar, u)}`,
    },
    'below-floor': {
      now: (v, u) =>
        afterJump(v)
          ? `Druck${with_(' ', v.bar, u)} zeigt unter dem Mindestdruck${with_(' ', v.floorBar, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `${underFloor(v, u)} nach einem Druckverlust. ${LOSS_FIRST}`
            : `${underFloor(v, u)}, der Kurzliner löst sich vielleicht von der Wand: am Zulufthahn langsam nachfüllen, niemand am Packer`,
      was: (v, u) => `unter dem Mindestdruck${with_(' ', v.floorBar, u)}${with_(', mindestens ', v.bar, u)}`,
    },
    leaking: {
      now: (v, u) =>
        afterJump(v)
          ? `Packer oder Leitung leckt laut Messwert${rate(' ', v.mbarPerMin, u)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `Packer oder Leitung leckt${rate(' ', v.mbarPerMin, u)} nach einem Druckverlust. ${LOSS_FIRST}`
            : `Packer oder Leitung leckt${rate(' ', v.mbarPerMin, u)}: Schlauch draußen absuchen und abhorchen, unter Druck keine Kupplung anfassen; vor dem Mindestdruck am Zulufthahn nachfüllen`,
      was: (v, u) => `Packer oder Leitung leckte${rate(' ', v.mbarPerMin, u)}`,
    },
    'band-exit': {
      now: (v, u) =>
        afterJump(v)
          ? `Druck fällt laut Messwert unter den Mindestdruck${with_(' ', v.floorBar, u)}${soon(v)}. ${GAUGE_FIRST}`
          : afterFall(v)
            ? `Druck fällt unter den Mindestdruck${with_(' ', v.floorBar, u)}${soon(v)}, nach einem Druckverlust. ${LOSS_FIRST}`
            : `Druck fällt unter den Mindestdruck${with_(' ', v.floorBar, u)}${soon(v)}: am Zulufthahn langsam nachfüllen, niemand am Packer`,
      was: (v, u) =>
        `Druck wäre unter den Mindestdruck gefallen${with_(' ', v.floorBar, u)}${seconds(', ', v.inS, ' später')}`,
    },
    lift: {
      now: (v, u) =>
        `Reaktionswärme hebt den Druck${with_(' auf ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', Obergrenze ', v.ceilingBar, u)}${soon(v)}: ${advice(v, u)}`,
      was: (v, u) =>
        `Reaktionswärme hätte den Druck gehoben${with_(' auf ', v.settleBar, u)}${range(v.settleLowBar, v.settleHighBar, u)}${number(', Obergrenze ', v.ceilingBar, u)}${seconds(', ', v.inS, ' später')}`,
    },
    'device-unarmed': {
      now: () => 'Gerätegrenze aus. Kabel und Gerät prüfen; in Hörweite dieses Computers bleiben',
      was: () => 'die Gerätegrenze war aus',
    },
    'device-deaf': {
      now: () =>
        'Das Gerät nimmt keinen Befehl an, seine Grenze ist vielleicht eine andere oder keine. Kabel prüfen, in Hörweite dieses Computers bleiben',
      was: () => 'das Gerät nahm keinen Befehl an, seine Grenze war ihm nicht zu sagen',
    },
    'device-fault': { now: (v) => deviceFault(v.cause).now, was: (v) => deviceFault(v.cause).was },
    'device-reset': {
      now: () =>
        'Das Gerät ist neu gestartet, einige Messwerte fehlen (Lücke ist markiert): Strom und Kabel prüfen',
      was: () => 'das Gerät startete neu, einige Messwerte fehlen (Lücke wurde markiert)',
    },
    'supply-low': {
      now: () =>
        'Sensorspeisung zu niedrig oder nicht bekannt, der Messwert ist vielleicht zu niedrig: das Manometer gilt, Stromversorgung des Geräts prüfen',
      was: () => 'Sensorspeisung war zu niedrig oder nicht bekannt, der Messwert war vielleicht zu niedrig',
    },
    'slow-readings': {
      now: (v) =>
        `Messwerte kommen${perSecond(v)}, ein zu weites Füllen wird später gesehen: Zulufthahn drosseln, Kabel und Gerät prüfen`,
      was: (v) => `Messwerte kamen${perSecond(v)}, ein Füllen wurde später gesehen`,
    },
    stuck: {
      now: () =>
        'Der Messwert bewegt sich nicht, er gilt nicht: Zulufthahn zu, mit dem Manometer vergleichen',
      was: () => 'der Messwert bewegte sich nicht',
    },
    'reading-jump': {
      now: (v, u) =>
        isOver(v)
          ? `Der Messwert sprang${with_(' um ', v.jumpBar, u)}, das tut keine Luft, und der Packer ist vielleicht über der Obergrenze, was auch angezeigt wird: Zulufthahn zu, dann Ablasshahn auf, Abstand halten`
          : `Der Messwert sprang${with_(' um ', v.jumpBar, u)}, das tut keine Luft, er gilt nicht: Zulufthahn zu, mit dem Manometer vergleichen`,
      was: (v, u) => `der Messwert war gesprungen${with_(' um ', v.jumpBar, u)}, das tut keine Luft`,
    },
    'line-contradicted': {
      now: () =>
        'Die Messwerte passen nicht zur angegebenen Leitung oder Messstelle: Zulufthahn ansehen, Auftragsblatt berichtigen. Bis dahin werden Halten und Leck nicht beurteilt',
      was: () => 'die Messwerte passten nicht zur angegebenen Leitung oder Messstelle',
    },
    'gauge-differs': {
      now: (v, u) =>
        isOver(v)
          ? `Laut Manometer${with_(', ', v.gaugeBar, u)} gegen${with_(' ', v.bar, u)} am Sensor, ist der Packer über der Obergrenze, was auch angezeigt wird: Zulufthahn zu, dann Ablasshahn auf, Abstand halten`
          : `Manometer${with_(' ', v.gaugeBar, u)} und Sensor${with_(' ', v.bar, u)} lagen weiter auseinander als ihre Messunsicherheit: der höhere Wert gilt, erst finden, wer falsch zeigt`,
      was: (v, u) =>
        `Manometer${with_(' ', v.gaugeBar, u)} und Sensor${with_(' ', v.bar, u)} lagen weiter auseinander als ihre Messunsicherheit`,
    },
    'sensors-differ': {
      now: (v, u) => {
        const two = `Packer${with_(' ', v.bar, u)}, zweiter Sensor${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v))
          return `${two}: der am Packer füllte sich zuerst. Vertauscht, der zweite nicht an der Leitung, oder ein voller Packer? Keinen Hahn öffnen, Kabel oder Auftragsblatt berichtigen`;
        return v.cause === 'against-flow'
          ? `${two}: Luft strömt nicht von niedrig nach hoch, einer zeigt falsch. Der höhere Wert gilt, mit dem Manometer vergleichen`
          : `${two}: sie liegen weiter auseinander als ihre Messunsicherheit. Der höhere Wert gilt, mit dem Manometer vergleichen`;
      },
      was: (v, u) => {
        const two = `Packer${with_(' ', v.bar, u)}, zweiter Sensor${with_(' ', v.secondBar, u)}`;
        if (areSwapped(v)) return `die beiden Drucksensoren schienen vertauscht: ${two}`;
        return v.cause === 'against-flow'
          ? `Luft schien von niedrig nach hoch zu strömen: ${two}`
          : `die beiden Drucksensoren lagen weiter auseinander als ihre Messunsicherheit: ${two}`;
      },
    },
    'second-lost': {
      now: (v) =>
        v.cause === 'check-pressure'
          ? 'Der zweite Sensor am Packer liefert keinen oder einen stehenden Messwert: die Überwachung geht nach dem anderen allein weiter, sein Kabel prüfen'
          : 'Der Sensor am Reglerausgang liefert keinen oder einen stehenden Messwert: die Überwachung geht nach dem anderen allein weiter, sein Kabel prüfen',
      was: (v) =>
        v.cause === 'check-pressure'
          ? 'der zweite Sensor am Packer lieferte keinen oder einen stehenden Messwert: die Überwachung ging nach dem anderen allein weiter'
          : 'der Sensor am Reglerausgang lieferte keinen oder einen stehenden Messwert: die Überwachung ging nach dem anderen allein weiter',
    },
    rebound: {
      now: (v, u) =>
        unannounced(v)
          ? `Luft kommt herein${with_(', jetzt ', v.bar, u)}, und kein Füllen war angesagt: Zulufthahn zu, Ablasshahn auf, Abstand halten`
          : leftFull(v)
            ? `Noch unter Druck${with_(', jetzt ', v.bar, u)}, und die Arbeit ist als fertig gemeldet: nicht ziehen, nicht abkuppeln, Zulufthahn zu, Ablasshahn auf, Abstand halten`
            : `Druck kam zurück${with_(' auf ', v.bar, u)}, der Packer ist nicht leer: nicht ziehen, nicht abkuppeln, Zulufthahn zu, Ablasshahn auf, länger warten`,
      was: (v, u) =>
        unannounced(v)
          ? `Luft kam herein, die kein Abschnitt angesagt hatte${with_(', bis ', v.bar, u)}`
          : leftFull(v)
            ? `der Packer stand unter Druck${with_(', bei ', v.bar, u)}, und die Arbeit war als fertig gemeldet`
            : `Druck kam nach dem Entlüften zurück${with_(', auf ', v.bar, u)}`,
    },
    ...cureAlarms(f),
    'store-fault': {
      now: (v) =>
        `Die Überwachung läuft weiter, aber die Aufzeichnung lässt sich nicht schreiben${storeCause(v.cause)}: Druck und Zeit von Hand notieren, auf diesem Computer Platz schaffen`,
      was: (v) => `die Aufzeichnung ließ sich nicht schreiben${storeCause(v.cause)}`,
    },
    'clock-jump': {
      now: (v) =>
        `Der Computer hat geschlafen${seconds(', ', v.seconds)}, so lange wurde nichts überwacht: Computer wach und am Netz halten`,
      was: (v) => `der Computer schlief${seconds(', ', v.seconds)}, so lange wurde nichts überwacht`,
    },
    garbage: {
      now: () =>
        'Es kommen Bytes, die keine Messwerte sind: Kabel und Erdung prüfen, liegt ein Motor oder Generator daneben?',
      was: () => 'es kamen Bytes, die keine Messwerte waren',
    },
  };

  return {
    NO_WARNING,

    /**
     * What is so and what to do, one sentence.
     * @param values as the event carries them (bar, s, °C, mbar/min); any may be missing.
     */
    alarmText: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].now(values, units),

    /** What was so, behind a word and a colon: the numbers are those of its moment, and it orders nothing. */
    alarmWas: (code: AlarmCode, values: AlarmValues, units: DisplayUnits = METRIC): string =>
      TEXT[code].was(values, units),

    /** The sentence of an alarm as it stands: one that is over is told as what was. */
    alarmSentence: (
      { alarm, state, values }: Pick<AlarmView, 'alarm' | 'state' | 'values'>,
      units: DisplayUnits = METRIC,
    ): string =>
      state === 'returned' ? `War: ${TEXT[alarm].was(values, units)}` : TEXT[alarm].now(values, units),
  };
}
