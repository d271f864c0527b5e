/** Runs the campaign of sleeves with a witness sample and gives its section of the validation page. */
import { BATCH_NAME } from './cups-run.ts';
import { table } from './fills-tables.ts';
import { serve, spread } from './pool.ts';
import {
  SAMPLE_BATCHES,
  SAMPLE_EACH,
  SAMPLE_SEED,
  type SampleResult,
  type SampleTask,
  sampleTasks,
  workSample,
} from './samples.ts';
import type { Section } from './sections.ts';
import { isEarly, ratioOf } from './sleeves-judge.ts';
import { quantile, rate } from './stats.ts';

export const SAMPLES = 'samples';

export function samplesChild(scale: number): void {
  const list = sampleTasks(scale);
  serve<SampleResult>((i) => workSample(list[i]!));
}

const two = (x: number): string => (Number.isFinite(x) ? x.toFixed(2) : 'not said');

interface Judged {
  readonly task: SampleTask;
  readonly result: SampleResult;
}

function row(some: readonly Judged[], name: string): string[] {
  const early = some.filter(({ result }) => isEarly(result, 'program')).length;
  const ratios = some.map(({ result }) => ratioOf(result, 'program'));
  const asked = (doubt: string) =>
    rate(some.filter(({ result }) => result.asked.includes(doubt)).length, some.length);
  const felt = some[0]?.task.sample ?? false;
  return [
    name,
    felt ? 'felt' : 'not felt',
    rate(early, some.length),
    ...[0.05, 0.5, 0.95].map((q) => two(quantile(ratios, q))),
    felt ? asked('hard-early') : '-',
    felt ? asked('soft-late') : '-',
  ];
}

export async function runSamples(scale: number): Promise<Section> {
  const list = sampleTasks(scale);
  const results = await spread<SampleResult>(SAMPLES, list.length, (done) => {
    if (done % 200 === 0) console.log(`samples: ${done} of ${list.length}`);
  });
  const all = list.flatMap((task, i): Judged[] => {
    const result = results[i];
    return result == null ? [] : [{ task, result }];
  });
  const of = (is: (task: SampleTask) => boolean) => all.filter(({ task }) => is(task));
  const sound = SAMPLE_BATCHES.flatMap((batch) =>
    [false, true].map((sample) =>
      row(
        of((t) => t.way === 'sound' && t.batch === batch && t.sample === sample),
        BATCH_NAME(batch),
      ),
    ),
  );
  const faults = [
    row(
      of((t) => t.way === 'warm'),
      'usual, kept 6 K warmer than the pipe',
    ),
    row(
      of((t) => t.way === 'earlier'),
      'usual, the sample mixed an hour earlier',
    ),
  ];
  const head = [
    'batch',
    'sample',
    'early (95 % interval)',
    'ratio 5 %',
    'median',
    '95 %',
    'asked: hard early',
    'asked: soft late',
  ];
  return {
    name: SAMPLES,
    title: 'The witness sample',
    markdown: `${SAMPLE_EACH * 3} sleeves a row (seeds from ${SAMPLE_SEED} on, played once; probe compared, water known, no cup), with a sample of the batch in water that is as cold as
the ground to 1 K. It is felt every 20 min from half of the sheet’s time on, and when the count says that the time is met; it is hard at the degree of cure at which the
sheet’s times end. *Early*: the count stood at *met* after the feeling, before the least cured layer was there, whatever the finger said.

${table(head, [...sound, ...faults])}`,
    figures: {},
  };
}
