/** The part of the fills' section that is about quick fills: by slope, and the advice to throttle. */
import type { FillRecord } from './fills.ts';
import { CLOSE_S } from './fills-judge.ts';
import { KINDS, type Kind } from './fills-scenario.ts';
import { score, three } from './fills-score.ts';
import { byKind, falseText, shares, table } from './fills-tables.ts';
import { rate } from './stats.ts';

/** Slopes at the working pressure that the table tells apart, bar/s. */
const SLOPES = [0, 0.02, 0.05, 0.1, 0.2, 0.3, 0.45, Number.POSITIVE_INFINITY] as const;

function slopes(records: readonly FillRecord[]): string {
  const rows = SLOPES.slice(0, -1).map((from, i) => {
    const to = SLOPES[i + 1]!;
    const part = records.filter((r) => r.slopeBarPerS > from && r.slopeBarPerS <= to);
    const kind = (k: Kind) => score(part.filter((r) => r.kind === k));
    const missed = KINDS.reduce((n, k) => n + kind(k).missed, 0);
    const over = KINDS.reduce((n, k) => n + kind(k).over, 0);
    const [hand, high, creep, stuck] = [kind('hand'), kind('high'), kind('creep'), kind('stuck')];
    return [
      to === Number.POSITIVE_INFINITY ? `over ${1000 * from}` : `${1000 * from}-${1000 * to}`,
      `${part.length}`,
      `${missed} of ${over}`,
      falseText(hand.falseUrgent, hand.under),
      three(high.lead),
      three(creep.lead),
      three(stuck.lead),
      shares(stuck),
    ];
  });
  return table(
    [
      'slope at working, mbar/s',
      'fills',
      'missed',
      'false urgent, by hand',
      'lead too high, s',
      'lead creep, s',
      'lead stuck, s',
      'share stuck',
    ],
    rows,
  );
}

/** How late a hand of the setting is at the slope at working, s before the ceiling; under 0 it is late. */
function spareS(r: FillRecord): number {
  return (r.ceilingBar - r.workingBar) / r.slopeBarPerS - CLOSE_S;
}

function tooFast(records: readonly FillRecord[]): string {
  const open = records.filter((r) => r.slopeBarPerS > 0 && (r.kind === 'hand' || r.kind === 'stuck'));
  const told = (r: FillRecord) => r.verdict.fastAtS < r.verdict.workS;
  const rows = [
    ['late', (s: number) => s < 0],
    ['in time by less than 0.4 s', (s: number) => s >= 0 && s < 0.4],
    ['in time by 0.4-1 s', (s: number) => s >= 0.4 && s < 1],
    ['in time by more', (s: number) => s >= 1],
  ] as const;
  return table(
    [
      'a hand of 0.6 s at the slope at working is',
      'fills',
      'advised before working',
      'before it by min / 5 % / median, s',
    ],
    rows.map(([name, is]) => {
      const part = open.filter((r) => is(spareS(r)));
      const first = part.filter(told);
      return [
        name,
        `${part.length}`,
        rate(first.length, part.length),
        three(first.map((r) => r.verdict.workS - r.verdict.fastAtS)),
      ];
    }),
  );
}

/** Markdown; the common fills are in the tables by slope, too. */
export function quickPart(common: readonly FillRecord[], quick: readonly FillRecord[]): string {
  return `### Quick fills

Small packers on valves that are opened wide: pipes of 70-200 mm, packers of 0.3-0.8 m, nominal slopes of 20-1000 mbar/s, of which some 10-700 are left at the working pressure, hands that take 0.1-0.6 s; every other fill has a sensor of 20 Hz with 3-6 mbar of noise. The table holds these and the fills above, by the slope over the last 0.3 s before the working pressure.

${slopes([...common, ...quick])}

${byKind(quick)}

From some 250 mbar/s on the whole way from working to ceiling takes about as long as a hand does, and what it does shows in the readings when it is nearly over. Where even a hand that moved at the working pressure would be late, an alarm at once would help nobody and cry wolf at every quick hand; so the hand is looked for until the last moment, which is 0.15 s and one and a half samples before the ceiling, and then it is told, lest rated passes without a word. What helps on such a line is the advice before:

${tooFast([...common, ...quick])}

A valve that is opened wide within the last tenths of a second before the working pressure, or a supply that sticks open there, leaves no time for advice.`;
}
