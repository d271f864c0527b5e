import type { InputCode, PlanNote, RefusalCode } from '../../job/plan-codes.ts';
import { type Format, METRIC } from '../create-format.ts';
import { planNumbers } from '../said/plan-numbers.ts';

/** What a plan refuses, and its numbers. */

/** `of` is what the refusal is about and its numbers, in brackets, or nothing. */
const REFUSAL: Record<RefusalCode, (of: string) => string> = {
  'working-over-rated': (of) => `Der Arbeitsdruck liegt über dem Höchstdruck${of}.`,
  'no-margin-reason': (of) =>
    `Der Arbeitsdruck liegt über der Obergrenze${of}. Ihn senken, oder einen Grund für das Arbeiten am Höchstdruck angeben.`,
  'lift-past-rated': (of) =>
    `Die Reaktionswärme würde diese Leitung über den Höchstdruck heben${of}. Den Arbeitsdruck senken oder einen Druckregler nehmen, der entlastet.`,
  'floor-over-working': (of) =>
    `Der Arbeitsdruck reicht nicht an den Mindestdruck: der Kurzliner bliebe nicht an der Wand${of}.`,
  'u-over-rated': (of) => `Der Sensor ist zu unsicher, um diesen Packer zu überwachen${of}.`,
  'other-unrated': (of) =>
    `Zwei Packer hängen an dieser Leitung, und der Höchstdruck des anderen ist nicht bekannt${of}. Ihn auf dem Auftragsblatt eintragen.`,
  'rated-unread': (of) =>
    `Der Höchstdruck ist viel höher als bei Packern üblich${of}. Das Schild nochmal lesen und ihn berichtigen, oder im Blatt des Packers bestätigen.`,
  'rated-over-range': (of) =>
    `Der Messbereich des Sensors endet unter dem Höchstdruck: er kann die Obergrenze nicht sehen${of}.`,
  'packer-too-small': (of) => `Das Rohr ist weiter, als dieser Packer wachsen darf${of}.`,
  'packer-too-large': (of) => `Das Rohr ist enger, als dieser Packer passt${of}.`,
  'packer-retired': (of) => `Der Packer ist ausgemustert${of}.`,
  'sleeve-too-long': (of) =>
    `Der Kurzliner ist länger als die nutzbare Länge des Packers bei diesem Durchmesser${of}.`,
  'pot-life-short': (of) => `Die Verarbeitung dauert länger als die Topfzeit${of}.`,
};

const INPUT: Record<InputCode, string> = {
  diameter: 'Innendurchmesser',
  rated: 'Höchstdruck',
  u: 'Messunsicherheit',
  ceiling: 'Obergrenze',
  working: 'Arbeitsdruck',
  air: 'Luftdruck',
  rise: 'Erwärmung der Luft',
  ground: 'Erdreich',
  lift: 'Druckanstieg',
  'after-rise': 'Nachanstieg des Schlauchs',
  vapour: 'Wasserdampf in der Leitung',
  'other-rated': 'Höchstdruck des anderen Packers',
  density: 'Dichte',
  'water-level': 'Wasserstand',
  head: 'Wasserdruck',
  'free-inflation': 'freies Füllen',
  margin: 'Reserve',
  altitude: 'Höhe',
  'packer-volume': 'Packer',
  'hose-volume': 'Schlauch',
  length: 'Länge',
  defect: 'Schaden',
  overlap: 'Überlappung',
  'mark-below': 'Marke darunter',
  'mark-above': 'Marke darüber',
  'length-below': 'Länge darunter',
  'length-above': 'Länge darüber',
  thickness: 'Dicke',
  lap: 'Stoßüberlappung',
  layers: 'Lagen',
  layer: 'Lage',
  pressure: 'Druck',
  modulus: 'E-Modul',
  strength: 'Festigkeit',
  'safety-factor': 'Sicherheitsbeiwert',
  poisson: 'Querdehnzahl',
  enhancement: 'Stützfaktor K',
  ovality: 'Ovalität',
  'ovality-factor': 'Ovalitätsfaktor',
  area: 'Fläche',
  fabric: 'Gewebe',
  ratio: 'Verhältnis',
  waste: 'Verschnitt',
  'resin-mass': 'Harz',
  parts: 'Teile Harz',
  'hardener-parts': 'Teile Härter',
  'mix-temperature': 'Mischtemperatur',
  'cup-mass': 'im Becher',
  'lowest-temperature': 'tiefste Temperatur des Datenblatts',
  'pot-life': 'Topfzeit',
  handling: 'Verarbeitung',
  'start-pressure': 'Anfangsdruck',
  drop: 'Druckabfall',
  'test-coefficient': 'Beiwert',
  'sensor-span': 'weitester Messbereich, der reicht',
  'sensor-step': 'gröbste Stufe, die reicht',
  leak: 'Leck',
  zero: 'Null',
  days: 'Tage übrig',
  'off-gauge': 'Messwert minus Manometer',
  'off-thermometer': 'Messwert minus Thermometer',
  sooner: 'früher um bis zu',
};

export function refusals(f: Format) {
  const numbers = planNumbers(f, INPUT, ': ');
  return {
    ...numbers,
    refusalText: (note: PlanNote<RefusalCode>, units = METRIC): string =>
      numbers.noteText(REFUSAL[note.code], note, units),
  };
}
