import { judging } from '../engine/judge-again.ts';
import { type Judge, JudgingFailed } from '../record/judgement.ts';
import { scanChunks } from '../record/page-scanner.ts';
import { ENGINE } from '../watch/codes.ts';

/** This engine over the pages of a record, a chunk in memory at a time. */
export const judge: Judge = {
  engine: ENGINE,
  async run(pages, progress) {
    const again = judging();
    let bytes = 0;
    for await (const items of scanChunks(pages, { chain: false, sound: true })) {
      for (const item of items) {
        if (item.kind !== 'page') continue;
        try {
          again.page(item.page);
        } catch (cause) {
          throw new JudgingFailed(item.page.header.index, cause);
        }
        bytes += item.page.bytes.length;
      }
      await progress(Math.min(1, bytes / pages.size));
    }
    return { events: again.events, apart: again.apart };
  },
};
