import type { PairPath, SupplyReason, SupplyVerdict } from '../../watch/codes.ts';
import type { Bounded, WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Why a proof of the supply was not begun, was broken off, is asked about or holds no longer. */
const REASON: Record<SupplyReason, string> = {
  'not-in-prepare': 'nur vor dem Anlegen',
  'no-reading': 'es gibt keinen Messwert',
  'not-empty': 'die Leitung stand unter Druck: erst entlüften',
  'no-rise': 'es kam kein Druck. Wurde die Zuluft geöffnet? Ein Sensor am Packer sieht sie nicht',
  'slow-rise': 'sie stieg langsamer, als ein Schlauch sich füllt',
  'never-still': 'sie kam nicht zur Ruhe: der Schlauch leckt oder sein Ende ist offen',
  'end-leaks': 'sie fiel, als der Zulufthahn zu war: das Schlauchende ist offen oder leckt',
  'packer-on': 'der Packer hing am Schlauch',
  stopped: 'von Hand abgebrochen',
  turned: 'der Druckregler wurde neu eingestellt',
  stage: 'die Arbeit ging weiter',
  gap: 'Messwerte fehlen',
  device: 'anderer Sensor, andere Skala oder Messstelle',
  'fill-as-fast': 'der Packer füllte sich so schnell wie zuvor der Schlauch: er hing da schon dran',
};

/** What a proved supply is good for, and what is done about it. */
const VERDICT: Record<SupplyVerdict, string> = {
  stands: 'Steht am Arbeitsdruck',
  'under-working': 'Steht unter dem Arbeitsdruck: kein Füllen erreicht ihn',
  'over-working': 'Steht über dem Arbeitsdruck: Druckregler herunterdrehen',
  'over-ceiling': 'ÜBER DER OBERGRENZE: Druckregler herunterdrehen, nicht ankuppeln',
  creeps: 'Steigt nach: nicht offen lassen',
};

/** Words of the task on the live page. */
const TASK = {
  title: 'Zuluft testen',
  text: 'Bevor der Schlauch am Packer ist: sein Ende schließen, dann Zuluft auf. Sie steigt und steht bei dem, was der Druckregler durchlässt.',
  beside:
    'Ein Schlauchende, das offen ist oder leckt, oder ein Packer am Schlauch fällt auf; ein Hahn, der offen bleibt, nicht.',
  shut: 'Schlauchende ist zu',
  uncoupled: 'Abgekuppelt, die Kupplung dichtet',
  closed: 'Womit ist das Schlauchende zu?',
  again: 'Für einen neuen Test: womit ist das Schlauchende zu?',
  underWay: 'Läuft: die Anweisung sagt, was als Nächstes kommt.',
  turned: 'Druckregler neu eingestellt',
  stoodAt: 'Zuluft vor dem Füllen',
  path: 'Zwischen Zuluft und Packer',
  outletTitle: 'Reglerausgang',
  outletText: (bar: string) =>
    `Er stand bei ${bar}, bevor Luft hineinging. Wurde er seither mit Absicht verstellt, das sagen: überwacht wird dann von da an, wo er steht.`,
  needsLimits: 'Ohne Grenzen gibt es nichts, wogegen zu testen wäre: einen Packer wählen.',
  skipped: 'Nicht getestet. So steht es im Nachweis.',
  notProved: (why: string) => `Nicht getestet: ${why}.`,
  slowValve: 'Nein: eine Hand war an Hahn oder Regler',
  packerOn: 'Der Packer hängt am Schlauch',
};

/** What lies between regulator and packer, as the two pressures show it. */
const PATH: Record<PairPath, string> = {
  flows: 'Luft strömt',
  level: 'beide stehen auf einem Druck, mehr kommt nicht',
  blocked: 'nichts strömt: Hahn zu oder Schlauch geknickt',
  escapes: 'Luft strömt, und der Packer steigt nicht',
};

export function supply(f: Format) {
  const range = ({ value, low, high }: Bounded, u: DisplayUnits): string =>
    `${f.pressure(value, u)} (${f.pressureNumber(low, u)} bis ${f.pressureNumber(high, u)})`;

  /** '1,82 bar (1,81 bis 1,83). Steht am Arbeitsdruck. Nachsteigen ...' */
  function supplyText(
    told: {
      readonly lockUpBar: Bounded | null;
      readonly verdict: SupplyVerdict | null;
      readonly creepMbarPerMin: Bounded | null;
      readonly ceilingInS: Bounded | null;
    },
    u: DisplayUnits = METRIC,
  ): string {
    const { lockUpBar, verdict, creepMbarPerMin, ceilingInS } = told;
    const out: string[] = [];
    if (lockUpBar !== null) out.push(`${range(lockUpBar, u)}.`);
    if (verdict !== null) out.push(`${VERDICT[verdict]}.`);
    if (ceilingInS !== null) out.push(`Über der Obergrenze in ${f.duration(ceilingInS.value)}.`);
    else if (creepMbarPerMin !== null) out.push(`Nachsteigen ${f.pressureRate(creepMbarPerMin.value, u)}.`);
    return out.join(' ');
  }

  function supplyEvent(e: Extract<WatchEvent, { e: 'supply' }>, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : `: ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return e.end === 'uncoupled'
          ? 'Zulufttest begonnen, Schlauch abgekuppelt'
          : 'Zulufttest begonnen, Schlauchende zu';
      case 'refused':
        return `Zulufttest nicht begonnen${why}`;
      case 'asked':
        return `Gefragt, ob der Packer am Schlauch hängt${why}`;
      case 'locked':
        return `Zuluft steht bei ${supplyText({ ...e, creepMbarPerMin: null }, u)}`;
      case 'proved':
        return `Zuluft getestet: ${supplyText(e, u)}`;
      case 'broken-off':
        return `Zulufttest abgebrochen${why}`;
      case 'vented':
        return 'Leitung nach dem Zulufttest wieder leer';
      case 'void':
        return `Der Zulufttest gilt nicht mehr${why}`;
      case 'elsewhere':
        return `Das Füllen steht bei ${f.pressure(e.bar, u)}${e.lockUpBar === null ? '' : `, die Zuluft stand im Test bei ${f.pressure(e.lockUpBar.value, u)}`}`;
    }
  }

  return { PAIR_PATH: PATH, SUPPLY: TASK, SUPPLY_REASON: REASON, supplyText, supplyEvent };
}
