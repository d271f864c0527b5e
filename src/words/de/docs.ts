import type { PackerDocument } from '../../job/packer-document.ts';
import type { ResinDocument } from '../../job/resin-document.ts';
import type { SensorDocument } from '../../job/sensor-document.ts';

/** Words of the documents: packers, resins, sensors. */
export const DOCS = {
  packerOne: 'Packer',
  resinOne: 'Harz',
  sensorOne: 'Sensor',
  newOne: 'Neu',
  none: 'Noch keine.',
  smallest: 'Kleinstes Rohr',
  largest: 'Größtes Rohr',
  more: 'Längen, freies Füllen, Volumen, Sicherheitsventil',
  readAgain: (pressure: string) => `${pressure}? Das Schild nochmal lesen.`,
  ratingsText: 'Vom Schild oder Datenblatt des Herstellers. Zwischen zwei Zeilen gilt der niedrigere Druck.',
  diameter: 'Durchmesser',
  rated: 'Höchstdruck',
  length: 'Länge',
  pressure: 'Druck',
  litres: 'Volumen',
  addRow: 'Zeile hinzufügen',
  removeRow: (n: number) => `Zeile ${n} entfernen`,
  /** Beside a row that a run's review kept. */
  ofRun: 'Sein Lauf',
  mix: 'Mischung',
  resinParts: 'Teile Harz',
  hardenerParts: 'Teile Härter',
  basis: 'Teile nach',
  expires: 'Charge läuft ab',
  logWhat: 'Was',
  logNote: 'Notiz',
  logAdd: 'Eintragen',
  cureText:
    'Zeit bis zu dem Ende, das das Datenblatt nennt, bei jeder Temperatur, die es gibt. Eine Zeile reicht, mehr sind besser.',
  temperature: 'Temperatur',
  minutes: 'Zeit',
  rangeLo: 'Messbereich von',
  rangeHi: 'Messbereich bis',
  spanLo: 'Signal am unteren Ende',
  spanHi: 'Signal am oberen Ende',
  cupText:
    'Eine Zeile je freigegebener Charge, oder je Becher, der auf dem Hof mit der Waage gemischt wurde, im üblichen Gefäß der Kolonne: wie die Durchsicht es sagt. Sie gelten für die Härtezeiten oben: ändern sich diese, herausnehmen.',
  cupMass: 'Gemischtes Harz im Becher',
  cupMark: 'Größte Wärme bei diesem Anteil der Datenblattzeit',
  cupRise: 'Erwärmt um',
  curedByHint: 'Durch Licht: dann wird Aushärtung nicht beurteilt, welche Zeiten auch unten stehen.',
  perKelvinHint:
    'Null und Spanne zusammen, laut Datenblatt, in % der Spanne je Kelvin. Leer: das Übliche wird genommen.',
  calDate: 'Datum',
  calReference: 'Bezugsgerät',
  calU: 'Standardunsicherheit des Bezugs',
  asFound: 'Vorgefunden',
  asLeft: 'Hinterlassen',
  indicated: 'Angezeigt',
  reference: 'Bezug',
  addCalibration: 'Kalibrierung hinzufügen',
  removeCalibration: 'Zu den früheren Kalibrierungen',
  notSaved: 'Nicht gespeichert: siehe die markierten Felder.',
  gone: 'Dieses Blatt gibt es hier nicht mehr.',
  removeTitle: 'Entfernen?',
  removeText: 'Aufträge und Läufe, die es benutzt haben, behalten, was sie aufgezeichnet haben.',
};

/** What members of documents are called on their forms; of those left out each field has a name of its own. */
const SHARED = { name: 'Name', serial: 'Seriennummer', retired: 'Ausgemustert', notes: 'Notizen' };

export const PACKER: {
  readonly [M in Exclude<keyof PackerDocument, 'version' | 'sizes' | 'earlierCycles'>]: string;
} = {
  name: SHARED.name,
  serial: SHARED.serial,
  plate: 'Das Schild nennt',
  plateReadBar: 'Schild nochmal gelesen: der größte Höchstdruck oben stimmt',
  ratings: 'Höchstdruck nach Durchmesser',
  usable: 'Nutzbare Länge nach Durchmesser',
  freeInflation: 'Druck beim freien Füllen nach Durchmesser',
  volume: 'Gasvolumen nach Durchmesser',
  reliefBar: 'Einstelldruck seines Sicherheitsventils',
  retired: SHARED.retired,
  conditions: 'Logbuch des Packers',
  notes: SHARED.notes,
};

export const RESIN: { readonly [M in Exclude<keyof ResinDocument, 'version' | 'mix' | 'batch'>]: string } = {
  name: SHARED.name,
  kind: 'Art',
  curedBy: 'Härtet durch',
  curePoints: 'Härtezeit laut Datenblatt',
  criterion: 'Die Datenblattzeit endet, wenn',
  countsFrom: 'Die Datenblattzeit zählt ab',
  lowestC: 'Tiefste Temperatur des Datenblatts',
  exotherm: 'Reaktionswärme',
  expectedRiseK: 'Erwartete Erwärmung der Luft im Packer',
  potLife: 'Topfzeit',
  potMassG: 'Bei einer Masse von',
  resinDensity: 'Dichte des Harzes',
  hardenerDensity: 'Dichte des Härters',
  mixedDensity: 'Dichte der Mischung',
  cupMarks: 'Marken von Probenbechern',
  notes: SHARED.notes,
};

export const SENSOR: {
  readonly [M in Exclude<keyof SensorDocument, 'version' | 'range' | 'span' | 'earlier'>]: string;
} = {
  name: SHARED.name,
  serial: SHARED.serial,
  quantity: 'Misst',
  signal: 'Signal',
  thermocouple: 'Thermoelementtyp',
  thermocoupleClass: 'Toleranzklasse (IEC 60584-1)',
  gaugeKind: 'Liest',
  accuracy: 'Genauigkeit laut Datenblatt (k = 2)',
  perKelvin: 'Verschiebt sich mit seiner Wärme',
  deviceId: 'Gerät',
  channel: 'Kanal',
  calibration: 'Kalibrierung',
  dueDays: 'Fällig nach Tagen',
  retired: SHARED.retired,
  notes: SHARED.notes,
};

/** A probe compared at one point, with the readings of the device that will read it. */
export const COMPARISON = {
  begin: 'In schmelzendem Eis vergleichen',
  where: 'Verglichen',
  ice: 'In gerührtem schmelzendem Eis: 0 °C',
  thermometer: 'Neben einem Bezugsthermometer',
  iceReference: 'Gerührtes schmelzendes Eis',
  iceHow:
    'Eis zerstoßen, den Becher damit füllen, sauberes kaltes Wasser bis zur Oberkante des Eises zugeben und zwei Minuten rühren, die Fühlerspitze in der Mitte, weg von Wand und Boden. Am Ende muss noch Eis da sein.',
  thermometerHow:
    'Beide Spitzen in einem gerührten Eimer Wasser zusammenbinden, so warm wie der Auftrag. Warten, bis beide stillstehen, den Messwert nehmen, dann eintippen, was das Thermometer zeigt.',
  none: 'Kein Fühler wird gelesen. Das Gerät verbinden, das ihn im Auftrag liest, mit eingestecktem Fühler.',
  practice:
    'Die Fühler der Übungsanlage sind nicht echt: von ihnen wird nichts für einen echten Sensor genommen.',
  channel: (channel: number, value: string) => `Kanal ${channel}: ${value}`,
  take: 'Diesen Messwert nehmen',
  moving: 'Warten: er bewegt sich noch',
  typeReference: 'Unter „Bezug“ eintippen, was das Thermometer zeigte.',
};
