import type {
  AirSource,
  AirTest,
  Condition,
  CountsFrom,
  Criterion,
  CuredBy,
  Defect,
  Exotherm,
  GaugeKind,
  Heating,
  Infiltration,
  MixBasis,
  PackersOnLine,
  Plate,
  Quantity,
  ResinKind,
  Role,
  Signal,
  ThermocoupleClass,
  ThermocoupleType,
  Wetness,
} from '../../job/codes.ts';
import type { UnitChoice } from '../../units/display.ts';

/** Words of choices on the forms. */

export const DEFECT: Record<Defect, string> = {
  crack: 'Riss',
  joint: 'Versetzte Rohrverbindung',
  hole: 'Loch',
  roots: 'Wurzeln',
  'missing-wall': 'Fehlende Wand',
  lateral: 'Offener seitlicher Anschluss',
  other: 'Anderes',
};

export const INFILTRATION: Record<Infiltration, string> = {
  'not-looked': 'Nicht nachgesehen',
  none: 'Keine gesehen',
  damp: 'Feucht',
  dripping: 'Tropfend',
  running: 'Fließend',
};

export const HEATING: Record<Heating, string> = {
  unknown: 'Nicht gesagt',
  none: 'Nicht gewärmt',
  'hot-air': 'Heißluft',
  water: 'Warmes Wasser',
  steam: 'Dampf',
};

export const WETNESS: Record<Wetness, string> = {
  unknown: 'Nicht gesagt',
  dry: 'Trocken',
  wet: 'Nass: Wasser in Schlauch oder Packer',
};

export const PACKERS_ON_LINE: Record<PackersOnLine, string> = { one: 'Einer', two: 'Zwei' };

export const AIR_TEST: Record<AirTest, string> = {
  none: 'Keine',
  LA: 'EN 1610, LA',
  LB: 'EN 1610, LB',
  LC: 'EN 1610, LC',
  LD: 'EN 1610, LD',
  F1417: 'ASTM F1417',
};

export const AIR_SOURCE: Record<AirSource, string> = {
  assumed: 'Nicht bekannt (Meereshöhe, weit)',
  altitude: 'Höhe der Baustelle',
  typed: 'Barometer auf der Baustelle',
  sensor: 'Absolutdrucksensor',
};

export const PLATE: Record<Plate, string> = {
  maximum: 'Höchstdruck',
  working: 'Arbeitsdruck (gilt als Höchstdruck)',
};

export const CONDITION: Record<Condition, string> = {
  inspected: 'Begutachtet',
  'leak-check': 'Auf Lecks geprüft',
  cycle: 'Einsatz',
  'over-rated': 'Über Höchstdruck',
  damage: 'Schaden',
  repaired: 'Repariert',
  retired: 'Ausgemustert',
  note: 'Notiz',
};

export const RESIN_KIND: Record<ResinKind, string> = {
  epoxy: 'Epoxid',
  polyester: 'Polyester',
  'vinyl-ester': 'Vinylester',
  silicate: 'Silikat',
  polyurethane: 'Polyurethan',
  other: 'Anderes',
};

export const CRITERION: Record<Criterion, string> = {
  'let-down': 'entlüftet werden darf',
  hardness: 'eine genannte Härte erreicht ist',
  unstated: 'Nicht angegeben',
};

export const COUNTS_FROM: Record<CountsFrom, string> = {
  mixing: 'Mischen',
  placing: 'Einbringen ins Rohr',
  unstated: 'Nicht angegeben',
};

export const CURED_BY: Record<CuredBy, string> = {
  time: 'Zeit und Temperatur',
  light: 'Licht',
};

export const EXOTHERM: Record<Exotherm, string> = {
  low: 'Gering',
  medium: 'Mittel',
  high: 'Groß',
  unknown: 'Nicht bekannt',
};

export const BASIS: Record<MixBasis, string> = { mass: 'Masse', volume: 'Volumen' };

export const SIGNAL: Record<Signal, string> = {
  current: 'Stromschleife (4-20 mA)',
  ratio: 'Ratiometrische Spannung',
  voltage: 'Spannung',
  digital: 'Digital',
  thermocouple: 'Thermoelement',
};

export const THERMOCOUPLE: Record<ThermocoupleType, string> = { K: 'K', J: 'J', T: 'T', N: 'N', E: 'E' };

export const THERMOCOUPLE_CLASS: Record<ThermocoupleClass, string> = { 1: '1', 2: '2' };

export const GAUGE_KIND: Record<GaugeKind, string> = {
  gauge: 'Überdruck',
  absolute: 'Absolutdruck',
  sealed: 'Überdruck, geschlossene Bezugskammer',
};

export const QUANTITY: Record<Quantity, string> = {
  pressure: 'Druck',
  temperature: 'Temperatur',
};

export const ROLE: Record<Role, string> = {
  pressure: 'Druck am Packer oder in der Leitung',
  'outlet-pressure': 'Zweiter Druck: Reglerausgang',
  'check-pressure': 'Zweiter Druck: Packer, eigene Messleitung',
  temperature: 'Temperatur',
  supply: 'Sensorspeisung',
  junction: 'Vergleichsstelle',
  unused: 'Nicht benutzt',
};

export const PRESSURE_UNIT: Record<UnitChoice['pressure'], string> = { bar: 'bar', kPa: 'kPa', psi: 'psi' };
export const TEMPERATURE_UNIT: Record<UnitChoice['temperature'], string> = { C: '°C', F: '°F' };
export const LENGTH_UNIT: Record<UnitChoice['length'], string> = { mm: 'mm, m', in: 'in, ft' };
