import type { RunSummary } from '../engine/messages.ts';
import { parseSensorChecks, type SensorRun } from '../job/sensor-check.ts';

/** Runs whose list says something of a sensor. */
export function sensorRunsOf(runs: readonly RunSummary[]): readonly SensorRun[] {
  return runs
    .map(({ runId, title, practice, openedUtcMs, sensorChecks }) => ({
      runId,
      title,
      practice,
      utcMs: openedUtcMs,
      checks: parseSensorChecks(sensorChecks),
    }))
    .filter((r) => r.checks.length > 0);
}
