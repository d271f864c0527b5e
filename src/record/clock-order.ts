/**
 * Times by the tablet's clock against the order in which things can only have been. A clock that was set is no fault
 * of the record, but whoever reads a date should know of it.
 */
import type { Remark } from './findings.ts';
import type { Manifest } from './manifest.ts';
import type { Page } from './page.ts';
import type { RunVisitor } from './reader.ts';
import type { Addition } from './seal.ts';

/** What keeping time over a network may take back in one step, ms (common practice, no source). */
const SLACK_MS = 1000;

type Back = Extract<Remark, { r: 'clock-back' }>;

/** Is handed every page. */
export class ClockOrder implements RunVisitor {
  private before: number | null = null;
  private latest: number | null = null;
  private pages: Back | null = null;

  page({ header: { index, utcMs } }: Page): void {
    if (utcMs === null) return;
    const byMs = (this.before ?? utcMs) - utcMs;
    if (byMs > SLACK_MS) {
      const seconds = Math.max(this.pages?.seconds ?? 0, byMs / 1000);
      this.pages = {
        r: 'clock-back',
        what: 'pages',
        at: this.pages?.at ?? index,
        times: (this.pages?.times ?? 0) + 1,
        seconds,
      };
    }
    this.before = utcMs;
    this.latest = Math.max(this.latest ?? utcMs, utcMs);
  }

  remarks(manifest: Manifest, additions: readonly Addition[]): readonly Back[] {
    const { openedUtcMs, endedUtcMs, sealedUtcMs } = manifest;
    const found: Back[] = this.pages === null ? [] : [this.pages];
    const follow = (what: Back['what'], at: number, before: number | null, after: number | null): void => {
      if (before === null || after === null || before - after <= SLACK_MS) return;
      found.push({ r: 'clock-back', what, at, times: 1, seconds: (before - after) / 1000 });
    };
    follow('end', 0, openedUtcMs, endedUtcMs);
    const last = [openedUtcMs, endedUtcMs, this.latest].filter((t) => t !== null);
    follow('sealing', 0, last.length === 0 ? null : Math.max(...last), sealedUtcMs);
    let before = sealedUtcMs;
    for (const { number, utcMs } of additions) {
      follow('addition', number, before, utcMs);
      before = Math.max(before, utcMs);
    }
    return found;
  }
}
