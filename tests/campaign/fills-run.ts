/** Runs the campaign of fills and gives its section of the validation page. */
import { type FillRecord, tasks, workTask } from './fills.ts';
import { fillsFigures } from './fills-figures.ts';
import { fillsSection } from './fills-report.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';

export const FILLS = 'fills';

export function fillsChild(scale: number): void {
  const list = tasks(scale);
  serve<FillRecord>((i) => workTask(list[i]!));
}

/** NaN does not survive the way between processes as JSON: it comes back as null. */
function revive(r: FillRecord): FillRecord {
  const fix = (v: FillRecord['verdict'] | null) => {
    if (v === null) return null;
    const out: Record<string, unknown> = { ...v };
    for (const [k, value] of Object.entries(out))
      if (value === null && k !== 'values' && k !== 'knee') out[k] = Number.NaN;
    return out as unknown as FillRecord['verdict'];
  };
  return { ...r, verdict: fix(r.verdict)!, ratedOnly: fix(r.ratedOnly) };
}

export async function runFills(scale: number): Promise<Section> {
  const list = tasks(scale);
  const started = Date.now();
  let told = 0;
  const results = await spread<FillRecord>(FILLS, list.length, (done) => {
    const now = Date.now();
    if (now - told < 10_000 && done < list.length) return;
    told = now;
    console.log(`fills: ${done} of ${list.length}, ${((now - started) / 1000).toFixed(0)} s`);
  });
  const records = results.filter((r): r is FillRecord => r !== null).map(revive);
  const failed = results.length - records.length;
  return {
    name: FILLS,
    title: 'The fill',
    markdown: fillsSection(records, failed, scale >= 1),
    figures: fillsFigures(records),
  };
}
