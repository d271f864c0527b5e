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
  crack: 'Crack',
  joint: 'Displaced joint',
  hole: 'Hole',
  roots: 'Roots',
  'missing-wall': 'Missing wall',
  lateral: 'Open lateral',
  other: 'Other',
};

export const INFILTRATION: Record<Infiltration, string> = {
  'not-looked': 'Not looked',
  none: 'None seen',
  damp: 'Damp',
  dripping: 'Dripping',
  running: 'Running',
};

export const HEATING: Record<Heating, string> = {
  unknown: 'Not said',
  none: 'Not warmed',
  'hot-air': 'Hot air',
  water: 'Warm water',
  steam: 'Steam',
};

export const WETNESS: Record<Wetness, string> = {
  unknown: 'Not said',
  dry: 'Dry',
  wet: 'Wet: water in hose or packer',
};

export const PACKERS_ON_LINE: Record<PackersOnLine, string> = { one: 'One', two: 'Two' };

export const AIR_TEST: Record<AirTest, string> = {
  none: 'None',
  LA: 'EN 1610, LA',
  LB: 'EN 1610, LB',
  LC: 'EN 1610, LC',
  LD: 'EN 1610, LD',
  F1417: 'ASTM F1417',
};

export const AIR_SOURCE: Record<AirSource, string> = {
  assumed: 'Not known (sea level, wide)',
  altitude: 'Altitude of the site',
  typed: 'Barometer at the site',
  sensor: 'Absolute sensor',
};

export const PLATE: Record<Plate, string> = {
  maximum: 'Maximum pressure',
  working: 'Working pressure (taken as the maximum)',
};

export const CONDITION: Record<Condition, string> = {
  inspected: 'Inspected',
  'leak-check': 'Leak check',
  cycle: 'Cycle',
  'over-rated': 'Over its rating',
  damage: 'Damage',
  repaired: 'Repaired',
  retired: 'Retired',
  note: 'Note',
};

export const RESIN_KIND: Record<ResinKind, string> = {
  epoxy: 'Epoxy',
  polyester: 'Polyester',
  'vinyl-ester': 'Vinyl ester',
  silicate: 'Silicate',
  polyurethane: 'Polyurethane',
  other: 'Other',
};

export const CRITERION: Record<Criterion, string> = {
  'let-down': 'May be let down',
  hardness: 'A stated hardness',
  unstated: 'Not stated',
};

export const COUNTS_FROM: Record<CountsFrom, string> = {
  mixing: 'Mixing',
  placing: 'Placing in the pipe',
  unstated: 'Not stated',
};

export const CURED_BY: Record<CuredBy, string> = {
  time: 'Time and temperature',
  light: 'Light',
};

export const EXOTHERM: Record<Exotherm, string> = {
  low: 'Low',
  medium: 'Medium',
  high: 'High',
  unknown: 'Not known',
};

export const BASIS: Record<MixBasis, string> = { mass: 'by mass', volume: 'by volume' };

export const SIGNAL: Record<Signal, string> = {
  current: 'Current loop (4-20 mA)',
  ratio: 'Ratiometric voltage',
  voltage: 'Voltage',
  digital: 'Digital',
  thermocouple: 'Thermocouple',
};

export const THERMOCOUPLE: Record<ThermocoupleType, string> = { K: 'K', J: 'J', T: 'T', N: 'N', E: 'E' };

export const THERMOCOUPLE_CLASS: Record<ThermocoupleClass, string> = { 1: '1', 2: '2' };

export const GAUGE_KIND: Record<GaugeKind, string> = {
  gauge: 'Gauge pressure',
  absolute: 'Absolute pressure',
  sealed: 'Sealed gauge pressure',
};

export const QUANTITY: Record<Quantity, string> = {
  pressure: 'Pressure',
  temperature: 'Temperature',
};

export const ROLE: Record<Role, string> = {
  pressure: 'Pressure at the packer or in its line',
  'outlet-pressure': 'Second pressure: regulator’s outlet',
  'check-pressure': 'Second pressure: packer, own sense line',
  temperature: 'Temperature',
  supply: 'Sensor power',
  junction: 'Cold junction',
  unused: 'Not used',
};

export const PRESSURE_UNIT: Record<UnitChoice['pressure'], string> = { bar: 'bar', kPa: 'kPa', psi: 'psi' };
export const TEMPERATURE_UNIT: Record<UnitChoice['temperature'], string> = { C: '°C', F: '°F' };
export const LENGTH_UNIT: Record<UnitChoice['length'], string> = { mm: 'mm, m', in: 'in, ft' };
