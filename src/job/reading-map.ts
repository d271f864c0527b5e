import * as z from 'zod/mini';
import {
  BUS_BAUDS,
  LINE_BAUDS,
  PARITIES,
  QUANTITIES,
  type Quantity,
  READ_FUNCTIONS,
  READING_UNITS,
  REGISTER_TYPES,
  REGISTER_WORDS,
  type ReadingUnit,
  SUGGESTED_PLACES,
  UNIT_OF,
  WORD_ORDERS,
} from './codes.ts';
import { block, deviceId, int, line, name, num, rows } from './fields.ts';
import type { StepsTo } from './migrations.ts';

/**
 * Reading maps: which registers of a bus, or which columns of a plain line, are which channels. A source that is read by
 * one does not speak the device protocol and cannot say by itself what it sends; the map says it in its place, and stands
 * in the record beside the readings that were made by it.
 */

/** What a number measures, wherever it comes from. Its value is (offset + scale * number) in `unit`. */
const channel = {
  quantity: z.enum(QUANTITIES),
  /** A suggestion, as a device's is. */
  place: z.enum(SUGGESTED_PLACES),
  unit: z.enum(READING_UNITS),
  scale: num(-1e6, 1e6),
  offset: num(-1e6, 1e6),
  /** The sensor's span, bar or °C: what lies beyond it is no reading. */
  lo: num(-300, 2000),
  hi: num(-300, 2000),
};

interface Measure {
  readonly quantity: Quantity;
  readonly unit: ReadingUnit;
  readonly scale: number;
  readonly lo: number;
  readonly hi: number;
}

const at = (code: string, path: string) => ({ params: { code }, path: [path] });

const unitFits = z.refine<Measure>((c) => UNIT_OF[c.unit] === c.quantity, at('pair', 'unit'));
const spanRises = z.refine<Measure>((c) => c.hi > c.lo, at('pair', 'hi'));
const scaleIsOne = z.refine<Measure>((c) => c.scale !== 0, at('pair', 'scale'));

/** Registers are numbered from 0 to this. */
const LAST_REGISTER = 0xffff;
const registerChannel = z
  .strictObject({
    ...channel,
    /** Address of the unit on the bus (Modbus over Serial Line V1.02, 2.2). */
    address: int(1, 247),
    fn: z.literal([...READ_FUNCTIONS]),
    /** Of the first register, counted from 0 as it goes over the line. */
    register: int(0, LAST_REGISTER),
    type: z.enum(REGISTER_TYPES),
    order: z.enum(WORD_ORDERS),
    /** The unit measures anew so often, ms: asking more often gives the same number again. */
    everyMs: int(10, 60_000),
    /** A register that says whether the value holds: it does where (register AND mask) is good. null: there is none. */
    status: z.nullable(
      z.strictObject({ register: int(0, LAST_REGISTER), mask: int(0, 0xffff), good: int(0, 0xffff) }),
    ),
  })
  .check(
    unitFits,
    spanRises,
    scaleIsOne,
    z.refine((c) => c.register + REGISTER_WORDS[c.type] - 1 <= LAST_REGISTER, at('past-end', 'register')),
    // Bits outside the mask are never seen: such a value would never hold.
    z.refine((c) => c.status === null || (c.status.good & ~c.status.mask) === 0, at('pair', 'status')),
  );
export type RegisterChannel = z.infer<typeof registerChannel>;

/** The first row that reads registers which another row reads as another value; null: none. */
export function overlapping(channels: readonly RegisterChannel[]): number | null {
  const end = (c: RegisterChannel): number => c.register + REGISTER_WORDS[c.type] - 1;
  const meets = (a: RegisterChannel, b: RegisterChannel): boolean =>
    a.address === b.address && a.fn === b.fn && a.register <= end(b) && b.register <= end(a);
  const inStatus = (a: RegisterChannel, b: RegisterChannel): boolean =>
    b.status !== null &&
    a.address === b.address &&
    a.fn === b.fn &&
    b.status.register >= a.register &&
    b.status.register <= end(a);
  const found = channels.findIndex((c, i) =>
    channels.some((d, k) => (k < i && meets(c, d)) || inStatus(c, d)),
  );
  return found < 0 ? null : found;
}

const oneRow = z.minLength(1);

export const registerMapSchema = z.strictObject({
  version: z.literal(1),
  is: z.literal('registers'),
  name: name(120),
  /** By this name the source is known, as a device is by its own: calibrations and runs belong to it. */
  deviceId: deviceId(),
  baud: z.literal([...BUS_BAUDS]),
  parity: z.enum(PARITIES),
  /** So long is an answer waited for, ms. */
  answerMs: int(20, 2000),
  /** After no answer, or a garbled one, it is asked so often again. */
  retries: int(0, 3),
  channels: rows(registerChannel, 7).check(
    oneRow,
    z.refine((all) => overlapping(all) === null, { params: { code: 'overlap' } }),
  ),
  notes: block(2000),
});
export type RegisterMap = z.infer<typeof registerMapSchema>;
export const registerMapMigrations: StepsTo<RegisterMap['version']> = [];

const columnChannel = z
  .strictObject({
    ...channel,
    /** Name before the '='; empty: the column counts. */
    key: line(40),
    /** Counted from 1 in lines of numbers alone, and among the pairs of a line where names are left out. */
    column: z.nullable(int(1, 40)),
  })
  .check(
    unitFits,
    spanRises,
    scaleIsOne,
    z.refine((c) => (c.key === '') !== (c.column === null), at('pair', 'column')),
  );
export type ColumnChannel = z.infer<typeof columnChannel>;

const taken = (all: readonly ColumnChannel[]): boolean =>
  new Set(all.map((c) => `${c.key}\n${c.column}`)).size === all.length;

export const columnMapSchema = z
  .strictObject({
    version: z.literal(1),
    is: z.literal('columns'),
    name: name(120),
    deviceId: deviceId(),
    baud: z.literal([...LINE_BAUDS]),
    /** The mark before the decimals. With a comma columns are parted by blanks, tabs or semicolons alone. */
    decimal: z.enum(['point', 'comma']),
    /** So many columns has a line; one with another number is not read: nobody knows which column came or went. null: names say it. */
    cells: z.nullable(int(1, 40)),
    channels: rows(columnChannel, 7).check(oneRow, z.refine(taken, { params: { code: 'duplicate' } })),
    notes: block(2000),
  })
  .check(
    z.refine(
      (m) => m.channels.every((c) => c.column === null || (m.cells !== null && c.column <= m.cells)),
      at('pair', 'cells'),
    ),
  );
export type ColumnMap = z.infer<typeof columnMapSchema>;
export const columnMapMigrations: StepsTo<ColumnMap['version']> = [];

export type ReadingMap = RegisterMap | ColumnMap;
export type MapKind = ReadingMap['is'];
export type MapChannel = ReadingMap['channels'][number];

/** A gauge pressure in one float register, to be edited. The speed and parity are the standard's defaults. */
export const blankRegisterMap = (called: string): RegisterMap => ({
  version: 1,
  is: 'registers',
  name: called,
  deviceId: 'BUS-1',
  baud: 19_200,
  parity: 'even',
  answerMs: 100,
  retries: 1,
  channels: [blankRegister('pressure')],
  notes: '',
});

export const blankRegister = (quantity: Quantity): RegisterChannel => ({
  ...blankMeasure(quantity),
  address: 1,
  fn: 3,
  register: 0,
  type: 'float32',
  order: 'abcd',
  everyMs: quantity === 'pressure' ? 50 : 1000,
  status: null,
});

/** The first column of a line is a gauge pressure in bar. */
export const blankColumnMap = (called: string): ColumnMap => ({
  version: 1,
  is: 'columns',
  name: called,
  deviceId: 'LINE-1',
  baud: 115_200,
  decimal: 'point',
  cells: 1,
  channels: [{ ...blankMeasure('pressure'), key: '', column: 1 }],
  notes: '',
});

export const blankMeasure = (quantity: Quantity) =>
  ({
    quantity,
    place: 'not-said',
    unit: quantity === 'pressure' ? 'bar' : 'C',
    scale: 1,
    offset: 0,
    lo: 0,
    hi: quantity === 'pressure' ? 4 : 150,
  }) as const;
