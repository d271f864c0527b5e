import * as z from 'zod/mini';
import { LINES, TAPS } from '../job/codes.ts';
import { ALARMS, GAP_REASONS, PRIORITIES, STAGES } from '../watch/codes.ts';
import { LEAK_VERDICTS } from '../watch/events.ts';

/**
 * RESULT of the replay command. Times are seconds from the first sample; pressures are bar gauge; null stands
 * where something does not apply or cannot be told. docs/replay.md says each in words.
 */

export const RESULT_SCHEMA = 'steadybar-replay-result/1';

const number = () => z.number();
const maybe = () => z.nullable(z.number());

const leak = z.strictObject({
  verdict: z.enum(LEAK_VERDICTS),
  mbarPerMin: maybe(),
  low: maybe(),
  high: maybe(),
});

export const resultSchema = z.strictObject({
  schema: z.literal(RESULT_SCHEMA),
  engine: z.int(),
  readings: z.int(),
  /** Cells of a CSV whose number cannot be: each was judged as a reading that cannot be used. */
  unusable: z.strictObject({
    cells: z.int(),
    listed: z.array(z.strictObject({ row: z.int(), column: z.string(), text: z.string() })),
  }),
  firstS: maybe(),
  lastS: maybe(),
  gaps: z.array(z.strictObject({ reason: z.enum(GAP_REASONS), fromS: number(), toS: number() })),
  limits: z.nullable(
    z.strictObject({
      ratedBar: number(),
      ceilingBar: number(),
      workingBar: number(),
      floorBar: maybe(),
      uBar: number(),
    }),
  ),
  tap: z.enum(TAPS),
  line: z.enum(LINES),
  peakBar: maybe(),
  stages: z.array(
    z.strictObject({ stage: z.enum(STAGES), attempt: z.int(), fromS: number(), toS: number() }),
  ),
  cues: z.array(z.strictObject({ atS: number(), closeInS: number() })),
  tooFast: z.array(
    z.strictObject({ atS: number(), lateBar: number(), rateBarPerS: number(), mostBarPerS: number() }),
  ),
  alarms: z.array(
    z.strictObject({
      alarm: z.enum(ALARMS),
      priority: z.enum(PRIORITIES),
      raisedS: number(),
      clearedS: maybe(),
      pressureBar: maybe(),
      text: z.string(),
    }),
  ),
  holds: z.array(
    z.strictObject({
      fromS: number(),
      toS: number(),
      minutesInBand: number(),
      minBar: maybe(),
      maxBar: maybe(),
      leak,
    }),
  ),
  lift: z.array(
    z.strictObject({ atS: number(), peakBar: number(), low: number(), high: number(), ceilingAtS: maybe() }),
  ),
  cure: z.nullable(
    z.strictObject({
      progress: number(),
      low: number(),
      high: number(),
      metS: maybe(),
      equivalentAgeMin: number(),
    }),
  ),
});

export type ReplayResult = z.infer<typeof resultSchema>;
