import type { SenseRun } from '../record/trace-rows.ts';
import type { Reading } from '../sensing/reading.ts';
import { createRun, type RunSink, stepRun } from './core.ts';

/**
 * The readings of a recorded run, as the engine makes them: zero checks are taken as the watch takes them, so the
 * run is judged along the way, its events left aside.
 */
export const senseRun: SenseRun = (head) => {
  const run = createRun(head);
  let reading: Reading | null = null;
  const sink: RunSink = {
    event: () => undefined,
    reading: (r) => {
      reading = r;
    },
  };
  return (entry) => {
    reading = null;
    stepRun(run, entry, sink);
    return reading;
  };
};
