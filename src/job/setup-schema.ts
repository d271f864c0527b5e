import * as z from 'zod/mini';
import { date, deviceId, id, int, line, num } from './fields.ts';
import { type Parsed, toIssues } from './issues.ts';
import { INFILTRATIONS, LINES, MATERIALS, PLACES, TAPS } from './job-document.ts';
import { REACTION_LIMITS } from './reaction.ts';
import { CRITERIA, EXOTHERMS } from './resin-document.ts';
import { GAUGE_KINDS, SIGNALS, THERMOCOUPLES } from './sensor-document.ts';
import type { Setup } from './setup.ts';

/** Setups are read back from logs and files: nothing in them is believed unchecked. */

const int32 = () => int(-2_147_483_648, 2_147_483_647);
const points = z
  .array(z.strictObject({ indicated: num(-300, 2000), reference: num(-300, 2000) }))
  .check(z.maxLength(11));

const calibration = z.strictObject({
  deviceId: deviceId(),
  channel: int(0, 6),
  sensorSerial: line(60),
  date: date(),
  asFound: points,
  asLeft: points,
  offset: num(-100, 100),
  gain: num(0.1, 10),
  uReference: num(0, 10),
  uResidual: num(0, 100),
});

const channel = z.strictObject({
  index: int(0, 6),
  role: z.enum(['pressure', 'temperature', 'supply', 'junction', 'unused']),
  place: z.nullable(z.enum(PLACES)),
  signal: z.enum(SIGNALS),
  thermocouple: z.nullable(z.enum(THERMOCOUPLES)),
  thermocoupleClass: z.nullable(z.union([z.literal(1), z.literal(2)])),
  gaugeKind: z.nullable(z.enum(GAUGE_KINDS)),
  partner: z.nullable(int(0, 6)),
  bits: int(8, 32),
  rawLo: int32(),
  rawHi: int32(),
  elLo: int32(),
  elHi: int32(),
  spanElLo: num(-2_147_483_648, 2_147_483_647),
  spanElHi: num(-2_147_483_648, 2_147_483_647),
  rangeLo: num(-10_000, 10_000),
  rangeHi: num(-10_000, 10_000),
  calibration: z.nullable(calibration),
  uSensor: num(0, 1000),
  sensorSerial: z.optional(line(60)),
});

/** A rule between two members; the issue is laid at `path`. */
const agree = (path: string) => ({ params: { code: 'pair' }, path: [path] });

const limits = z
  .strictObject({
    ratedBar: num(0.01, 30),
    uBar: num(0, 10),
    ceilingBar: num(0, 30),
    workingBar: num(0, 30),
    seatBar: z.nullable(num(0, 30)),
    floorBar: z.nullable(num(0, 30)),
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
  criterion: z.enum(CRITERIA),
  points: z.array(z.strictObject({ c: num(-50, 200), minutes: num(0.1, 100_000) })).check(z.maxLength(12)),
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
  channels: z.array(channel).check(z.maxLength(7)),
  air: z.strictObject({
    bar: num(0.4, 1.2),
    uBar: num(0, 0.5),
    source: z.enum(['sensor', 'altitude', 'typed', 'assumed']),
  }),
  ground: z.nullable(z.strictObject({ c: num(-50, 100), uC: num(0, 100) })),
  infiltration: z.exactOptional(z.enum(INFILTRATIONS)),
  volume: z.nullable(z.strictObject({ litres: num(0.0001, 100_000), uLitres: num(0, 100_000) })),
  pipe: z.nullable(
    z.strictObject({
      innerMm: num(10, 5000),
      wallMm: z.nullable(num(0.1, 1000)),
      material: z.enum(MATERIALS),
      sleeveMm: z.nullable(num(0.05, 300)),
    }),
  ),
  resin: z.nullable(resin),
  reaction: z.strictObject({
    handS: num(REACTION_LIMITS.handS.lo, REACTION_LIMITS.handS.hi),
    closeS: num(REACTION_LIMITS.closeS.lo, REACTION_LIMITS.closeS.hi),
  }),
  gaugeUBar: z.optional(num(0, 5)),
  rateHz: num(0.01, 10_000),
});

// Both ways, so that neither the contract nor the schema can drift from the other unseen.
type Frozen<T> = T extends object ? { readonly [K in keyof T]: Frozen<T[K]> } : T;
type Same<A, B> = [A] extends [B] ? ([B] extends [A] ? true : never) : never;
const SAME: Same<Frozen<z.infer<typeof setupSchema>>, Frozen<Setup>> = true;
void SAME;

/** Checks anything that claims to be a Setup. Never throws. */
export function parseSetup(input: unknown): Parsed<Setup> {
  const result = setupSchema.safeParse(input, { reportInput: true });
  return result.success
    ? { ok: true, value: result.data }
    : { ok: false, issues: toIssues(result.error.issues) };
}
