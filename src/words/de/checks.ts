import type { CheckCode, Moment } from '../../job/checklist.ts';
import { itemNamed } from '../said/check-item.ts';

/** Items of the built-in list, as a line to tick. */
export const CHECK: Record<CheckCode, string> = {
  permit: 'Erlaubnisschein und Regeln für enge Räume erledigt',
  'flow-stopped': 'Abfluss abgesperrt oder umgeleitet',
  'camera-before': 'Mit der Kamera befahren, Station gemessen',
  'diameter-measured': 'Innendurchmesser gemessen, nicht nur Nennweite',
  'packer-inspected':
    'Packer ohne Schnitt, Abrieb oder Verschleiß; schon ein oberflächlicher Schnitt scheidet ihn aus',
  'fittings-locked': 'Kupplungen rasten ein und sitzen fest',
  'relief-fitted': 'Sicherheitsventil dran, höchstens auf den Höchstdruck eingestellt',
  'regulator-fitted': 'Druckregler dran',
  'gauge-fitted': 'Manometer dran, zeigt null bei offener Leitung',
  'line-zero': 'Sensor bei sichtbar offener Kupplung genullt',
  'probe-warmed': 'Jeder Fühler neben einem Thermometer in der Hand gewärmt',
  'rope-fixed': 'Rückholseil fest, sein Ende frei vom Kurzliner',
  'film-fitted': 'Folie gerade, nicht verdreht, an den Endstücken fest',
  'sleeve-marks': 'Kurzliner innerhalb der Marken der nutzbaren Länge',
  'batches-noted': 'Chargennummern notiert',
  'witness-kept': 'Rückstellprobe bei Rohrtemperatur gelagert',
  ventilation: 'Gas gemessen, Öffnung belüftet',
  protection: 'Handschuhe, Augen, Atem wie im Sicherheitsdatenblatt',
  'area-clear': 'Niemand in Rohrachse oder über der Öffnung',
  'camera-after': 'Kamera nach der Sanierung',
  cleaned: 'Packer gereinigt und nochmal begutachtet',
};

/** When items are asked, as the heading over them. */
export const MOMENT: Record<Moment, string> = {
  arrival: 'Auf der Baustelle',
  mixing: 'Vor dem Mischen',
  air: 'Bevor Luft hineingeht',
  'let-down': 'Vor dem Entlüften',
  after: 'Nach der Sanierung',
};

export const itemName = (id: string, text: string | null): string =>
  itemNamed(id, text, CHECK, LIST.unknownItem);

/** Reasons at hand for going on without a safety item. */
export const CHECK_REASONS: readonly string[] = [
  'Trifft auf dieser Baustelle nicht zu.',
  'Von anderen auf der Baustelle erledigt.',
  'Geht hier nicht, Gefahr wurde angesehen.',
];

export const LIST = {
  builtIn: 'Eingebaute Checkliste',
  named: (name: string, revision: number) => `${name}, Fassung ${revision}`,
  title: 'Checkliste',
  safety: 'Sicherheit',
  seen: (when: string, by: string) => (by === '' ? when : `${when}, ${by}`),
  noTime: 'ohne Zeit',
  goOn: 'Ohne weiter',
  without: (item: string) => `Ohne weiter: ${item}`,
  why: 'Den Grund drücken. Er bleibt beim Punkt und steht auf dem Nachweis.',
  passed: (reason: string) => `Ohne weitergemacht: ${reason}`,
  value: (text: string, unit: string) => (unit === '' ? text : `${text} ${unit}`),
  inUnit: (name: string, unit: string) => `${name}, ${unit}`,
  unknownItem: (id: string) => `Punkt ${id}, nicht mehr auf der Liste`,
  others: 'Nicht mehr auf der Liste',
  by: 'Am Computer',
  nobodyText:
    'Unter Einstellungen, Leute ankreuzen, wer heute da ist: dann tragen Antworten und was gedrückt wird ein Kürzel.',
  which: 'Checkliste dieses Auftrags',
  keeps: 'Es wurde schon geantwortet: dieser Auftrag behält seine Liste.',
  answered: (n: number, of: number) => `${n} von ${of} beantwortet`,
  noSheet: 'Dieser Lauf hat kein Auftragsblatt und damit keine Checkliste.',
  nothingNow: 'In diesem Abschnitt wird nichts gefragt.',
  before: 'Vorher gefragt',
  later: 'Später gefragt',
  open: 'Checkliste öffnen',
  due: (n: number) => `Checkliste: ${n}`,
  dueShort: (n: number) => `Liste: ${n}`,
  number: 'Zahl',
  text: 'Antwort',
};
