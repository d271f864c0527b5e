import * as z from 'zod/mini';
import { int, name, num } from './fields.ts';

/**
 * Second opinions on a sensor that a run asked for: the last zero, the last comparison with the dial gauge and the
 * last warming in the hand, a line each. A run's line in the list carries them, so that the drift between jobs is
 * known without opening a run.
 */
const check = z.strictObject({
  what: z.enum(['zero', 'gauge', 'warm']),
  /** As the sensor's document names it. */
  serial: name(60),
  channel: int(0, 6),
  /** zero: taken in all, or what was refused, bar; gauge: reading less dial gauge, bar; warm: reading less thermometer, K. */
  off: num(-2000, 2000),
  /** Zero: it was taken; else both agreed within their uncertainties. */
  agrees: z.boolean(),
});
export type SensorCheck = Readonly<z.infer<typeof check>>;

/** A pressure sensor leaves two lines, a probe one; no device has more than seven channels. */
const MOST = 16;
const checks = z.array(check).check(z.maxLength(MOST));

/** The checks of a run's line in the list; none where the line is older or says something else. */
export function parseSensorChecks(input: unknown): readonly SensorCheck[] {
  const result = checks.safeParse(input);
  return result.success ? result.data : [];
}

/** A run with the checks that it made, as the drift between jobs looks at it. */
export interface SensorRun {
  readonly runId: string;
  readonly title: string;
  readonly practice: boolean;
  /** When the run was opened, UTC ms. */
  readonly utcMs: number;
  readonly checks: readonly SensorCheck[];
}
