/** Parts of the fills' tables that several of them share. */
import type { FillRecord } from './fills.ts';
import { KINDS, type Kind } from './fills-scenario.ts';
import { type Score, score, three } from './fills-score.ts';
import { clopperPearson, quantile, rate } from './stats.ts';

export const NAME: Readonly<Record<Kind, string>> = {
  normal: 'normal',
  hand: 'hand-valved in steps',
  high: 'regulator set too high',
  creep: 'regulator creeping',
  stuck: 'supply stuck open',
};

export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => '---'), ...rows].map((r) => `| ${r.join(' | ')} |`).join('\n');
}

export const percent = (x: number, digits = 2): string => `${(100 * x).toFixed(digits)} %`;
export const missedText = (k: number, n: number): string =>
  n === 0 ? '-' : `${k} of ${n} (≤ ${percent(clopperPearson(k, n).high)})`;
export const falseText = (k: number, n: number): string => (n === 0 ? '-' : rate(k, n));
export const shares = (s: Score): string =>
  s.share.length === 0 ? '-' : `${quantile(s.share, 0.5).toFixed(2)} / ${quantile(s.share, 0.05).toFixed(2)}`;

/** One line a kind. */
export function byKind(records: readonly FillRecord[]): string {
  const rows = KINDS.map((kind) => {
    const s = score(records.filter((r) => r.kind === kind));
    return [
      NAME[kind],
      `${s.fills}`,
      missedText(s.missed, s.over),
      falseText(s.falseUrgent, s.under),
      `${s.between} (${s.betweenAlarmed} alarmed)`,
      three(s.lead),
      kind === 'stuck' ? shares(s) : '-',
    ];
  });
  return table(
    [
      'kind',
      'fills',
      'missed (95 % bound)',
      'false urgent (95 % interval)',
      'in between',
      'lead min / 5 % / median, s',
      'share used, median / 5 %',
    ],
    rows,
  );
}
