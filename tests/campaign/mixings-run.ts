/** Runs the campaign of sleeves from the mixing on and gives its section of the validation page. */
import { table } from './fills-tables.ts';
import { MIXING_PROBES, MIXING_SEED, type MixingTask, mixingTasks, workMixing } from './mixings.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';
import { isEarly, ratioOf, type SleeveResult } from './sleeves-judge.ts';
import { PLACE_NAME } from './sleeves-report.ts';
import { quantile, rate } from './stats.ts';

export const MIXINGS = 'mixings';

export function mixingsChild(scale: number): void {
  const list = mixingTasks(scale);
  serve<SleeveResult>((i) => workMixing(list[i]!));
}

const two = (x: number): string => (Number.isFinite(x) ? x.toFixed(2) : 'not said');

function rows(list: readonly MixingTask[], results: readonly (SleeveResult | null)[]): string[][] {
  const of = (probe: MixingTask['probe'] | null, counted: boolean) =>
    results.filter(
      (r, i): r is SleeveResult =>
        r !== null && list[i]!.counted === counted && (probe === null || list[i]!.probe === probe),
    );
  return [null, ...MIXING_PROBES].flatMap((probe) =>
    [false, true].map((counted) => {
      const some = of(probe, counted);
      const ratios = some.map((r) => ratioOf(r, 'program'));
      const early = some.filter((r) => isEarly(r, 'program')).length;
      const name = probe === null ? 'all' : PLACE_NAME[probe];
      return [
        name,
        counted ? 'mixing' : 'seating',
        `${some.length}`,
        rate(early, some.length),
        ...[0, 0.05, 0.5, 0.95].map((q) => two(quantile(ratios, q))),
      ];
    }),
  );
}

export async function runMixings(scale: number): Promise<Section> {
  const list = mixingTasks(scale);
  const results = await spread<SleeveResult>(MIXINGS, list.length, (done) => {
    if (done % 100 === 0) console.log(`mixings: ${done} of ${list.length}`);
  });
  const head = [
    'probe',
    'counts from',
    'sleeves',
    'early (95 % interval)',
    'least ratio',
    '5 %',
    'median',
    '95 %',
  ];
  return {
    name: MIXINGS,
    title: 'The cure, counted from mixing',
    markdown: `The sleeves of the cure’s campaign on seeds from ${MIXING_SEED} on, drawn after the rule stood, lived through from the mixing on: 4 to 12
minutes in a pot that is 6 K colder to 14 K warmer than the ground, 4 to 15 minutes in air that is 12 K colder to 15 K warmer; the
resin reacts all along. The ratio is of the times from seating. The pot’s temperature is typed to 1.5 K and a degree. Each
sleeve is judged twice: by a sheet that does not say what its time counts from, and by one that counts from mixing.

${table(head, rows(list, results))}`,
    figures: {},
  };
}
