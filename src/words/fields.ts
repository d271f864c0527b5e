import type { JobDocument } from '../job/job-document.ts';
import type { ConditionEntry } from '../job/packer-document.ts';
import type { ResinDocument } from '../job/resin-document.ts';
import type { SensorDocument } from '../job/sensor-document.ts';
import type { ChannelSetup, Setup } from '../job/setup.ts';

/** Words of choices on the forms. */

export const DEFECT: Record<JobDocument['defect']['kind'], string> = {
  crack: 'Crack',
  joint: 'Displaced joint',
  hole: 'Hole',
  roots: 'Roots',
  'missing-wall': 'Missing wall',
  lateral: 'Open lateral',
  other: 'Other',
};

export const INFILTRATION: Record<JobDocument['defect']['infiltration'], string> = {
  'not-looked': 'Not looked',
  none: 'None seen',
  damp: 'Damp',
  dripping: 'Dripping',
  running: 'Running',
};

export const AIR_TEST: Record<JobDocument['airTest']['method'], string> = {
  none: 'None',
  LA: 'EN 1610, LA',
  LB: 'EN 1610, LB',
  LC: 'EN 1610, LC',
  LD: 'EN 1610, LD',
  F1417: 'ASTM F1417',
};

export const AIR_SOURCE: Record<Setup['air']['source'], string> = {
  assumed: 'Not known (sea level, wide)',
  altitude: 'Altitude of the site',
  typed: 'Barometer at the site',
  sensor: 'Absolute sensor',
};

export const PLATE: Record<'maximum' | 'working', string> = {
  maximum: 'Maximum pressure',
  working: 'Working pressure (taken as the maximum)',
};

export const CONDITION: Record<ConditionEntry['what'], string> = {
  inspected: 'Inspected',
  'leak-check': 'Leak check',
  cycle: 'Cycle',
  damage: 'Damage',
  repaired: 'Repaired',
  retired: 'Retired',
  note: 'Note',
};

export const RESIN_KIND: Record<ResinDocument['kind'], string> = {
  epoxy: 'Epoxy',
  polyester: 'Polyester',
  'vinyl-ester': 'Vinyl ester',
  silicate: 'Silicate',
  polyurethane: 'Polyurethane',
  other: 'Other',
};

export const CRITERION: Record<ResinDocument['criterion'], string> = {
  'let-down': 'May be let down',
  hardness: 'A stated hardness',
  unstated: 'Not stated',
};

export const EXOTHERM: Record<ResinDocument['exotherm'], string> = {
  low: 'Low',
  medium: 'Medium',
  high: 'High',
  unknown: 'Not known',
};

export const BASIS: Record<ResinDocument['mix']['basis'], string> = { mass: 'by mass', volume: 'by volume' };

export const SIGNAL: Record<SensorDocument['signal'], string> = {
  current: 'Current loop (4-20 mA)',
  ratio: 'Ratiometric voltage',
  voltage: 'Voltage',
  digital: 'Digital',
  thermocouple: 'Thermocouple',
};

export const GAUGE_KIND: Record<NonNullable<SensorDocument['gaugeKind']>, string> = {
  gauge: 'Gauge pressure',
  absolute: 'Absolute pressure',
  sealed: 'Sealed gauge',
};

export const QUANTITY: Record<SensorDocument['quantity'], string> = {
  pressure: 'Pressure',
  temperature: 'Temperature',
};

export const ROLE: Record<ChannelSetup['role'], string> = {
  pressure: 'Pressure',
  temperature: 'Temperature',
  supply: 'Sensor supply',
  junction: 'Cold junction',
  unused: 'Not used',
};
