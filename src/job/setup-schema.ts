import * as z from 'zod/mini';
import { AIR_TEST_METHODS } from './air-test.ts';
import { isBeside, LAST_CHANNEL } from './beside.ts';
import {
  AIR_SOURCES,
  COUNTS_FROM,
  CRITERIA,
  CURED_BY,
  EXOTHERMS,
  GAUGE_KINDS,
  HEATINGS,
  INFILTRATIONS,
  LINES,
  MATERIALS,
  PLACES,
  ROLES,
  SIGNALS,
  TAPS,
  THERMOCOUPLE_CLASSES,
  THERMOCOUPLES,
  WETNESSES,
} from './codes.ts';
import { describe } from './describe.ts';
import { MOST_BAR } from './entries.ts';
import { date, deviceId, id, int, line, num, rows } from './fields.ts';
import { type Parsed, toIssues } from './issues.ts';
import { isPressureRole } from './pressure-roles.ts';
import { calibrationPoints } from './sensor-document.ts';
import { reactionSchema } from './settings-document.ts';
import type { Setup } from './setup.ts';

/**
 * Setups are read back from logs and files: nothing in them is believed unchecked. Bounds are wide enough for whatever
 * the plan makes of documents at the ends of theirs (plan/setup-ends.test.ts).
 */

const INT32 = { lo: -2_147_483_648, hi: 2_147_483_647 } as const;
const int32 = () => int(INT32.lo, INT32.hi);

const calibration = z.strictObject({
  deviceId: deviceId(),
  channel: int(0, 6),
  sensorSerial: line(60),
  date: date(),
  asFound: calibrationPoints(),
  asLeft: calibrationPoints(),
  offset: num(-100, 100),
  gain: num(0.1, 10),
  uReference: num(0, 10),
  uResidual: num(0, 100),
});

const channel = z
  .strictObject({
    index: int(0, LAST_CHANNEL),
    role: z.enum(ROLES),
    place: z.nullable(z.enum(PLACES)),
    signal: z.enum(SIGNALS),
    thermocouple: z.nullable(z.enum(THERMOCOUPLES)),
    thermocoupleClass: z.nullable(z.literal([...THERMOCOUPLE_CLASSES])),
    gaugeKind: z.nullable(z.enum(GAUGE_KINDS)),
    partner: z.nullable(int(0, LAST_CHANNEL)),
    bits: int(8, 32),
    rawLo: int32(),
    rawHi: int32(),
    elLo: int32(),
    elHi: int32(),
    spanElLo: num(INT32.lo, INT32.hi),
    spanElHi: num(INT32.lo, INT32.hi),
    rangeLo: num(-10_000, 10_000),
    rangeHi: num(-10_000, 10_000),
    calibration: z.nullable(calibration),
    uSensor: num(0, 1000),
    perKelvin: z.exactOptional(num(0, 0.01)),
    sensorSerial: z.optional(line(60)),
  })
  // The second adapter serves for temperatures: a pressure of it would be guarded by a device that is not armed.
  .check(
    z.refine((c) => !isBeside(c.index) || !isPressureRole(c.role), {
      params: { code: 'pair' },
      path: ['role'],
    }),
  );

/** A rule between two members; the issue is laid at `path`. */
const agree = (path: string) => ({ params: { code: 'pair' }, path: [path] });

const limits = z
  .strictObject({
    ratedBar: num(0.01, MOST_BAR),
    uBar: num(0, 1_000_000),
    ceilingBar: num(0, MOST_BAR),
    workingBar: num(0, MOST_BAR),
    seatBar: z.nullable(num(0, MOST_BAR)),
    floorBar: z.nullable(num(0, MOST_BAR)),
    headBar: z.nullable(num(0, 10)),
    freeInflationBar: z.nullable(num(0, 20)),
    seatingMarginBar: num(0, 10),
    noMargin: z.nullable(z.strictObject({ reason: line(300) })),
    cue: z.boolean(),
  })
  .check(
    z.refine((l) => l.ceilingBar <= l.ratedBar, agree('ceilingBar')),
    z.refine((l) => l.workingBar <= l.ceilingBar, agree('workingBar')),
  );

const resin = z.strictObject({
  name: line(120),
  curedBy: z.exactOptional(z.enum(CURED_BY)),
  criterion: z.enum(CRITERIA),
  countsFrom: z.exactOptional(z.enum(COUNTS_FROM)),
  potC: z.exactOptional(num(-50, 200)),
  cup: z.exactOptional(
    z.strictObject({
      massG: num(1, 100_000),
      mark: z.nullable(
        z.strictObject({
          age: num(0.001, 10),
          scatter: num(0.001, 1),
          riseK: num(0, 300),
          batches: int(1, 1000),
        }),
      ),
    }),
  ),
  points: rows(z.strictObject({ c: num(-50, 200), minutes: num(0.1, 100_000) }), 12),
  lowestC: z.nullable(num(-50, 100)),
  potLifeMin: z.nullable(num(0, 10_000)),
  exotherm: z.enum(EXOTHERMS),
  expectedRiseK: z.nullable(num(0, 200)),
});

export const setupSchema = z.strictObject({
  number: int(0, 1_000_000),
  practice: z.boolean(),
  jobId: z.nullable(id()),
  limits: z.nullable(limits),
  tap: z.enum(TAPS),
  line: z.enum(LINES),
  channels: rows(channel, LAST_CHANNEL + 1),
  besideId: z.exactOptional(deviceId()),
  air: z.strictObject({
    bar: num(0.4, 1.2),
    uBar: num(0, 0.5),
    source: z.enum(AIR_SOURCES),
  }),
  ground: z.nullable(z.strictObject({ c: num(-50, 100), uC: num(0, 100) })),
  infiltration: z.exactOptional(z.enum(INFILTRATIONS)),
  heating: z.exactOptional(z.enum(HEATINGS)),
  wetness: z.exactOptional(z.enum(WETNESSES)),
  inspectFirst: z.exactOptional(z.boolean()),
  sharedLine: z.exactOptional(z.boolean()),
  airTest: z.exactOptional(
    z.strictObject({
      method: z.enum(AIR_TEST_METHODS),
      mm: num(10, 5000),
      lengthM: z.nullable(num(0.1, 2000)),
      headBar: z.nullable(num(0, 10)),
    }),
  ),
  volume: z.nullable(z.strictObject({ litres: num(0.0001, 100_000), uLitres: num(0, 100_000) })),
  pipe: z.nullable(
    z.strictObject({
      innerMm: num(10, 5000),
      wallMm: z.nullable(num(0.1, 1000)),
      material: z.enum(MATERIALS),
      sleeveMm: z.nullable(num(0.05, 1000)),
    }),
  ),
  resin: z.nullable(resin),
  reaction: reactionSchema,
  gaugeUBar: z.optional(num(0, 5)),
  rateHz: num(0.01, 10_000),
});

// Both ways, so that neither the contract nor the schema can drift from the other unseen.
export type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;
export type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
const SAME: Same<Frozen<z.infer<typeof setupSchema>>, Frozen<Setup>> = true;
void SAME;

const FIELDS = describe(setupSchema);

/** Checks anything that claims to be a Setup. Never throws. */
export function parseSetup(input: unknown): Parsed<Setup> {
  const result = setupSchema.safeParse(input, { reportInput: true });
  return result.success
    ? { ok: true, value: result.data }
    : { ok: false, issues: toIssues(result.error.issues, FIELDS) };
}
