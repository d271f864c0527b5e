/** Runs the campaign of holds and gives its section of the validation page. */
import { type HoldRecord, holdTasks, workHold } from './holds.ts';
import { holdsFigures } from './holds-figures.ts';
import { holdsSection } from './holds-report.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';

export const HOLDS = 'holds';

export function holdsChild(scale: number): void {
  const list = holdTasks(scale);
  serve<HoldRecord>((i) => workHold(list[i]!));
}

export async function runHolds(scale: number): Promise<Section> {
  const list = holdTasks(scale);
  const started = Date.now();
  let told = 0;
  const results = await spread<HoldRecord>(HOLDS, list.length, (done) => {
    const now = Date.now();
    if (now - told < 20_000 && done < list.length) return;
    told = now;
    console.log(`holds: ${done} of ${list.length}, ${((now - started) / 1000).toFixed(0)} s`);
  });
  const records = results.filter((r): r is HoldRecord => r?.played === true);
  return {
    name: HOLDS,
    title: 'The hold',
    markdown: holdsSection(records, results.length - records.length),
    figures: holdsFigures(records),
  };
}
