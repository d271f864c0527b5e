import type { AirTestReason, AirTestVerdict } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { type DisplayUnits, type Format, METRIC } from '../create-format.ts';

/** Air test of the finished repair: what came of it, and why not. */

/** Within a sentence. */
const REASON: Record<AirTestReason, string> = {
  'not-in-stage': 'only in its own stage',
  'no-plan': 'the job sheet names none, or lacks an input of it',
  'no-reading': 'there is no reading',
  'sensor-too-coarse': 'the sensor’s uncertainty is over a tenth of the allowed drop',
  'over-plugs': 'groundwater asks for more air than is put on pipe plugs',
  stopped: 'stopped by hand',
  'not-held': 'it does not stay at the test pressure',
  'air-came-in': 'air came in while the drop was timed',
  gap: 'readings are missing',
  device: 'another sensor, scale or test',
  stage: 'the work went on',
  end: 'the run ended',
  near: 'the drop is nearer to the allowed one than it is known',
  rose: 'the pressure rose: warmth, or a supply that is not shut',
};

const VERDICT: Record<AirTestVerdict, string> = {
  passed: 'Passed',
  failed: 'Failed',
  'cannot-say': 'Cannot be said',
};

/** Words of its task on the live page. */
const TASK = {
  title: 'Air test',
  none: 'None is planned: the job sheet names the method.',
  method: (method: string) => (method === 'F1417' ? 'ASTM F1417' : `EN 1610, method ${method}`),
  testPressure: 'Test pressure',
  first: 'First, to settle',
  most: 'Never above',
  time: 'Time',
  allowed: 'Allowed drop',
  drop: 'Drop',
  attempts: 'Attempts',
  noAttempt: 'None yet. Skipped, the certificate says so.',
  probe:
    'A probe “air” that lies in the pipe between the plugs lets the drop be told at constant temperature. Elsewhere it makes it wrong.',
  codes: 'Test procedure, plugs and who may use them: by local codes. This page replaces none.',
};

export function airTest(f: Format) {
  const mbar = (value: number | null, u: DisplayUnits): string =>
    f.testPressure(value === null ? null : value / 1000, u);

  type Told = Extract<WatchEvent, { e: 'air-test' }>;

  /** 'Passed: drop 3.2 mbar ± 1.4 mbar in 3 min 00 s from 101.0 mbar, allowed 15.0 mbar (EN 1610, method LC)'. */
  function judgedText(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : ` (${REASON[e.reason]})`;
    const warmed =
      e.warmedK === null
        ? ''
        : `, the air ${e.warmedK < 0 ? 'cooler' : 'warmer'} by ${f.quantity('temperatureDifference', Math.abs(e.warmedK), u)}, allowed for`;
    return `${VERDICT[e.verdict ?? 'cannot-say']}${why}: drop ${mbar(e.dropMbar, u)} ± ${mbar(e.uMbar, u)} in ${f.duration(e.seconds)} from ${mbar(e.startMbar, u)}, allowed ${mbar(e.allowedMbar, u)}${e.method === null ? '' : ` (${TASK.method(e.method)})`}${warmed}`;
  }

  function airTestEvent(e: Told, u: DisplayUnits = METRIC): string {
    const why = e.reason === null ? '' : `: ${REASON[e.reason]}`;
    switch (e.what) {
      case 'begun':
        return `Air test ${e.attempt} begun${e.method === null ? '' : `, ${TASK.method(e.method)}`}`;
      case 'refused':
        return `Air test not begun${why}`;
      case 'stabilised':
        return `Air test ${e.attempt}: settled for ${f.duration(e.seconds)}`;
      case 'timed':
        return `Air test ${e.attempt}: timed from ${mbar(e.startMbar, u)} for ${f.duration(e.seconds)}`;
      case 'judged':
        return `Air test ${e.attempt}: ${judgedText(e, u)}`;
      case 'broken-off':
        return `Air test ${e.attempt} broken off${why}`;
      case 'vented':
        return 'Line empty again after the air test';
    }
  }

  return { AIR: TASK, AIR_REASON: REASON, AIR_VERDICT: VERDICT, airTestEvent, judgedText };
}
