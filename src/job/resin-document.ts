import * as z from 'zod/mini';
import { COUNTS_FROM, CRITERIA, CURED_BY, EXOTHERMS, MIX_BASES, RESIN_KINDS } from './codes.ts';
import { ascending, block, date, line, name, num, quantity, rows } from './fields.ts';
import type { StepsTo } from './migrations.ts';

/** A resin as its data sheet describes it. Cure time and pot life are different tables: never one fit. */

/** Version 1 knew no resin but those that cure by time and temperature; version 2 did not ask what the sheet's time counts from; version 3 knew no witness cup. */
export const resinMigrations: StepsTo<ResinDocument['version']> = [
  (old) => ({ ...old, curedBy: 'time' }),
  (old) => ({ ...old, countsFrom: 'unstated' }),
  (old) => ({ ...old, cupMarks: [] }),
];

export const resinSchema = z.strictObject({
  version: z.literal(4),
  name: name(120),
  kind: z.enum(RESIN_KINDS),
  /** Parts of resin and hardener, and what they are parts of. */
  mix: z.strictObject({
    resinParts: num(0.01, 1000),
    hardenerParts: num(0, 1000),
    basis: z.enum(MIX_BASES),
  }),
  /** Densities, kg/m³, for a ratio by volume; mixed for filling. */
  resinDensity: z.nullable(num(500, 3000, 'kg/m³')),
  hardenerDensity: z.nullable(num(500, 3000, 'kg/m³')),
  mixedDensity: z.nullable(num(500, 3000, 'kg/m³')),
  curedBy: z.enum(CURED_BY),
  /** What the sheet's cure time ends with. */
  criterion: z.enum(CRITERIA),
  /** What it counts from: time before seating is earned only where that is mixing. */
  countsFrom: z.enum(COUNTS_FROM),
  curePoints: ascending(
    z.strictObject({ c: quantity('temperature', -20, 120), minutes: num(1, 20_000, 'min') }),
    'c',
    12,
  ),
  /** Lowest temperature the sheet allows, °C; null: the coldest point. */
  lowestC: z.nullable(quantity('temperature', -20, 60)),
  /** Pot life of a stated mass in a cup. */
  potLife: ascending(
    z.strictObject({ c: quantity('temperature', -20, 80), minutes: num(0.5, 2000, 'min') }),
    'c',
    12,
  ),
  /** Mass to which the pot life applies, g. */
  potMassG: z.nullable(quantity('mass', 1, 100_000)),
  /**
   * What witness cups of batches that were accepted, or of a reference mixed with scales, have shown by this sheet's times: mass in the cup, g; the
   * sheet's time at the cup's temperature at the greatest heat (1 = all of it); and by how much it warmed, K.
   */
  cupMarks: rows(
    z.strictObject({
      massG: quantity('mass', 20, 5000),
      mark: num(0.02, 3),
      riseK: quantity('temperatureDifference', 0, 250),
      /** The run whose review kept it; left out where it was typed. */
      runId: z.exactOptional(line(64)),
    }),
    20,
  ),
  exotherm: z.enum(EXOTHERMS),
  /** Expected rise of the air in the packer by the exotherm, K. */
  expectedRiseK: z.nullable(quantity('temperatureDifference', 0, 100)),
  /** Batch on the shelf and when it expires. */
  batch: z.strictObject({ resin: line(60), hardener: line(60), expires: z.nullable(date()) }),
  notes: block(2000),
});

export type ResinDocument = z.infer<typeof resinSchema>;

export function blankResin(name: string): ResinDocument {
  return {
    version: 4,
    name,
    kind: 'other',
    mix: { resinParts: 100, hardenerParts: 50, basis: 'mass' },
    resinDensity: null,
    hardenerDensity: null,
    mixedDensity: null,
    curedBy: 'time',
    criterion: 'unstated',
    countsFrom: 'unstated',
    curePoints: [],
    lowestC: null,
    potLife: [],
    potMassG: null,
    cupMarks: [],
    exotherm: 'unknown',
    expectedRiseK: null,
    batch: { resin: '', hardener: '', expires: null },
    notes: '',
  };
}
