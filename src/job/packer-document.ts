import * as z from 'zod/mini';
import { CONDITIONS, PLATES } from './codes.ts';
import { ascending, block, date, id, int, line, name, num, quantity, rows } from './fields.ts';
import type { StepsTo } from './migrations.ts';

/** A packer. Diameters are inner diameters of the pipe that it is allowed to grow to, mm. */

const diameter = () => quantity('length', 20, 2000);

const logEntry = z.strictObject({
  date: date(),
  what: z.enum(CONDITIONS),
  /** Peak pressure of the cycle, bar; leak, mbar/min; minutes inflated. */
  peakBar: z.nullable(quantity('pressure', 0, 30)),
  leakMbarPerMin: z.nullable(quantity('pressureRate', -100, 1000)),
  minutes: z.nullable(num(0, 10_000, 'min')),
  by: line(80),
  note: line(300),
  /** The run that it was logged for. */
  runId: z.optional(id()),
});
export type ConditionEntry = z.infer<typeof logEntry>;

/** A new version adds its step, and a test that reads the older one. */
export const packerMigrations: StepsTo<PackerDocument['version']> = [];

export const packerSchema = z.strictObject({
  version: z.literal(1),
  name: name(120),
  serial: line(60),
  sizes: z
    .strictObject({ minMm: diameter(), maxMm: diameter() })
    .check(z.refine((s) => s.maxMm >= s.minMm, { params: { code: 'pair' }, path: ['maxMm'] })),
  /** What the plate calls its pressure; 'working' is taken as the maximum too. */
  plate: z.enum(PLATES),
  /** Maximum gauge pressure by diameter, bar. Between two rows the lower value counts. */
  ratings: ascending(
    z.strictObject({ diameterMm: diameter(), ratedBar: quantity('pressure', 0.05, 20) }),
    'diameterMm',
    16,
  ),
  /** The highest rating, bar, for which somebody read the plate again; asked for over PLAIN_RATED_BAR. */
  plateReadBar: z.optional(z.nullable(quantity('pressure', 0.05, 20))),
  /** Usable length between its marks by diameter, mm. */
  usable: ascending(
    z.strictObject({ diameterMm: diameter(), lengthMm: quantity('length', 10, 20_000) }),
    'diameterMm',
    16,
  ),
  /** Pressure that the free packer needs to reach the diameter, bar. */
  freeInflation: ascending(
    z.strictObject({ diameterMm: diameter(), bar: quantity('pressure', 0, 10) }),
    'diameterMm',
    16,
  ),
  /** Gas volume by diameter, litres. */
  volume: ascending(
    z.strictObject({ diameterMm: diameter(), litres: quantity('volume', 0.01, 20_000) }),
    'diameterMm',
    16,
  ),
  /** Setting of its relief valve, bar; null: none. */
  reliefBar: z.nullable(quantity('pressure', 0.05, 25)),
  retired: z.boolean(),
  conditions: rows(logEntry, 1000),
  /** Cycles before the log began. */
  earlierCycles: int(0, 1_000_000),
  notes: block(2000),
});

export type PackerDocument = z.infer<typeof packerSchema>;

/**
 * Packers are seldom rated higher, bar: small ones work at 1.5-2.5 bar, bigger ones at less (common practice, no
 * source). Over it a slip of the keys is likelier than a plate, 18 for 1.8 or psi for bar.
 */
export const PLAIN_RATED_BAR = 6;

/** The highest rating of its table, bar; 0 without one. A row that is still being typed counts for nothing. */
export const highestRating = (packer: Pick<PackerDocument, 'ratings'>): number =>
  Math.max(0, ...packer.ratings.map((r) => r.ratedBar).filter((bar) => !Number.isNaN(bar)));

/** The highest rating over what is usual for which nobody read the plate again, bar; null: none. */
export function unreadRating(packer: Pick<PackerDocument, 'ratings' | 'plateReadBar'>): number | null {
  const highest = highestRating(packer);
  return highest > Math.max(PLAIN_RATED_BAR, packer.plateReadBar ?? 0) ? highest : null;
}

export function blankPacker(name: string): PackerDocument {
  return {
    version: 1,
    name,
    serial: '',
    sizes: { minMm: 100, maxMm: 200 },
    plate: 'maximum',
    ratings: [],
    usable: [],
    freeInflation: [],
    volume: [],
    reliefBar: null,
    retired: false,
    conditions: [],
    earlierCycles: 0,
    notes: '',
  };
}
