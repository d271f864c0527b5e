import {
  type AirTestMethod,
  type AirTestSetup,
  airTestSpec,
  differenceU,
  en1610Kp,
  isOverPlugs,
  sensorFor,
  U_SHARE,
} from '../job/air-test.ts';
import type { JobDocument } from '../job/job-document.ts';
import type { ChannelSetup } from '../job/setup.ts';
import { input, type Notes } from './notes.ts';

/** The air test of the finished repair as the job names it (job/air-test.ts has its numbers), and whether this sensor can tell its drop. */
export interface AirTestPlan {
  readonly method: AirTestMethod;
  readonly seconds: number;
  readonly startMbar: number;
  readonly dropMbar: number;
  /** Expanded uncertainty of a difference of two readings, mbar; null where nothing is known of the sensor. */
  readonly uMbar: number | null;
  /** The sensor is good enough: its uncertainty is at most a tenth of the allowed drop. */
  readonly possible: boolean;
  /** For the Setup: the watch makes the same numbers of it. */
  readonly setup: AirTestSetup;
}

export function planAirTest(
  job: JobDocument,
  diameterMm: number | null,
  pressure: ChannelSetup | null,
  supplied: boolean,
  headBar: number | null,
  notes: Notes,
): AirTestPlan | null {
  const { method, lengthM } = job.airTest;
  if (method === 'none') return null;
  const isF1417 = method === 'F1417';
  const mm = isF1417 ? diameterMm : (job.pipe.dn ?? diameterMm);
  const setup: AirTestSetup | null =
    mm === null ? null : { method, mm, lengthM, headBar: isF1417 ? headBar : null };
  const spec = setup === null ? null : airTestSpec(setup);
  if (setup === null || spec === null) {
    notes.warn('air-test-unknown');
    return null;
  }
  const { seconds } = spec;
  const startMbar = spec.startBar * 1000;
  const dropMbar = spec.dropBar * 1000;
  const diameter = input('diameter', setup.mm, 'mm');
  notes.derive(
    'air-test-time',
    seconds,
    's',
    isF1417
      ? [diameter, input('length', lengthM ?? 0, 'm')]
      : [
          diameter,
          input('start-pressure', startMbar, 'mbar'),
          input('drop', dropMbar, 'mbar'),
          input('test-coefficient', en1610Kp(setup.mm), '1'),
        ],
  );
  notes.derive('air-test-drop', dropMbar, 'mbar', [input('start-pressure', startMbar, 'mbar')]);
  const uMbar = pressure === null ? null : differenceU(pressure, spec, supplied) * 1000;
  if (uMbar !== null) notes.derive('air-test-u', uMbar, 'mbar', [input('start-pressure', startMbar, 'mbar')]);
  const isFine = uMbar !== null && uMbar <= U_SHARE * dropMbar;
  if (isOverPlugs(spec)) notes.warn('air-test-over-plugs', [input('start-pressure', startMbar, 'mbar')]);
  else if (!isFine) {
    const fit = sensorFor(spec);
    notes.warn('air-test-refused', [
      input('u', uMbar ?? 0, 'mbar'),
      input('drop', dropMbar, 'mbar'),
      // Down to the digits that are shown: what is named would do.
      input('sensor-span', Math.floor(fit.spanBar * 100) / 100, 'bar'),
      input('sensor-step', Math.floor(fit.stepBar * 10_000) / 10, 'mbar'),
    ]);
  }
  return {
    method,
    seconds,
    startMbar,
    dropMbar,
    uMbar,
    possible: isFine && !isOverPlugs(spec),
    setup,
  };
}
