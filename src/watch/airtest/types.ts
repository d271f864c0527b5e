import type { AirTestMethod, AirTestSpec } from '../../job/air-test.ts';
import type { Setup } from '../../job/setup.ts';
import type { AirTestReason, AirTestVerdict } from '../codes.ts';
import type { Course } from './course.ts';

/** Where an air test is. `vent`: it is over, and air is left between the plugs. */
export type AirTestPhase = 'idle' | 'fill' | 'stabilise' | 'adjust' | 'settle' | 'timing' | 'vent';

export interface AirTestResult {
  readonly verdict: AirTestVerdict | null;
  readonly reason: AirTestReason | null;
  readonly dropBar: number | null;
  readonly uBar: number | null;
}

/** An attempt that is under way. */
export interface AirTestRun {
  readonly method: AirTestMethod;
  readonly spec: AirTestSpec;
  /** A probe was said to be in the air between the plugs. */
  readonly probed: boolean;
  readonly sensorUBar: number;
  /** Seconds between the first pressure and the highest so far. */
  stabilisedS: number;
  /** Since when it stands at the test pressure, s; null: it does not. */
  settledFromS: number | null;
  /** How often it left the test pressure downwards before its time began. */
  falls: number;
  /** When its time began, s. */
  startS: number | null;
  lastS: number | null;
  course: Course;
}

/** What the run knows of its air tests. Plain data. */
export interface AirTest {
  phase: AirTestPhase;
  /** Attempts begun so far. */
  attempt: number;
  run: AirTestRun | null;
  result: AirTestResult | null;
}

export interface AirTestContext {
  readonly tUs: number;
  readonly setup: Setup | null;
  /** In the air between the plugs, °C, where a probe reads the air; null: none. */
  readonly airC: number | null;
}
