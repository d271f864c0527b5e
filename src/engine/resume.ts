import { pause, type Timers } from '../link/timers.ts';
import { pageEntries } from '../record/page.ts';
import { scanPages } from '../record/reader.ts';
import { createRun, type Run, stepRun } from './core.ts';
import type { LogHead } from './log.ts';
import type { Watched } from './watched.ts';

/** Re-judging a long run is done in slices, so that the early guard goes on meanwhile. */
const SLICE_US = 20_000;

/** Judges every entry of a run's file again and gives the run as it stood at the file's end. */
export async function rejudge(
  bytes: Uint8Array,
  head: LogHead,
  watched: Watched,
  timers: Timers,
): Promise<Run> {
  const run = createRun(head);
  let sliceUs = timers.nowUs();
  for (const item of scanPages(bytes, { chain: false })) {
    if (item.kind !== 'page') continue;
    for (const entry of pageEntries(item.page)) {
      stepRun(run, entry, watched);
      if (timers.nowUs() - sliceUs < SLICE_US) continue;
      await pause(timers, 0);
      sliceUs = timers.nowUs();
    }
  }
  return run;
}
