/** Runs the campaign of proofs and gives its section of the validation page. */
import { table } from './fills-tables.ts';
import { serve, spread } from './pool.ts';
import { PROOF_COUNTS, PROOF_SEED, type ProofRecord, proofTasks, type Way, workProof } from './proofs.ts';
import type { Section } from './sections.ts';
import { quantile, rate } from './stats.ts';

export const PROOFS = 'proofs';

export function proofsChild(scale: number): void {
  const list = proofTasks(scale);
  serve<ProofRecord>((i) => workProof(list[i]!));
}

/** NaN comes back from another process as null. */
const revive = (r: ProofRecord): ProofRecord =>
  r.fill === null
    ? r
    : {
        ...r,
        fill: {
          ...r.fill,
          plainS: r.fill.plainS ?? Number.NaN,
          provedS: r.fill.provedS ?? Number.NaN,
          fromS: r.fill.fromS ?? Number.NaN,
          ratedS: r.fill.ratedS ?? Number.NaN,
        },
      };

const WAY: Readonly<Record<Way, string>> = {
  sound: 'as it should be',
  creeping: 'the regulator creeps already',
  'packer-on': 'the packer is on the hose',
  'open-end': 'the end is open',
  'leaky-end': 'the end leaks',
  'slow-hand': 'the valve is opened over 10 s',
};

/** Share used of the time from lock-up + 2 U to rated, 0..1. */
export function shareUsed(fill: NonNullable<ProofRecord['fill']>, atS: number): number | null {
  const time = fill.ratedS - fill.fromS;
  if (!(time > 0)) return null;
  return Number.isNaN(atS) ? 0 : Math.max(0, Math.min(1, (fill.ratedS - atS) / time));
}

const cries = (atS: number): boolean => !Number.isNaN(atS);

function proofRows(records: readonly ProofRecord[]): string[][] {
  return PROOF_COUNTS.map(({ kind, way }) => {
    const all = records.filter((r) => r.kind === kind && r.way === way);
    const n = (f: (r: ProofRecord) => boolean) => all.filter(f).length;
    return [
      kind,
      WAY[way],
      `${all.length}`,
      `${n((r) => r.ended === 'proved')}`,
      `${n((r) => r.seen === 'over-ceiling' || r.ceiling)}`,
      `${n((r) => r.seen === 'creeps')}`,
      `${n((r) => r.asked)}`,
      `${n((r) => r.cried)}`,
    ];
  });
}

function fillRows(records: readonly ProofRecord[]): string[][] {
  return (['normal', 'hand', 'high', 'creep'] as const).map((kind) => {
    const fills = records.flatMap((r) => (r.kind === kind && r.fill !== null ? [r.fill] : []));
    const under = fills.filter((f) => f.under);
    const used = (at: (f: (typeof fills)[number]) => number) => {
      const v = fills.flatMap((f) => shareUsed(f, at(f)) ?? []);
      return v.length === 0 || kind !== 'creep'
        ? '-'
        : `${quantile(v, 0.5).toFixed(2)} / ${quantile(v, 0.05).toFixed(2)}`;
    };
    const wrong = (at: (f: (typeof fills)[number]) => number) =>
      under.length === 0 ? '-' : rate(under.filter((f) => cries(at(f))).length, under.length);
    return [
      kind,
      `${fills.length}`,
      wrong((f) => f.plainS),
      wrong((f) => f.provedS),
      used((f) => f.plainS),
      used((f) => f.provedS),
    ];
  });
}

function part(name: string, records: readonly ProofRecord[]): string {
  const err = records.flatMap((r) =>
    r.way === 'sound' && r.kind === 'normal' && r.lockUpBar !== null
      ? [Math.abs(r.lockUpBar - r.trueBar)]
      : [],
  );
  return `### ${name}

${table(
  [
    'regulator',
    'the proof is made',
    'proofs',
    'proved',
    'told: over the ceiling',
    'told: creeps',
    'asked: packer on?',
    'urgent beside the ceiling',
  ],
  proofRows(records),
)}

Lock-up against the true pressure, normal regulators: off by ${(1000 * quantile(err, 0.5)).toFixed(0)} mbar in the median, ${(1000 * quantile(err, 0.95)).toFixed(0)} mbar in 95 of 100 (the sensor's own error is in it).

${table(
  [
    'the fill after it',
    'fills',
    'false urgent without proof',
    'with it',
    'creep: share used without, median / 5 %',
    'with it',
  ],
  fillRows(records),
)}`;
}

export async function runProofs(scale: number): Promise<Section> {
  const list = proofTasks(scale);
  const results = await spread<ProofRecord>(PROOFS, list.length, () => {});
  const records = results.filter((r): r is ProofRecord => r !== null).map(revive);
  const high = records.filter((r) => r.kind === 'high');
  const told = high.filter((r) => r.seen === 'over-ceiling' || r.ceiling).length;
  const markdown = `${records.length} supplies proved before the packer is on the hose, on the sites and sensors of the fills (seeds from ${PROOF_SEED + 1} on, played once, after the thresholds stood; those from 410 001 on served earlier states),
and the same fills judged with and without the proof. ${results.length - records.length} could not be simulated. A regulator that creeps does so
in the fill alone, but for the row that says otherwise. *Share used*: of the time from lock-up + 2 U to rated.

Regulators set too high, told before coupling: **${told} of ${high.length}**.

${part(
  'Common lines',
  records.filter((r) => r.world === 'common'),
)}

${part(
  'Quick lines',
  records.filter((r) => r.world === 'quick'),
)}
`;
  return { name: PROOFS, title: 'The supply, proved', markdown, figures: {} };
}
