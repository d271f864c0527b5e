import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import type { LogEntry } from '../record/log.ts';
import { scanRun } from '../record/reader.ts';
import type { Reading } from '../sensing/reading.ts';
import type { WatchEvent } from '../watch/events.ts';
import { senseRun, senseWith } from './sense-run.ts';

const bytes = new Uint8Array(
  readFileSync(new URL('../../fixtures/logs/regulator-high.pages', import.meta.url)),
);

it('gives a reading for each sample as it is judged, and tells besides all that the run tells', () => {
  const entries: LogEntry[] = [];
  const recorded: WatchEvent[] = [];
  const { head } = scanRun(bytes, { entry: (e) => entries.push(e), event: (e) => recorded.push(e) });
  const events: WatchEvent[] = [];
  const tapped: Reading[] = [];
  let unjudged = 0;
  const alone = senseRun(head!);
  const step = senseWith({
    event: (e) => events.push(e),
    reading: (r) => tapped.push(r),
    unjudged: () => unjudged++,
  })(head!);
  const given: Reading[] = [];
  let samples = 0;
  for (const entry of entries) {
    const reading = step(entry);
    expect(reading).toEqual(alone(entry));
    const sample = entry.l === 'frame' && entry.frame.t === 'S';
    if (!sample) expect(reading).toBeNull();
    if (sample) samples++;
    if (reading !== null) given.push(reading);
  }
  expect(events).toEqual(recorded);
  expect(given).toEqual(tapped);
  expect(given.length).toBeGreaterThan(500);
  expect(given.length + unjudged).toBe(samples);
});
