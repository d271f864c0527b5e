/** Runs the campaign of sleeves and gives its section of the validation page. */
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';
import { sleeveTasks, workSleeve } from './sleeves.ts';
import { sleevesFigures } from './sleeves-figures.ts';
import type { SleeveResult } from './sleeves-judge.ts';
import { sleevesSection } from './sleeves-report.ts';
import { WAITING } from './sleeves-waiting.ts';

export const SLEEVES = 'sleeves';

export function sleevesChild(scale: number): void {
  const list = sleeveTasks(scale);
  serve<SleeveResult>((i) => workSleeve(list[i]!));
}

export async function runSleeves(scale: number): Promise<Section> {
  const list = sleeveTasks(scale);
  const started = Date.now();
  let told = 0;
  const results = await spread<SleeveResult>(SLEEVES, list.length, (done) => {
    const now = Date.now();
    if (now - told < 20_000 && done < list.length) return;
    told = now;
    console.log(`sleeves: ${done} of ${list.length}, ${((now - started) / 1000).toFixed(0)} s`);
  });
  const done = (known: number | null, heated = false) =>
    results.filter(
      (r, i): r is SleeveResult =>
        r !== null && list[i]!.known === known && (list[i]!.heated === true) === heated,
    );
  const records = done(null);
  const waiting = WAITING.map((_, known) => done(known));
  return {
    name: SLEEVES,
    title: 'The cure',
    markdown: sleevesSection(records, waiting, done(null, true), results.filter((r) => r === null).length),
    figures: sleevesFigures(records),
  };
}
