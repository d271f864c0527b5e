/** Figures of the holds. */
import { type HoldRecord, MARKS, playTask, WITNESSES } from './holds.ts';
import { leadOf } from './holds-report.ts';
import { AMBER, BLUE, distribution, figure, GREEN, type Panel, RED, type Series } from './plot.ts';
import { quantile } from './stats.ts';

const COLOUR = { air: BLUE, sleeve: AMBER, none: RED } as const;
const DASH = { air: '', sleeve: '5 3', none: '2 3' } as const;

function widths(records: readonly HoldRecord[]): Panel {
  const series: Series[] = WITNESSES.map((witness) => {
    const points = MARKS.flatMap((m) => {
      const list = records
        .filter((r) => r.set === 'cover' && r.witness === witness)
        .flatMap((r) => r.scored.filter((s) => s.minute === m).map((s) => (s.high - s.low) / 2));
      return list.length < 5 ? [] : [[m, Math.log10(quantile(list, 0.5))] as const];
    });
    const out = {
      x: points.map((p) => p[0]),
      y: points.map((p) => p[1]),
      colour: COLOUR[witness],
      label: witness,
    };
    return DASH[witness] === '' ? out : { ...out, dash: DASH[witness] };
  });
  return {
    title: 'Half width of the 95 % interval, median',
    xLabel: 'minutes of the segment',
    yLabel: 'log10 of mbar/min',
    series,
  };
}

function errors(records: readonly HoldRecord[]): Panel {
  const series: Series[] = WITNESSES.map((witness) => {
    const z = records
      .filter((r) => r.set === 'cover' && r.witness === witness)
      .flatMap((r) => r.scored.map((s) => (s.value - s.truth) / ((s.high - s.low) / 2)));
    const out = { ...distribution(z), colour: COLOUR[witness], label: witness };
    return DASH[witness] === '' ? out : { ...out, dash: DASH[witness] };
  });
  return {
    title: 'Error over half width: distribution',
    xLabel: 'error / half width',
    yLabel: 'share of figures',
    series,
    xRange: [-2, 2],
    yRange: [0, 1],
    rules: [
      { at: -1, axis: 'x', colour: GREEN, dash: '4 3' },
      { at: 1, axis: 'x', colour: GREEN, dash: '4 3' },
    ],
  };
}

function calls(records: readonly HoldRecord[]): Panel {
  const later = records.filter((r) => r.set === 'later2').map((r) => (r.afterLeakS ?? 9e9) / 60);
  const start = records.filter((r) => r.set === 'start2').map((r) => (r.calledS ?? 9e9) / 60);
  return {
    title: '2 mbar/min, probe in the air: when it is called',
    xLabel: 'minutes from its beginning',
    yLabel: 'share of runs',
    series: [
      { ...distribution(later), colour: BLUE, label: 'in a settled hold' },
      { ...distribution(start), colour: AMBER, label: 'from the fill on', dash: '5 3' },
    ],
    xRange: [0, 35],
    yRange: [0, 1],
    rules: [{ at: 10, axis: 'x', colour: GREEN, dash: '4 3', label: '10 min' }],
  };
}

function leads(records: readonly HoldRecord[]): Panel {
  const own = records.filter((r) => r.set === 'lift' && r.ceilingS !== null && r.riseS !== null);
  return {
    title: 'Lift: warning before the ceiling',
    xLabel: 'minutes from the low to the ceiling',
    yLabel: 'lead, min',
    series: [
      { x: own.map((r) => r.riseS! / 60), y: own.map((r) => leadOf(r) / 60), colour: BLUE, dots: true },
    ],
    xRange: [0, 90],
    yRange: [0, 60],
    rules: [{ at: 5, axis: 'y', colour: RED, dash: '4 3', label: '5 min' }],
  };
}

/** One tight packer through an exotherm, with what is said of it minute by minute. */
function exotherm(): string {
  const run = [0, 1, 2, 3, 4, 5, 6, 7]
    .map((i) => playTask({ set: 'exotherm', seed: 75_000 + i }))
    .filter((r) => r.scenario.witness === 'air')
    .sort((a, b) => b.gasMaxC - b.gasMinC - (a.gasMaxC - a.gasMinC))[0]!;
  const t = run.looks.map((l) => l.atS / 60);
  const told = run.looks.filter((l) => l.figure.low !== null);
  return figure([
    {
      title: 'A tight packer through an exotherm',
      xLabel: 'minutes of the hold',
      yLabel: 'bar',
      series: [{ x: t, y: run.looks.map((l) => l.trueBar), colour: BLUE, label: 'true pressure' }],
    },
    {
      title: 'Gas temperature',
      xLabel: 'minutes of the hold',
      yLabel: '°C',
      series: [{ x: t, y: run.looks.map((l) => l.gasC), colour: RED }],
    },
    {
      title: `Leak, 95 % interval (witness: ${run.scenario.witness})`,
      xLabel: 'minutes of the hold',
      yLabel: 'mbar/min',
      series: [
        {
          x: told.map((l) => l.atS / 60),
          y: told.map((l) => l.figure.mbarPerMin!),
          colour: BLUE,
          dots: true,
        },
      ],
      whiskers: told.map((l) => ({
        x: l.atS / 60,
        y0: Math.max(-6, l.figure.low!),
        y1: Math.min(6, l.figure.high!),
        colour: BLUE,
      })),
      yRange: [-4, 4],
      rules: [{ at: 0, axis: 'y', colour: GREEN, label: 'truth' }],
    },
    {
      title: 'What the pressure alone would say',
      xLabel: 'minutes of the hold',
      yLabel: 'mbar/min',
      series: [
        {
          x: t.slice(1),
          y: run.looks
            .slice(1)
            .map((l, i) => ((run.looks[i]!.trueBar - l.trueBar) * 60e3) / (l.atS - run.looks[i]!.atS)),
          colour: AMBER,
        },
      ],
      rules: [{ at: 0, axis: 'y', colour: GREEN, label: 'truth' }],
    },
  ]);
}

export function holdsFigures(records: readonly HoldRecord[]): Record<string, string> {
  return {
    'holds-leak.svg': figure([widths(records), errors(records), calls(records), leads(records)]),
    'holds-exotherm.svg': exotherm(),
  };
}
