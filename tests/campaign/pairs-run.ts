/** Runs the campaign of pairs and gives its section of the validation page. */
import { three } from './fills-score.ts';
import { table } from './fills-tables.ts';
import {
  PAIR_COUNTS,
  PAIR_SEED,
  type PairRecord,
  type PairWay,
  pairTasks,
  type Told,
  workPair,
} from './pairs.ts';
import { serve, spread } from './pool.ts';
import type { Section } from './sections.ts';
import { quantile, rate } from './stats.ts';

export const PAIRS = 'pairs';

export function pairsChild(scale: number): void {
  const list = pairTasks(scale);
  serve<PairRecord>((i) => workPair(list[i]!));
}

/** The first word that somebody can act on: an urgent alarm, or one of the supply. */
export function firstWord({ urgentS, supplyS }: Told): number | null {
  if (urgentS === null || supplyS === null) return urgentS ?? supplyS;
  return Math.min(urgentS, supplyS);
}

/** Share used of the time between two moments, 0..1; null: there is no such time. */
export function used(fromS: number | null, ratedS: number | null, atS: number | null): number | null {
  if (fromS === null || ratedS === null || !(ratedS - fromS > 0.05)) return null;
  return atS === null ? 0 : Math.max(0, Math.min(1, (ratedS - atS) / (ratedS - fromS)));
}

const two = (v: readonly number[]): string =>
  v.length === 0 ? '-' : `${quantile(v, 0.5).toFixed(2)} / ${quantile(v, 0.05).toFixed(2)}`;

const KIND = {
  normal: 'normal',
  hand: 'throttled by a hand',
  high: 'set too high',
  creep: 'creeps',
  stuck: 'sticks open',
} as const;

/** A time from the failure on that a word can use: until then the supply was sound. */
const failed = (r: PairRecord): number | null => (r.kind === 'creep' ? r.creptS : r.failedS);

function rows(records: readonly PairRecord[]): string[][] {
  return (['normal', 'hand', 'high', 'creep', 'stuck'] as const).map((kind) => {
    const all = records.filter((r) => r.kind === kind && r.way === 'sound');
    const over = all.filter((r) => r.overRatedBar > 0);
    const before = over.filter((r) => (r.with_.supplyS ?? Number.POSITIVE_INFINITY) < r.openedS);
    const under = all.filter((r) => r.under);
    const wrong = (told: (r: PairRecord) => Told) =>
      under.length === 0 ? '-' : rate(under.filter((r) => told(r).urgentS !== null).length, under.length);
    const share = (at: (r: PairRecord) => number | null) =>
      two(all.flatMap((r) => used(failed(r), r.ratedS, at(r)) ?? []));
    const lead = (at: (r: PairRecord) => number | null) =>
      three(
        all.flatMap((r) => {
          const told = at(r);
          return r.ratedS === null ? [] : [told === null ? 0 : Math.max(0, r.ratedS - told)];
        }),
      );
    return [
      KIND[kind],
      `${all.length}`,
      over.length === 0 ? '-' : `${before.length} of ${over.length}`,
      wrong((r) => r.without),
      wrong((r) => r.with_),
      `${all.filter((r) => r.with_.differS !== null).length}`,
      lead((r) => firstWord(r.without)),
      lead((r) => firstWord(r.with_)),
      share((r) => firstWord(r.without)),
      share((r) => firstWord(r.with_)),
    ];
  });
}

const WAY: Readonly<Record<Exclude<PairWay, 'sound'>, string>> = {
  swapped: 'swapped',
  off: 'the second reads 5 to 20 of its U too low',
};

function faultRows(records: readonly PairRecord[]): string[][] {
  return (['swapped', 'off'] as const).map((way) => {
    const all = records.filter((r) => r.way === way);
    const found = all.filter((r) => r.with_.differS !== null);
    const cause = (name: string) => `${found.filter((r) => r.with_.cause === name).length}`;
    return [
      WAY[way],
      `${all.length}`,
      `${found.length}`,
      `${found.filter((r) => (r.with_.differS ?? 0) < r.openedS).length}`,
      cause('swapped'),
      cause('against-flow'),
    ];
  });
}

const part = (name: string, records: readonly PairRecord[]): string => `### ${name}

${table(
  [
    'regulator',
    'fills',
    'over rated from the start: told before the valve is opened',
    'false urgent without',
    'with',
    'sensors said to differ',
    'lead without, s',
    'with',
    'share used without',
    'with',
  ],
  rows(records),
)}

${table(['two sensors', 'fills', 'found', 'before the valve is opened', 'as swapped', 'as against the flow'], faultRows(records))}`;

export async function runPairs(scale: number): Promise<Section> {
  const list = pairTasks(scale);
  const results = await spread<PairRecord>(PAIRS, list.length, () => {});
  const records = results.filter((r): r is PairRecord => r !== null);
  const counts = PAIR_COUNTS.reduce((n, c) => n + c.count, 0);
  const markdown = `${records.length} fills on the sites, hands and sensors of the fills (seeds from ${PAIR_SEED + 1} on, ${counts} a world at most, played once; those from 610 001 on served earlier states), with a second transducer at the regulator's outlet whose error lies inside the same uncertainty, judged by
the whole watch without it and with it; ${results.length - records.length} could not be simulated. The supply stands for 8 s before the valve is opened. *Lead*: from the first urgent alarm or word of the supply to the packer's passing
rated, minimum / 5 % / median. *Share used*: of the time from the failure (for a creep from the outlet's passing where it stood by 2 U) to rated, median / 5 %; a regulator that is over rated from the start has no failure. A
supply that a hand throttles stands over rated by what it is: to be told so is true, and no urgent alarm.

${part(
  'Common lines',
  records.filter((r) => r.world === 'common'),
)}

${part(
  'Quick lines',
  records.filter((r) => r.world === 'quick'),
)}
`;
  return { name: PAIRS, title: 'Two pressures on one line', markdown, figures: {} };
}
