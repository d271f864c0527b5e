/** Runs the campaign of forged records and gives its section of the validation page. */
import { VERDICTS } from '../../src/record/findings.ts';
import { emptyTally, type Fault, KINDS, MOST_MS, type Tally, workForgery } from './forgeries.ts';
import { type Forging, prepare } from './forgeries-bases.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';

export const FORGERIES = 'forgeries';

const BATCH = 200;
/** 10⁵ in full size. */
const BATCHES = 500;

const seedsOf = (index: number): number => 1 + index * BATCH;

/** @param index of a batch: its mutants have the seeds from `1 + 200 · index` on */
export async function workBatch(forging: Promise<Forging>, index: number): Promise<Tally> {
  const f = await forging;
  const tally = emptyTally();
  for (let i = 0; i < BATCH; i++) await workForgery(f, seedsOf(index) + i, tally, true);
  return tally;
}

export function forgeriesChild(): void {
  const forging = prepare();
  serve<Tally>((index) => workBatch(forging, index));
}

export async function runForgeries(scale: number): Promise<Section> {
  const count = Math.max(1, Math.round(BATCHES * scale));
  const started = Date.now();
  let told = 0;
  const results = await spread<Tally>(FORGERIES, count, (done) => {
    const now = Date.now();
    if (now - told < 20_000 && done < count) return;
    told = now;
    console.log(`forgeries: ${done} of ${count} batches, ${((now - started) / 1000).toFixed(0)} s`);
  });
  const tallies = results.filter((r): r is Tally => r !== null);
  return {
    name: FORGERIES,
    title: 'Forged records',
    markdown: sectionOf(tallies, count - tallies.length),
    figures: {},
  };
}

function sectionOf(tallies: readonly Tally[], lost: number): string {
  const sum = (of: (t: Tally) => number): number => tallies.reduce((s, t) => s + of(t), 0);
  const made = sum((t) => KINDS.reduce((s, k) => s + t.made[k], 0));
  const faults: readonly Fault[] = tallies.flatMap((t) => t.faults);
  const longest = tallies.reduce((a, t) => (t.longestMs > a.longestMs ? t : a));
  return `
\`npm run campaign -- forgeries\`. Sealed records changed as an accident, somebody without a key or somebody with one could,
seeds 1 to ${tallies.length * BATCH}: ${made} mutants that differ from the record they were made of went through the verifier. Asked of
each: no fault thrown, no valid verdict for what the key did not sign, an end within ${MOST_MS / 1000} s of a processor. A kind of _known_ and _sealed_
is signed by the key that is known, and may be valid; _events_ too, and may not.

Failures: **${faults.length}**${lost === 0 ? '' : `; ${lost} batches ended with a fault of the campaign itself`}. The longest took ${(longest.longestMs / 1000).toFixed(1)} s (seed ${longest.longestSeed}).
${faults.map((f) => `\n- seed ${f.seed}, ${f.kind}, ${f.base}: ${f.what}`).join('')}
| kind | mutants |
| --- | --- |
${KINDS.map((k) => `| ${k} | ${sum((t) => t.made[k])} |`).join('\n')}

| verdict | mutants |
| --- | --- |
${VERDICTS.map((v) => `| ${v} | ${sum((t) => t.verdicts[v])} |`).join('\n')}
`;
}
