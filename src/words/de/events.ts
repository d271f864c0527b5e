import type { Setup } from '../../job/setup.ts';
import { DEVICE_FAULTS } from '../../link/frames.ts';
import type { GapReason } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type Format, METRIC } from '../create-format.ts';
import { hasCase } from '../said/alarm-cases.ts';
import type { airTest } from './air-test.ts';
import { ALARM_STATE, ALARM_TITLE, alarmTitle, PRIORITY } from './alarm-titles.ts';
import type { alarms } from './alarms.ts';
import { itemName } from './checks.ts';
import type { cup } from './cup.ts';
import { deviceFault } from './device-faults.ts';
import type { hold } from './hold.ts';
import { STORE_CAUSE } from './link.ts';
import { overrideText } from './overrides.ts';
import type { supply } from './supply.ts';
import { PLACE, STAGE } from './terms.ts';
import { ZERO } from './zero.ts';

const GAP: Record<GapReason, string> = {
  silence: 'Das Gerät schwieg',
  port: 'Kabel oder Anschluss war weg',
  reset: 'Das Gerät startete neu',
  dropped: 'Das Kabel war zu langsam, Messwerte wurden verworfen',
  clock: 'Der Computer schlief',
  resumed: 'Der Lauf wurde unterbrochen und fortgesetzt',
  garbage: 'Rauschen statt Messwerten',
  'out-of-order':
    'Messwerte kamen in anderer Reihenfolge, als sie genommen wurden; die späten werden nicht benutzt',
  'device-clock': 'Die Uhr des Geräts sprang',
};

const CURE_START: Record<Extract<WatchEvent, { e: 'cure-start' }>['from'], string> = {
  seat: 'Härtezeit zählt ab hier (angelegt)',
  inflate: 'Härtezeit zählt ab hier (gefüllt)',
  hold: 'Härtezeit zählt ab hier (gehalten)',
};

/** What the sample contradicts, and what is asked; the age in per cent of the data sheet's time. */
const SAMPLE: Record<Extract<WatchEvent, { e: 'sample' }>['doubt'], (age: string) => string> = {
  'hard-early': (age) =>
    `Probe hart bei ${age} % der Datenblattzeit: lag sie wärmer als das Rohr, oder ist sie von anderem Harz?`,
  'soft-late': (age) =>
    `Probe nicht hart bei ${age} % der Datenblattzeit: eine langsame Charge, oder lag sie kälter? Die Zählung wartet auf sie`,
};

const SEGMENT_WHY: Record<Extract<WatchEvent, { e: 'segment' }>['why'], string> = {
  still: 'ruhig',
  'top-up': 'nachgefüllt',
  flow: 'Luft strömt',
  gap: 'Lücke in den Messwerten',
  stage: 'Abschnitt gewechselt',
  end: 'Ende des Laufs',
};

const REBOUND: Record<Extract<WatchEvent, { e: 'rebound' }>['what'], string> = {
  started: 'Ablasshahn zu, warten, ob der Druck zurückkommt',
  stayed: 'Blieb bei geschlossenem Ablasshahn bei null. Ein Knick oder Rückschlagventil kann Luft verbergen',
  'came-back': 'Druck kam bei geschlossenem Ablasshahn zurück: der Packer ist nicht leer',
  'broken-off': 'Rückdrucktest abgebrochen',
};

const DEVICE: Record<Extract<WatchEvent, { e: 'device' }>['what'], string> = {
  greeted: 'Gerät verbunden',
  reset: 'Gerät neu gestartet',
  other: 'Ein anderes Gerät antwortete',
  rescaled: 'Das Gerät kam mit einer anderen Skala zurück',
  taken: 'Das andere Gerät wurde für den Lauf genommen; es ist noch nicht genullt',
  button: 'Taster am Gerät gedrückt',
  trip: 'Die Gerätegrenze hat ausgelöst',
  return: 'Die Gerätegrenze ist zurückgefallen',
  fault: 'Gerät meldet einen Fehler',
  hostlost: 'Das Gerät hört nichts von diesem Computer',
  hostback: 'Das Gerät hört diesen Computer wieder',
};

function zeroTaken(
  offset: string,
  second: Extract<WatchEvent, { e: 'zero' }>['second'],
  pressure: (bar: number) => string,
): string {
  if (second === undefined) return `Genullt, Versatz ${offset}`;
  const { reason } = second;
  switch (reason) {
    case 'ok':
      return `Beide Sensoren genullt, Versatz ${offset} und ${pressure(second.offsetBar)}`;
    case 'too-far':
      return `Genullt, Versatz ${offset}; nicht der zweite Sensor, der ${pressure(second.offsetBar)} zeigte`;
    case 'noisy':
      return `Genullt, Versatz ${offset}; nicht der zweite Sensor, der nicht ruhig war`;
    case 'no-reading':
      return `Genullt, Versatz ${offset}; nicht der zweite Sensor, der keinen Messwert lieferte`;
    default:
      return reason satisfies never;
  }
}

/** @param time how long nothing had come */
const BESIDE: Record<Extract<WatchEvent, { e: 'beside' }>['what'], (time: string) => string> = {
  greeted: () => 'Zweiter Adapter verbunden: seine Temperaturen werden neben dem Druck gelesen',
  other: () => 'Ein anderer zweiter Adapter antwortete, als das Auftragsblatt nennt; er wird nicht gelesen',
  rescaled: () => 'Der zweite Adapter kam mit einer anderen Skala zurück; er wird nicht gelesen',
  port: () => 'Zweiter Adapter weg: seine Temperaturen stehen, der Druck läuft weiter',
  closed: () => 'Zweiter Adapter getrennt: seine Temperaturen stehen, der Druck läuft weiter',
  silent: (time) =>
    `Nichts vom zweiten Adapter seit ${time}: seine Temperaturen stehen, der Druck läuft weiter`,
  back: (time) => `Zweiter Adapter wieder da, nach ${time}`,
};

function checkLine({ item, said, how, text, by }: Extract<WatchEvent, { e: 'check' }>): string {
  const who = by === '' ? '' : ` (${by})`;
  const name = itemName(item, said);
  switch (how) {
    case 'done':
      return text === '' ? `Erledigt: ${name}${who}` : `Erledigt: ${name}: ${text}${who}`;
    case 'passed':
      return `Ohne diesen Punkt weitergemacht: ${name}. Grund: ${text}${who}`;
    case 'taken-back':
      return `Antwort zurückgenommen: ${name}${who}`;
    default:
      return how satisfies never;
  }
}

function storeFault(code: string): string {
  const known = hasCase(STORE_CAUSE, code) ? STORE_CAUSE[code] : code;
  return `Fehler beim Aufzeichnen (${known})`;
}

function agreement(agrees: boolean | null): string {
  if (agrees === null) return 'nicht vergleichbar';
  return agrees
    ? 'stimmen innerhalb ihrer Messunsicherheit überein'
    : 'liegen weiter auseinander als ihre Messunsicherheit';
}

export function events(
  f: Format,
  { alarmWas }: ReturnType<typeof alarms>,
  { leakText }: ReturnType<typeof hold>,
  { supplyEvent }: ReturnType<typeof supply>,
  { airTestEvent }: ReturnType<typeof airTest>,
  { cupMark, cupText }: ReturnType<typeof cup>,
) {
  return {
    GAP,

    /** One line a record's event, for the list beside a trace. */
    eventText(event: WatchEvent, units = METRIC): string {
      switch (event.e) {
        case 'stage':
          return `${STAGE[event.stage]}${event.attempt > 1 ? `, Versuch ${event.attempt}` : ''}${event.by === 'data' ? ' (aus den Daten gesehen)' : ''}`;
        case 'alarm':
          if (event.to === 'unacknowledged')
            return `${PRIORITY[event.priority]}: ${alarmWas(event.alarm, event.values, units)}`;
          return `${alarmTitle(event)}: ${ALARM_STATE[event.to]}`;
        case 'acknowledge-refused':
          return `${ALARM_TITLE[event.alarm]}: ein Tastendruck für einen früheren Alarm kam spät und quittierte nichts`;
        case 'cue':
          return `Countdown: Zulufthahn zu in ${f.duration(event.closeInS)}`;
        case 'too-fast':
          return `Zu schnell: bei ${f.pressureSlope(event.rateBarPerS, units)} kommt eine Hand um ${f.pressure(event.lateBar, units)} zu spät, bis ${f.pressureSlope(event.mostBarPerS, units)} rechtzeitig`;
        case 'gap':
          return `Lücke von ${f.duration((event.toUs - event.fromUs) / 1e6)}: ${GAP[event.reason]}`;
        case 'limits':
          return event.ceilingBar === null
            ? 'Keine Grenze: keine Druckwarnung'
            : `Grenzen: Obergrenze ${f.pressure(event.ceilingBar, units)}, Arbeitsdruck ${f.pressure(event.workingBar, units)}, Mindestdruck ${event.floorBar === null ? 'nicht bekannt' : f.pressure(event.floorBar, units)}`;
        case 'setup-refused':
          return event.reason === 'ceiling-raised'
            ? 'Änderung des Auftragsblatts abgelehnt: während eines Laufs lässt sich die Obergrenze senken, nie heben'
            : 'Änderung des Auftragsblatts abgelehnt: es ist nicht neuer';
        case 'zero':
          return event.taken
            ? zeroTaken(f.pressure(event.offsetBar, units, 1), event.second, (bar) =>
                f.pressure(bar, units, 1),
              )
            : ZERO[event.reason];
        case 'gauge':
          return `Manometer ${f.pressure(event.gaugeBar, units)}, Sensor ${f.pressure(event.readingBar, units)}: ${agreement(event.agrees)}`;
        case 'warm-check':
          return `Fühler ${PLACE[event.place]} ${f.temperature(event.readingC, units)}, Thermometer ${f.temperature(event.thermometerC, units)}: ${agreement(event.agrees)}`;
        case 'segment':
          return `Geschlossene Leitung ${event.what === 'opened' ? 'beginnt' : 'endet'} (${SEGMENT_WHY[event.why]})`;
        case 'leak':
          return leakText(event.leak, units);
        case 'hold':
          return `Halten: ${f.fixed(event.minutesInBand, 1)} min im Haltebereich, ${f.pressure(event.minBar, units)} bis ${f.pressure(event.maxBar, units)}. ${leakText(event.leak, units)}`;
        case 'knee':
          return `Packer berührt die Rohrwand bei ${f.pressure(event.freeInflationBar, units)} (${f.pressureNumber(event.low, units)} bis ${f.pressureNumber(event.high, units)})`;
        case 'lift':
          return `Reaktionswärme hebt den Druck auf ${f.pressure(event.peakBar.value, units)} (${f.pressureNumber(event.peakBar.low, units)} bis ${f.pressureNumber(event.peakBar.high, units)})`;
        case 'cure-start':
          return event.before === undefined
            ? CURE_START[event.from]
            : `${CURE_START[event.from]}, mit ${f.fixed(event.before.minutes, 1)} min seit dem Mischen bei ${f.temperature(event.before.coldestC, units)} oder wärmer`;
        case 'cure-met':
          return 'Härtezeit laut Datenblatt an der kältesten wahrscheinlichen Stelle erreicht (vorsichtige Rechnung)';
        case 'question':
          if (event.answer === null) return 'Gefragt: Entlüften oder Verlust?';
          if (event.answer === 'held')
            return 'Frage zurückgenommen: der Abfall ist vorbei, und der Druck hat gehalten';
          return event.answer === 'let-down' ? 'Geantwortet: wird entlüftet' : 'Geantwortet: Druckverlust';
        case 'rebound':
          return REBOUND[event.what];
        case 'supply':
          return supplyEvent(event, units);
        case 'air-test':
          return airTestEvent(event, units);
        case 'outlet-stood':
          return `Reglerausgang steht bei ${f.pressure(event.bar, units)}`;
        case 'cup':
          return event.heatAge === null
            ? cupText(event)
            : `${cupText(event)}. ${cupMark(event.heatAge, f.quantity('temperatureDifference', event.riseK, units))}`;
        case 'mixed':
          return 'Harz gemischt';
        case 'witness':
          return `Rückstellprobe ${event.hard ? 'hart' : 'nicht hart'}, ${event.atPipeTemperature ? 'bei Rohrtemperatur gelagert' : 'nicht bei Rohrtemperatur gelagert'}`;
        case 'sample':
          return SAMPLE[event.doubt](f.fixed(event.age * 100, 0));
        case 'override':
          return `Entgegen der Warnung weitergemacht (${overrideText(event.what)}): ${event.reason}`;
        case 'check':
          return checkLine(event);
        case 'operator':
          return event.by === '' ? 'Am Computer: niemand genannt' : `Am Computer: ${event.by}`;
        case 'note':
          return event.text;
        case 'device':
          return event.what === 'fault'
            ? `${DEVICE.fault}: ${deviceFault(DEVICE_FAULTS[(event.value ?? 0) - 1]).was}`
            : DEVICE[event.what];
        case 'beside':
          return BESIDE[event.what](f.duration(event.seconds ?? 0));
        case 'store':
          return event.ok ? 'Aufzeichnen geht wieder' : storeFault(event.code);
        case 'end':
          return 'Ende des Laufs';
      }
    },

    /** What a run's limits say in one line. */
    limitsText(setup: Setup | null, units = METRIC): string {
      const limits = setup?.limits ?? null;
      if (limits === null) return 'Keine Grenze: keine Druckwarnung';
      return `Höchstdruck ${f.pressure(limits.ratedBar, units)}, Obergrenze ${f.pressure(limits.ceilingBar, units)}, Arbeitsdruck ${f.pressure(limits.workingBar, units)}`;
    },
  };
}
