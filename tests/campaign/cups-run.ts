/** Runs the campaign of sleeves with a witness cup and gives its section of the validation page. */
import {
  BATCHES,
  type Batch,
  CUP_EACH,
  CUP_FAULTS,
  CUP_SEED,
  type CupFault,
  type CupResult,
  type CupTask,
  cupTasks,
  workCup,
} from './cups.ts';
import { table } from './fills-tables.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';
import { isEarly, ratioOf } from './sleeves-judge.ts';
import { quantile, rate } from './stats.ts';

export const CUPS = 'cups';

export function cupsChild(scale: number): void {
  const list = cupTasks(scale);
  serve<CupResult>((i) => workCup(list[i]!));
}

const two = (x: number): string => (Number.isFinite(x) ? x.toFixed(2) : 'not said');
export const BATCH_NAME = (batch: Batch): string =>
  batch === 'usual' ? 'usual (5 %, 1 s)' : `${batch} times the usual time`;

export interface Judged {
  readonly task: CupTask;
  readonly result: CupResult;
}

const ratios = (some: readonly Judged[]): number[] => some.map(({ result }) => ratioOf(result, 'program'));
const early = (some: readonly Judged[]): string =>
  rate(some.filter(({ result }) => isEarly(result, 'program')).length, some.length);
const found = (some: readonly Judged[]): Judged[] => some.filter(({ result }) => result.foundS !== null);

function counted(all: readonly Judged[]): string[][] {
  return [false, true].flatMap((known) =>
    BATCHES.flatMap((batch) =>
      [false, true].flatMap((cup) => {
        const some = all.filter(
          ({ task }) =>
            task.fault === 'none' && task.known === known && task.batch === batch && task.cup === cup,
        );
        if (some.length === 0) return [];
        return [
          [
            known ? 'probe compared, water known' : 'as jobs are',
            BATCH_NAME(batch),
            cup ? 'with' : 'without',
            `${some.length}`,
            early(some),
            ...[0.05, 0.5, 0.95].map((q) => two(quantile(ratios(some), q))),
          ],
        ];
      }),
    ),
  );
}

/** A cup that was asked about, or is of a resin whose cups warm too little, tells nothing of the batch. */
const tells = ({ result }: Judged): boolean => !result.said.includes('little-heat') && result.learnt > 0;

/** All batches that take 1.15 to 2 times the usual time, whose own cup was judged. */
function early600(all: readonly Judged[]): string {
  const slow = all.filter(
    ({ task }) => task.fault === 'none' && task.cup && task.known && task.batch !== 'usual' && task.batch > 1,
  );
  const some = slow.filter(tells);
  return `Of all batches at 1.15 to 2 times the usual time, by a compared probe: early ${early(slow)}; of those whose cup can tell (its resin warms it by
6 K and more, and has a mark): ${early(some)}.`;
}

function foundRows(all: readonly Judged[]): string[][] {
  return BATCHES.map((batch) => {
    const some = all.filter(
      ({ task }) => task.fault === 'none' && task.known && task.batch === batch && task.cup,
    );
    const inTime = found(some).filter(
      ({ result: { foundS, halfS } }) => halfS === null || (foundS ?? Number.POSITIVE_INFINITY) <= halfS,
    );
    const told = some.flatMap(({ result: { times, slow } }) => (times === null ? [] : [times / slow]));
    return [
      BATCH_NAME(batch),
      `${some.length}`,
      rate(found(some).length, some.length),
      rate(inTime.length, some.length),
      `${told.length} of ${some.length}`,
      [0.05, 0.5, 0.95].map((q) => two(quantile(told, q))).join(' / '),
    ];
  });
}

const FAULT_NAME: Readonly<Record<Exclude<CupFault, 'none'>, string>> = {
  'in-the-air': 'its probe hangs in the air',
  lost: 'its probe is lost after 20 min',
  'other-batch': 'filled from another batch, 9 K colder or mixed 40 min earlier',
  swapped: 'its probe and the sleeve’s are swapped',
};

function faultRows(all: readonly Judged[]): string[][] {
  return CUP_FAULTS.flatMap((fault) => {
    if (fault === 'none') return [];
    const some = all.filter(({ task }) => task.fault === fault);
    const asked = some.filter(({ result }) =>
      result.said.some((s) => !['waits', 'reacts', 'usual', 'quick'].includes(s)),
    );
    return [[FAULT_NAME[fault], `${some.length}`, rate(asked.length, some.length), early(some)]];
  });
}

export async function runCups(scale: number): Promise<Section> {
  const list = cupTasks(scale);
  const results = await spread<CupResult>(CUPS, list.length, (done) => {
    if (done % 200 === 0) console.log(`cups: ${done} of ${list.length}`);
  });
  return cupsSection(
    list.flatMap((task, i): Judged[] => {
      const result = results[i];
      return result == null ? [] : [{ task, result }];
    }),
  );
}

export function cupsSection(all: readonly Judged[]): Section {
  return {
    name: CUPS,
    title: 'The witness cup',
    markdown: `${CUP_EACH * 3} sleeves of the cure’s campaign a row with the cup, fewer where less is asked (seeds from ${CUP_SEED} on, drawn after the rules stood; a third each on the sleeve’s inside, in the packer’s
air, on the pipe’s wall), with a cup of their batch. The crew has its own vessel (100-400 g, a time constant within a factor of 1.5 of
what the program takes, 15 % more or less in it each time, mixed at 12-22 °C, in air of 8-18 °C, a draught in one of five). The resin’s document has the marks of four earlier cups, as the
program told them, of batches that scatter by 5 % (1 s). Sleeve and cup then are of one batch. *Found*: ‘slow batch’ or ‘no reaction’ was
said; *in time*: before half of the sheet’s time was counted. *As jobs are*: the probe’s class, and water as the job sheet has it; *compared*: its error
is 0.3 K at most, and where no water seeps in that is known.

${table(['known', 'batch', 'cup', 'sleeves', 'early (95 % interval)', 'ratio 5 %', 'median', '95 %'], counted(all))}

${early600(all)}

${table(['batch', 'sleeves', 'found slow', 'found in time', 'its time was told', 'told over true, 5 % / median / 95 %'], foundRows(all))}

What is wrong with the cup (usual batches; early: by a count that heeds it):

${table(['the cup', 'sleeves', 'asked about, or told', 'early'], faultRows(all))}`,
    figures: {},
  };
}
