/** Pictures of the fills' campaign. */
import { type FillRecord, scenarioOf } from './fills.ts';
import { judge } from './fills-judge.ts';
import type { Kind } from './fills-scenario.ts';
import { score } from './fills-score.ts';
import { runScenario } from './fills-world.ts';
import { AMBER, BLUE, distribution, figure, GREEN, GREY, INK, type Panel, RED, thin } from './plot.ts';

function leads(records: readonly FillRecord[]): string {
  const panel = (kind: Kind, title: string, top: number): Panel => {
    const s = score(records.filter((r) => r.kind === kind));
    return {
      title,
      xLabel: 'lead before true rated, s',
      yLabel: 'share of fills',
      xRange: [0, top],
      yRange: [0, 1],
      series: [
        { ...distribution(s.lead), colour: BLUE, label: 'guard', width: 2 },
        { ...distribution(s.leadNinety), colour: AMBER, label: '90 % of rated', dash: '6 3' },
        { ...distribution(s.leadCeiling), colour: RED, label: 'ceiling', dash: '2 2' },
      ],
    };
  };
  const stuck = score(records.filter((r) => r.kind === 'stuck'));
  return figure([
    panel('high', 'Regulator set too high', 40),
    panel('creep', 'Regulator creeping', 50),
    panel('stuck', 'Supply stuck open', 12),
    {
      title: 'Stuck open: share of the time used',
      xLabel: 'share of the time from leaving the band to rated',
      yLabel: 'share of fills',
      xRange: [0, 1],
      yRange: [0, 1],
      series: [{ ...distribution(stuck.share), colour: BLUE, width: 2 }],
    },
  ]);
}

function settles(records: readonly FillRecord[]): string {
  const named = records.filter((r) => r.kind === 'high' && r.verdict.what === 'settle');
  const over = (r: FillRecord, bar: number) => bar - r.ceilingBar;
  const panels: Panel[] = [
    {
      title: 'Named in the alarm, against the truth',
      xLabel: 'regulator over the ceiling, bar',
      yLabel: 'named settling point over it, bar',
      xRange: [0, 1],
      yRange: [0, 1.5],
      whiskers: named.map((r) => ({
        x: over(r, r.setBar),
        y0: over(r, r.verdict.values!.settleLowBar!),
        y1: over(r, r.verdict.values!.settleHighBar!),
        colour: BLUE,
      })),
      series: [
        { x: [0, 1.5], y: [0, 1.5], colour: GREY, dash: '4 3', label: 'equal' },
        {
          x: named.map((r) => over(r, r.setBar)),
          y: named.map((r) => over(r, r.verdict.values!.settleBar!)),
          colour: INK,
          dots: true,
        },
      ],
    },
    {
      title: 'How far off it was told',
      xLabel: 'regulator over the ceiling, bar',
      yLabel: 'reading under the ceiling then, bar',
      xRange: [0, 1],
      yRange: [0, 1],
      series: [
        {
          x: named.map((r) => over(r, r.setBar)),
          y: named.map((r) => -over(r, r.verdict.values!.bar!)),
          colour: GREEN,
          dots: true,
        },
      ],
    },
  ];
  return figure(panels);
}

/** The first fill of a kind whose alarm was of the wanted sort: an example is not chosen by hand. */
function example(records: readonly FillRecord[], kind: Kind, what: string, title: string): Panel | null {
  const record = records.find((r) => r.kind === kind && r.verdict.what === what && r.tap === 'packer');
  if (record === undefined) return null;
  const trace = runScenario(scenarioOf(record));
  const verdict = judge(trace);
  const s = trace.scenario;
  const t = [...trace.t];
  return {
    title,
    xLabel: 'time, s',
    yLabel: 'bar',
    yRange: [0, s.ratedBar * 1.12],
    xRange: [0, t[t.length - 1]!],
    series: [
      { ...thin(t, [...trace.x]), colour: GREY, label: 'reading', width: 1 },
      { ...thin(t, [...trace.packer]), colour: BLUE, label: 'true, packer', width: 2 },
    ],
    rules: [
      { axis: 'y', at: s.ratedBar, colour: RED, label: 'rated' },
      { axis: 'y', at: s.workingBar, colour: GREEN, label: 'working', dash: '5 3' },
      ...(Number.isNaN(verdict.atS)
        ? []
        : [{ axis: 'x' as const, at: verdict.atS, colour: RED, label: verdict.what, dash: '3 2' }]),
    ],
  };
}

/** Name of the file under docs/figures → SVG. */
export function fillsFigures(all: readonly FillRecord[]): Readonly<Record<string, string>> {
  const records = all.filter((r) => r.set === 'main');
  const examples = [
    example(records, 'high', 'settle', 'Regulator too high: it will settle over the ceiling'),
    example(records, 'creep', 'left-band', 'Creep: the band is left and it does not slow'),
    example(records, 'stuck', 'left-band', 'Stuck open'),
    example(records, 'hand', 'none', 'By hand in steps: no alarm'),
  ].filter((p): p is Panel => p !== null);
  return {
    'fills-leads.svg': leads(records),
    'fills-settle.svg': settles(records),
    'fills-examples.svg': figure(examples),
  };
}
