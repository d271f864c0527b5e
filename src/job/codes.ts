/**
 * The codes that documents and Setups hold, each list in the order in which a form offers it. Schemas, types, forms
 * and words follow these lists; a code is for ever: add, never rename.
 */

/** Where the transducer sits. */
export const TAPS = ['packer', 'hose', 'supply', 'unknown'] as const;
export type Tap = (typeof TAPS)[number];

/** How the packer is fed. */
export const LINES = ['closed', 'supplied-relieving', 'supplied-nonrelieving', 'unknown'] as const;
export type Line = (typeof LINES)[number];

/** Where a thermocouple sits; the cup holds resin of the same batch. */
export const IN_PIPE = ['sleeve', 'air', 'pipe', 'ground'] as const;
export type InPipe = (typeof IN_PIPE)[number];
export const PLACES = [...IN_PIPE, 'cup'] as const;
export type Place = (typeof PLACES)[number];

/**
 * What a second pressure is, beside the one that the guard goes by: the regulator's outlet, or a cross-check at the packer
 * by a sense line of its own.
 */
export const SECOND_PRESSURES = ['outlet-pressure', 'check-pressure'] as const;
export type SecondPressure = (typeof SECOND_PRESSURES)[number];

/** What a channel of the device is used for. */
export const ROLES = [
  'pressure',
  ...SECOND_PRESSURES,
  'temperature',
  'supply',
  'junction',
  'unused',
] as const;
export type Role = (typeof ROLES)[number];

export const MATERIALS = ['clay', 'concrete', 'pvc', 'pe', 'iron', 'grp', 'unknown'] as const;
export type Material = (typeof MATERIALS)[number];

export const DEFECTS = ['crack', 'joint', 'hole', 'roots', 'missing-wall', 'lateral', 'other'] as const;
export type Defect = (typeof DEFECTS)[number];

/** Water that comes in at the defect, as the crew saw it on the camera. */
export const INFILTRATIONS = ['not-looked', 'none', 'damp', 'dripping', 'running'] as const;
export type Infiltration = (typeof INFILTRATIONS)[number];

/**
 * Heat that is brought into the packer from outside while the sleeve cures. Where nobody said, it is taken to be: then a
 * warm reading proves no heat of the resin's own.
 */
export const HEATINGS = ['unknown', 'none', 'hot-air', 'water', 'steam'] as const;
export type Heating = (typeof HEATINGS)[number];

/** Liquid water in hose or packer, whose vapour a warm line adds. Where nobody said, it is taken to be there. */
export const WETNESSES = ['unknown', 'dry', 'wet'] as const;
export type Wetness = (typeof WETNESSES)[number];

/** Packers that hang on this one line: one sensor sees one of them at best. */
export const PACKERS_ON_LINE = ['one', 'two'] as const;
export type PackersOnLine = (typeof PACKERS_ON_LINE)[number];

/** Air test after the repair: methods of EN 1610, or ASTM F1417. */
export const AIR_TESTS = ['none', 'LA', 'LB', 'LC', 'LD', 'F1417'] as const;
export type AirTest = (typeof AIR_TESTS)[number];
export type AirTestMethod = Exclude<AirTest, 'none'>;

/** Where the air pressure of the site is known from. */
export const AIR_SOURCES = ['assumed', 'altitude', 'typed', 'sensor'] as const;
export type AirSource = (typeof AIR_SOURCES)[number];

/** What a packer's plate calls its pressure; 'working' is taken as the maximum too. */
export const PLATES = ['maximum', 'working'] as const;
export type Plate = (typeof PLATES)[number];

/** What a packer's log tells of. */
export const CONDITIONS = [
  'inspected',
  'leak-check',
  'cycle',
  'over-rated', // it was over its rated pressure: inspected before it is used again
  'damage',
  'repaired',
  'retired',
  'note',
] as const;
export type Condition = (typeof CONDITIONS)[number];

export const RESIN_KINDS = [
  'epoxy',
  'polyester',
  'vinyl-ester',
  'silicate',
  'polyurethane',
  'other',
] as const;
export type ResinKind = (typeof RESIN_KINDS)[number];

/** What the parts of resin and hardener are parts of. */
export const MIX_BASES = ['mass', 'volume'] as const;
export type MixBasis = (typeof MIX_BASES)[number];

/** What a resin sheet's cure time ends with. */
export const CRITERIA = ['let-down', 'hardness', 'unstated'] as const;
export type Criterion = (typeof CRITERIA)[number];

/** What a sheet's cure time counts from. */
export const COUNTS_FROM = ['mixing', 'placing', 'unstated'] as const;
export type CountsFrom = (typeof COUNTS_FROM)[number];

/** What makes a resin hard. Of one that light makes hard, time at temperature says nothing. */
export const CURED_BY = ['time', 'light'] as const;
export type CuredBy = (typeof CURED_BY)[number];

export const EXOTHERMS = ['low', 'medium', 'high', 'unknown'] as const;
export type Exotherm = (typeof EXOTHERMS)[number];

/** What a sensor measures. */
export const QUANTITIES = ['pressure', 'temperature'] as const;
export type Quantity = (typeof QUANTITIES)[number];

export const SIGNALS = ['current', 'ratio', 'voltage', 'digital', 'thermocouple'] as const;
export type Signal = (typeof SIGNALS)[number];

/** Types of IEC 60584-1. */
export const THERMOCOUPLES = ['K', 'J', 'T', 'N', 'E'] as const;
export type ThermocoupleType = (typeof THERMOCOUPLES)[number];

/** Tolerance classes of IEC 60584-1. */
export const THERMOCOUPLE_CLASSES = [1, 2] as const;
export type ThermocoupleClass = (typeof THERMOCOUPLE_CLASSES)[number];

export const GAUGE_KINDS = ['gauge', 'absolute', 'sealed'] as const;
export type GaugeKind = (typeof GAUGE_KINDS)[number];

/** Speeds at which a register map may be read, bits a second. */
export const BUS_BAUDS = [9600, 19_200, 38_400, 57_600, 115_200] as const;

/** Parity of a bus; without one there are two stop bits (Modbus over Serial Line V1.02, 2.5.1). */
export const PARITIES = ['even', 'odd', 'none'] as const;
export type Parity = (typeof PARITIES)[number];

/** Functions that read: 3 holding registers, 4 input registers. */
export const READ_FUNCTIONS = [3, 4] as const;
export type ReadFunction = (typeof READ_FUNCTIONS)[number];

/** What one or two registers hold. */
export const REGISTER_TYPES = ['int16', 'uint16', 'int32', 'uint32', 'float32'] as const;
export type RegisterType = (typeof REGISTER_TYPES)[number];
/** Registers that a value of the type takes. */
export const REGISTER_WORDS: { readonly [T in RegisterType]: 1 | 2 } = {
  int16: 1,
  uint16: 1,
  int32: 2,
  uint32: 2,
  float32: 2,
};

/** Which byte comes first on the line, the most significant being a. The standard has ab; of two registers it says nothing. */
export const WORD_ORDERS = ['abcd', 'cdab', 'badc', 'dcba'] as const;
export type WordOrder = (typeof WORD_ORDERS)[number];

/** What a number from a register or a column is told in. */
export const READING_UNITS = ['bar', 'mbar', 'Pa', 'kPa', 'MPa', 'psi', 'C', 'F', 'K'] as const;
export type ReadingUnit = (typeof READING_UNITS)[number];
/** What a unit is a unit of. */
export const UNIT_OF: { readonly [U in ReadingUnit]: Quantity } = {
  bar: 'pressure',
  mbar: 'pressure',
  Pa: 'pressure',
  kPa: 'pressure',
  MPa: 'pressure',
  psi: 'pressure',
  C: 'temperature',
  F: 'temperature',
  K: 'temperature',
};

/** Where a channel of a reading map is said to sit: a suggestion, as a device's own is. */
export const SUGGESTED_PLACES = ['not-said', 'packer', 'hose', 'supply', ...IN_PIPE] as const;
export type SuggestedPlace = (typeof SUGGESTED_PLACES)[number];

/** Speeds of a plain line, bits a second. */
export const LINE_BAUDS = [9600, 19_200, 38_400, 57_600, 115_200, 250_000, 500_000, 1_000_000] as const;

/** How the screen is coloured. */
export const THEMES = ['auto', 'light', 'dark', 'sun'] as const;

/** What a source is read for by its map. Without a pressure it is a second adapter's, beside a device that has one. */
export const mainQuantity = ({
  channels,
}: {
  readonly channels: readonly { readonly quantity: Quantity }[];
}): Quantity => (channels.some((c) => c.quantity === 'pressure') ? 'pressure' : 'temperature');
