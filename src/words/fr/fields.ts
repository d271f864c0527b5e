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
  crack: 'Fissure',
  joint: 'Assemblage déplacé',
  hole: 'Trou',
  roots: 'Racines',
  'missing-wall': 'Paroi manquante',
  lateral: 'Branchement ouvert',
  other: 'Autre',
};

export const INFILTRATION: Record<Infiltration, string> = {
  'not-looked': 'Pas regardée',
  none: 'Aucune vue',
  damp: 'Humide',
  dripping: 'Goutte à goutte',
  running: 'Écoulement',
};

export const HEATING: Record<Heating, string> = {
  unknown: 'Non précisé',
  none: 'Pas chauffé',
  'hot-air': 'Air chaud',
  water: 'Eau chaude',
  steam: 'Vapeur',
};

export const WETNESS: Record<Wetness, string> = {
  unknown: 'Non précisé',
  dry: 'Sèche',
  wet: 'Mouillée : eau dans le flexible ou le packer',
};

export const PACKERS_ON_LINE: Record<PackersOnLine, string> = { one: 'Un', two: 'Deux' };

export const AIR_TEST: Record<AirTest, string> = {
  none: 'Aucun',
  LA: 'EN 1610, LA',
  LB: 'EN 1610, LB',
  LC: 'EN 1610, LC',
  LD: 'EN 1610, LD',
  F1417: 'ASTM F1417',
};

export const AIR_SOURCE: Record<AirSource, string> = {
  assumed: 'Inconnue (niveau de la mer, large)',
  altitude: 'Altitude du lieu',
  typed: 'Baromètre sur le lieu',
  sensor: 'Capteur absolu',
};

export const PLATE: Record<Plate, string> = {
  maximum: 'Pression maximale admissible',
  working: 'Pression de travail (prise comme admissible)',
};

export const CONDITION: Record<Condition, string> = {
  inspected: 'Inspecté',
  'leak-check': 'Contrôle de fuite',
  cycle: 'Cycle',
  'over-rated': 'Admissible dépassée',
  damage: 'Dommage',
  repaired: 'Réparé',
  retired: 'Réformé',
  note: 'Note',
};

export const RESIN_KIND: Record<ResinKind, string> = {
  epoxy: 'Époxy',
  polyester: 'Polyester',
  'vinyl-ester': 'Vinylester',
  silicate: 'Silicate',
  polyurethane: 'Polyuréthane',
  other: 'Autre',
};

export const CRITERION: Record<Criterion, string> = {
  'let-down': 'On peut dégonfler',
  hardness: 'Une dureté indiquée',
  unstated: 'Non indiqué',
};

export const COUNTS_FROM: Record<CountsFrom, string> = {
  mixing: 'Le mélange',
  placing: 'La mise en place dans la conduite',
  unstated: 'Non indiqué',
};

export const CURED_BY: Record<CuredBy, string> = {
  time: 'Temps et température',
  light: 'Lumière',
};

export const EXOTHERM: Record<Exotherm, string> = {
  low: 'Faible',
  medium: 'Moyenne',
  high: 'Forte',
  unknown: 'Inconnue',
};

export const BASIS: Record<MixBasis, string> = { mass: 'masse', volume: 'volume' };

export const SIGNAL: Record<Signal, string> = {
  current: 'Boucle de courant (4-20 mA)',
  ratio: 'Tension ratiométrique',
  voltage: 'Tension',
  digital: 'Numérique',
  thermocouple: 'Thermocouple',
};

export const THERMOCOUPLE: Record<ThermocoupleType, string> = { K: 'K', J: 'J', T: 'T', N: 'N', E: 'E' };

export const THERMOCOUPLE_CLASS: Record<ThermocoupleClass, string> = { 1: '1', 2: '2' };

export const GAUGE_KIND: Record<GaugeKind, string> = {
  gauge: 'Pression relative',
  absolute: 'Pression absolue',
  sealed: 'Pression relative scellée',
};

export const QUANTITY: Record<Quantity, string> = {
  pressure: 'Pression',
  temperature: 'Température',
};

export const ROLE: Record<Role, string> = {
  pressure: 'Pression au packer ou dans sa ligne',
  'outlet-pressure': 'Deuxième pression : sortie du détendeur',
  'check-pressure': 'Deuxième pression : packer, ligne de mesure propre',
  temperature: 'Température',
  supply: 'Tension du capteur',
  junction: 'Soudure froide',
  unused: 'Pas utilisée',
};

export const PRESSURE_UNIT: Record<UnitChoice['pressure'], string> = { bar: 'bar', kPa: 'kPa', psi: 'psi' };
export const TEMPERATURE_UNIT: Record<UnitChoice['temperature'], string> = { C: '°C', F: '°F' };
export const LENGTH_UNIT: Record<UnitChoice['length'], string> = { mm: 'mm, m', in: 'in, ft' };
