import { createRun, stepRun } from '../engine/core.ts';
import type { Judge } from '../record/judgement.ts';
import { pageEntries } from '../record/page.ts';
import { scanChunks } from '../record/page-scanner.ts';
import { ENGINE } from '../watch/codes.ts';
import type { WatchEvent } from '../watch/events.ts';

/** This engine over the pages of a record, a chunk in memory at a time. */
export const judge: Judge = {
  engine: ENGINE,
  async events(pages, progress) {
    const events: WatchEvent[] = [];
    const sink = { event: (event: WatchEvent) => void events.push(event) };
    let run: ReturnType<typeof createRun> | null = null;
    let bytes = 0;
    for await (const items of scanChunks(pages, { chain: false, sound: true })) {
      for (const item of items) {
        if (item.kind !== 'page') continue;
        if (item.page.head !== null) run ??= createRun(item.page.head);
        if (run === null) continue;
        for (const entry of pageEntries(item.page)) stepRun(run, entry, sink);
        bytes += item.page.bytes.length;
      }
      await progress(Math.min(1, bytes / pages.size));
    }
    return events;
  },
};
