import type { SenseRun } from '../record/trace-rows.ts';
import type { Reading } from '../sensing/reading.ts';
import { createRun, type RunSink, stepRun } from './core.ts';

/**
 * The readings of a recorded run, as the engine makes them: zero checks are taken as the watch takes them, so the
 * run is judged along the way.
 * @param also told all that the run tells, in its order
 */
export function senseWith(also: RunSink): SenseRun {
  return (head) => {
    const run = createRun(head);
    let reading: Reading | null = null;
    const sink: RunSink = {
      event: (event) => also.event(event),
      reading(r, frame) {
        reading = r;
        also.reading?.(r, frame);
      },
      unjudged: (tUs, frame) => also.unjudged?.(tUs, frame),
    };
    return (entry) => {
      reading = null;
      stepRun(run, entry, sink);
      return reading;
    };
  };
}

/** Its events left aside. */
export const senseRun: SenseRun = senseWith({ event: () => undefined });
