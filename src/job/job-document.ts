import * as z from 'zod/mini';
import { LAST_CHANNEL } from './beside.ts';
import { answersSchema } from './check-answers.ts';
import { CAUTIONS } from './checklist.ts';
import { builtInChecklist, keptChecklistSchema } from './checklist-document.ts';
import {
  AIR_TESTS,
  DEFECTS,
  HEATINGS,
  INFILTRATIONS,
  LINES,
  MATERIALS,
  PACKERS_ON_LINE,
  PLACES,
  ROLES,
  TAPS,
  WETNESSES,
} from './codes.ts';
import { block, date, deviceId, distinct, id, int, line, name, num, quantity } from './fields.ts';
import { isBody, type StepsTo } from './migrations.ts';

/**
 * The job sheet. Nearly everything may be null: a crew must be able to start in three presses and fill in the rest
 * during the cure. What is missing is said by the plan, never guessed.
 */

const some = <T extends z.ZodMiniType>(schema: T) => z.nullable(schema);

/** Which sensor sits on which channel, and where. */
const assignment = z.strictObject({
  /** Those of a second adapter are numbered on (beside.ts). */
  channel: int(0, LAST_CHANNEL),
  role: z.enum(ROLES),
  /** Temperature only: an unnamed place earns no cure credit. */
  place: some(z.enum(PLACES)),
  sensorId: some(id()),
});
export type ChannelAssignment = z.infer<typeof assignment>;

/** In the order of AIR_SOURCES. */
const air = z.discriminatedUnion('source', [
  /** Nothing known: sea level, wide. */
  z.strictObject({ source: z.literal('assumed') }),
  /** Standard air at the altitude above sea level, m. */
  z.strictObject({ source: z.literal('altitude'), altitudeM: quantity('distance', -450, 5000) }),
  /** Typed from a barometer or weather report at the site, bar absolute (not reduced to sea level). */
  z.strictObject({ source: z.literal('typed'), bar: num(0.5, 1.1, 'bar'), uBar: num(0, 0.1, 'bar') }),
  /** Read from an absolute sensor at zero. */
  z.strictObject({ source: z.literal('sensor'), bar: num(0.5, 1.1, 'bar'), uBar: num(0, 0.1, 'bar') }),
]);

/** Inputs of the thickness check after ASTM F1216 Appendix X1 (a check for an engineer, not a design). */
const thickness = z.strictObject({
  thicknessMm: num(0.1, 200, 'mm'),
  /** Flexural modulus, short term, and strength, MPa. */
  modulusMPa: num(100, 100_000, 'MPa'),
  strengthMPa: num(1, 1000, 'MPa'),
  /** Long-term modulus as a share of the short-term one. */
  longTermShare: num(0.05, 1),
  safetyFactor: num(1, 10),
  poisson: num(0, 0.49),
  /** Enhancement factor K of the surrounding soil and host pipe; 7 is the appendix's minimum recommendation. */
  enhancement: num(1, 20),
  ovalityPercent: num(0, 20, '%'),
});
export type ThicknessInputs = z.infer<typeof thickness>;

const sleeve = z.strictObject({
  /** Sound pipe covered past each end of the defect, mm. */
  endOverlapMm: quantity('length', 0, 2000),
  /** Lap round the circumference at the cut's edge, mm a layer. */
  lapMm: quantity('length', 0, 1000),
  layers: int(1, 12),
  /** Thickness of one wet layer, pressed, mm. */
  layerMm: some(quantity('length', 0.1, 50)),
  /** Areal weight of the dry fabric, g/m² a layer. */
  fabricGM2: some(num(50, 10_000, 'g/m²')),
  /** Mixed resin to dry fabric, by mass. */
  resinRatio: some(num(0.1, 10)),
  wastePercent: num(0, 100, '%'),
});

/** Version 1 did not ask for infiltration: nobody looked. Version 2 did not ask whether the packer is warmed,
 * version 3 not for water in the line and for a second packer on it;
 * version 4 knew one pressure channel, version 5 no witness cup, version 6 no second adapter. Version 7 had ticks of one list
 * that was the program's, and neither their times nor who set them. */
export const jobMigrations: StepsTo<JobDocument['version']> = [
  (old) => ({
    ...old,
    ...(isBody(old.defect) ? { defect: { ...old.defect, infiltration: 'not-looked' } } : {}),
  }),
  (old) => ({ ...old, heating: { by: 'unknown', toC: null } }),
  (old) => ({ ...old, wetness: 'unknown', packersOnLine: 'one', otherRatedBar: null }),
  (old) => old,
  (old) => ({ ...old, ...(isBody(old.resin) ? { resin: { ...old.resin, cupMassG: null } } : {}) }),
  (old) => old,
  ({ checks, ...old }) => ({
    ...old,
    checklist: builtInChecklist(),
    answers: Array.isArray(checks)
      ? [...new Set<unknown>(checks)].map((item) => ({ item, how: 'done', text: '', atUtcMs: null, by: '' }))
      : checks,
  }),
];

export const jobSchema = z.strictObject({
  version: z.literal(8),
  /** What is repaired, in one line. */
  title: name(120),
  date: some(date()),
  site: line(200),
  client: line(200),
  /** The client's order or section number. */
  reference: line(80),
  /** Initials of the crew, free text. */
  crew: line(80),
  defect: z.strictObject({
    kind: z.enum(DEFECTS),
    /** Distance from the starting manhole to the middle of the defect, m. */
    chainageM: some(quantity('distance', 0, 10_000)),
    lengthMm: some(quantity('length', 0, 20_000)),
    /** Water seen coming in on the camera; none seen is no proof of a dry wall. */
    infiltration: z.enum(INFILTRATIONS),
  }),
  pipe: z.strictObject({
    /** Nominal size. */
    dn: some(int(40, 2000)),
    /** Measured inner diameter, mm. */
    innerMm: some(quantity('length', 30, 2000)),
    wallMm: some(quantity('length', 0.5, 300)),
    material: z.enum(MATERIALS),
  }),
  ground: z.strictObject({
    /** Groundwater level above the invert, m; 0 is dry, null is not known. */
    waterM: some(quantity('distance', 0, 30)),
    /** Temperature of the ground or of the pipe wall, °C, with its expanded uncertainty (k = 2), K. */
    temperatureC: some(quantity('temperature', -10, 50)),
    uC: some(quantity('temperatureDifference', 0, 15)),
  }),
  packerId: some(id()),
  resin: z.strictObject({
    resinId: some(id()),
    resinBatch: line(60),
    hardenerBatch: line(60),
    /** Temperature at which it is mixed, °C. */
    mixC: some(quantity('temperature', -10, 60)),
    /** Mixed resin in the witness cup, g. */
    cupMassG: some(quantity('mass', 20, 5000)),
  }),
  /** What warms the packer from outside, and the temperature that it is to bring the packer to, °C. */
  heating: z.strictObject({ by: z.enum(HEATINGS), toC: some(quantity('temperature', 0, 150)) }),
  device: z.strictObject({
    deviceId: some(deviceId()),
    channels: distinct(assignment, 'channel', LAST_CHANNEL + 1),
    rateHz: num(0.1, 1000, 'Hz'),
  }),
  tap: z.enum(TAPS),
  line: z.enum(LINES),
  /** Liquid water in hose or packer. */
  wetness: z.enum(WETNESSES),
  packersOnLine: z.enum(PACKERS_ON_LINE),
  /** The other packer's maximum pressure at its own diameter, bar; null: not known. */
  otherRatedBar: some(quantity('pressure', 0.05, 25)),
  pressures: z.strictObject({
    /** Hold pressure, bar gauge; null: as the plan proposes. */
    workingBar: some(quantity('pressure', 0.05, 20)),
    seatBar: some(quantity('pressure', 0.05, 5)),
    /** Kept above head and free inflation, bar. */
    seatingMarginBar: quantity('pressure', 0, 2),
    /** Why the crew works at the rated value; null: it does not. */
    noMarginReason: some(name(300)),
    /** Set value of the relief valve on the line, bar; null: none fitted or not known. */
    reliefBar: some(quantity('pressure', 0.05, 25)),
  }),
  /** Length and inner diameter of the inflation hose, for the volume of gas. */
  hose: some(z.strictObject({ lengthM: quantity('distance', 0, 500), innerMm: quantity('length', 1, 100) })),
  air,
  sleeve,
  thickness: some(thickness),
  airTest: z.strictObject({
    method: z.enum(AIR_TESTS),
    /** Length of pipe between the test plugs, m. */
    lengthM: some(quantity('distance', 0.1, 2000)),
  }),
  /** Minutes from mixing to seated that the crew expects (wet-out, wrapping, placing). */
  handlingMin: some(num(0, 600, 'min')),
  /** The list in force when the sheet was opened. */
  checklist: keptChecklistSchema,
  answers: answersSchema,
  cautions: z.array(z.enum(CAUTIONS)).check(z.maxLength(CAUTIONS.length)),
  notes: block(4000),
});

export type JobDocument = z.infer<typeof jobSchema>;

/** An empty sheet with the trade's usual start values; the title is the caller's. */
export function blankJob(title: string): JobDocument {
  return {
    version: 8,
    title,
    date: null,
    site: '',
    client: '',
    reference: '',
    crew: '',
    defect: { kind: 'other', chainageM: null, lengthMm: null, infiltration: 'not-looked' },
    pipe: { dn: null, innerMm: null, wallMm: null, material: 'unknown' },
    ground: { waterM: null, temperatureC: null, uC: null },
    packerId: null,
    resin: { resinId: null, resinBatch: '', hardenerBatch: '', mixC: null, cupMassG: null },
    heating: { by: 'unknown', toC: null },
    device: { deviceId: null, channels: [], rateHz: 20 },
    tap: 'unknown',
    line: 'unknown',
    wetness: 'unknown',
    packersOnLine: 'one',
    otherRatedBar: null,
    pressures: {
      workingBar: null,
      seatBar: 0.4, // 0.3-0.5 bar is common practice
      seatingMarginBar: 0.2,
      noMarginReason: null,
      reliefBar: null,
    },
    hose: null,
    air: { source: 'assumed' },
    sleeve: {
      endOverlapMm: 150, // 100-200 mm is common practice
      lapMm: 50,
      layers: 2,
      layerMm: null,
      fabricGM2: null,
      resinRatio: null,
      wastePercent: 10,
    },
    thickness: null,
    airTest: { method: 'none', lengthM: null },
    handlingMin: null,
    checklist: builtInChecklist(),
    answers: [],
    cautions: [],
    notes: '',
  };
}
