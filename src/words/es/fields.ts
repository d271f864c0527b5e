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

export const DEFECT: Record<Defect, string> = {
  crack: 'Grieta',
  joint: 'Junta desplazada',
  hole: 'Agujero',
  roots: 'Raíces',
  'missing-wall': 'Falta pared',
  lateral: 'Acometida abierta',
  other: 'Otro',
};

export const INFILTRATION: Record<Infiltration, string> = {
  'not-looked': 'No se miró',
  none: 'No se ve',
  damp: 'Húmedo',
  dripping: 'Gotea',
  running: 'Corre',
};

export const HEATING: Record<Heating, string> = {
  unknown: 'No se dice',
  none: 'Sin calentar',
  'hot-air': 'Aire caliente',
  water: 'Agua caliente',
  steam: 'Vapor',
};

export const WETNESS: Record<Wetness, string> = {
  unknown: 'No se dice',
  dry: 'Seca',
  wet: 'Mojada: agua en manguera o packer',
};

export const PACKERS_ON_LINE: Record<PackersOnLine, string> = { one: 'Uno', two: 'Dos' };

export const AIR_TEST: Record<AirTest, string> = {
  none: 'Ninguno',
  LA: 'EN 1610, LA',
  LB: 'EN 1610, LB',
  LC: 'EN 1610, LC',
  LD: 'EN 1610, LD',
  F1417: 'ASTM F1417',
};

export const AIR_SOURCE: Record<AirSource, string> = {
  assumed: 'No se sabe (nivel del mar, amplio)',
  altitude: 'Altitud de la obra',
  typed: 'Barómetro en la obra',
  sensor: 'Sensor absoluto',
};

export const PLATE: Record<Plate, string> = {
  maximum: 'Presión máxima admisible',
  working: 'Presión de trabajo (se toma como admisible)',
};

export const CONDITION: Record<Condition, string> = {
  inspected: 'Inspeccionado',
  'leak-check': 'Prueba de fugas',
  cycle: 'Ciclo',
  'over-rated': 'Sobre su admisible',
  damage: 'Daño',
  repaired: 'Reparado',
  retired: 'Retirado',
  note: 'Nota',
};

export const RESIN_KIND: Record<ResinKind, string> = {
  epoxy: 'Epoxi',
  polyester: 'Poliéster',
  'vinyl-ester': 'Viniléster',
  silicate: 'Silicato',
  polyurethane: 'Poliuretano',
  other: 'Otra',
};

export const CRITERION: Record<Criterion, string> = {
  'let-down': 'Se puede desinflar',
  hardness: 'Una dureza dada',
  unstated: 'No se dice',
};

export const COUNTS_FROM: Record<CountsFrom, string> = {
  mixing: 'La mezcla',
  placing: 'La colocación en el tubo',
  unstated: 'No se dice',
};

export const CURED_BY: Record<CuredBy, string> = {
  time: 'Tiempo y temperatura',
  light: 'Luz',
};

export const EXOTHERM: Record<Exotherm, string> = {
  low: 'Baja',
  medium: 'Media',
  high: 'Alta',
  unknown: 'No se sabe',
};

export const BASIS: Record<MixBasis, string> = { mass: 'en masa', volume: 'en volumen' };

export const SIGNAL: Record<Signal, string> = {
  current: 'Lazo de corriente (4-20 mA)',
  ratio: 'Tensión ratiométrica',
  voltage: 'Tensión',
  digital: 'Digital',
  thermocouple: 'Termopar',
};

export const THERMOCOUPLE: Record<ThermocoupleType, string> = { K: 'K', J: 'J', T: 'T', N: 'N', E: 'E' };

export const THERMOCOUPLE_CLASS: Record<ThermocoupleClass, string> = { 1: '1', 2: '2' };

export const GAUGE_KIND: Record<GaugeKind, string> = {
  gauge: 'Presión manométrica',
  absolute: 'Presión absoluta',
  sealed: 'Presión manométrica sellada',
};

export const QUANTITY: Record<Quantity, string> = {
  pressure: 'Presión',
  temperature: 'Temperatura',
};

export const ROLE: Record<Role, string> = {
  pressure: 'Presión en el packer o en su línea',
  'outlet-pressure': 'Segunda presión: salida del regulador',
  'check-pressure': 'Segunda presión: packer, línea propia',
  temperature: 'Temperatura',
  supply: 'Tensión del sensor',
  junction: 'Unión fría',
  unused: 'Sin usar',
};

export const PRESSURE_UNIT: Record<UnitChoice['pressure'], string> = { bar: 'bar', kPa: 'kPa', psi: 'psi' };
export const TEMPERATURE_UNIT: Record<UnitChoice['temperature'], string> = { C: '°C', F: '°F' };
export const LENGTH_UNIT: Record<UnitChoice['length'], string> = { mm: 'mm, m', in: 'in, ft' };
