/** Figures of the campaign of sleeves. */
import { AMBER, BLUE, distribution, figure, GREEN, GREY, type Panel, RED, thin } from './plot.ts';
import { PLACES } from './sleeves.ts';
import { judgeSleeve, METHODS, type Method, ratioOf, type SleeveResult } from './sleeves-judge.ts';
import { PLACE_NAME } from './sleeves-report.ts';
import { drawSleeve, type ProbePlace } from './sleeves-scenario.ts';

const COLOUR: Readonly<Record<Method, string>> = {
  program: BLUE,
  line20: RED,
  probe: AMBER,
  ground: GREY,
  midway: GREEN,
};
const DASH: Readonly<Record<Method, string | undefined>> = {
  program: undefined,
  line20: '2 3',
  probe: '6 3',
  ground: '8 3 2 3',
  midway: '4 2',
};
const SHORT: Readonly<Record<Method, string>> = {
  program: 'program',
  line20: '20 °C line',
  probe: 'probe',
  ground: 'ground',
  midway: 'midway',
};

function ratios(records: readonly SleeveResult[], probe: ProbePlace): Panel {
  const list = records.filter((r) => r.probe === probe);
  return {
    title: `Declared over true time, probe ${PLACE_NAME[probe]}`,
    xLabel: 'ratio (left of 1: early)',
    yLabel: 'share of sleeves',
    xRange: [0, 3],
    yRange: [0, 1],
    series: METHODS.map((m) => ({
      ...distribution(list.map((r) => ratioOf(r, m)).filter(Number.isFinite)),
      colour: COLOUR[m],
      label: SHORT[m],
      ...(DASH[m] === undefined ? { width: 2 } : { dash: DASH[m] }),
    })),
    rules: [{ at: 1, axis: 'x', colour: RED, dash: '3 3' }],
  };
}

/** One sleeve: what the probe reads, the coldest resin, and what is believed of it. */
function example(probe: ProbePlace, seed: number): Panel[] {
  const s = drawSleeve(probe, seed);
  const t: number[] = [];
  const read: number[] = [];
  const coldest: number[] = [];
  const value: number[] = [];
  const low: number[] = [];
  const x = { value: [] as number[], low: [] as number[], degree: [] as number[] };
  const r = judgeSleeve(s, (step) => {
    if (step.tS % 60 !== 0 || step.cure.coldestC === null || step.cure.metUs !== null) return;
    t.push(step.tS / 3600);
    read.push(step.probeC);
    coldest.push(step.truth.coldestC);
    value.push(step.cure.coldestC.value);
    low.push(step.cure.coldestC.low);
    x.value.push(step.cure.progress);
    x.low.push(step.cure.low);
    x.degree.push(step.truth.leastCured / s.criterion);
  });
  const line = (y: number[], colour: string, label: string, dash?: string) => ({
    ...thin(t, y),
    colour,
    label,
    ...(dash === undefined ? {} : { dash }),
  });
  const rules =
    r.trueS === null
      ? []
      : [{ at: r.trueS / 3600, axis: 'x' as const, colour: RED, label: 'true', dash: '3 3' }];
  return [
    {
      title: `Probe ${PLACE_NAME[probe]} (seed ${seed})`,
      xLabel: 'h from seating',
      yLabel: '°C',
      series: [
        line(read, AMBER, 'probe'),
        line(coldest, RED, 'coldest resin'),
        line(value, BLUE, 'believed'),
        line(low, BLUE, 'its low end', '4 3'),
      ],
      rules,
    },
    {
      title: 'Progress',
      xLabel: 'h from seating',
      yLabel: 'share',
      series: [
        line(x.degree, RED, 'least cured / end'),
        line(x.value, BLUE, 'middle'),
        line(x.low, BLUE, 'lower bound', '4 3'),
      ],
      rules: [...rules, { at: 1, axis: 'y', colour: GREY, dash: '2 2' }],
    },
  ];
}

export function sleevesFigures(records: readonly SleeveResult[]): Record<string, string> {
  const dry = (probe: ProbePlace) =>
    records.find((r) => r.probe === probe && r.water === 'below' && r.points >= 2 && (r.trueS ?? 0) > 5400)
      ?.seed ?? 1;
  return {
    'sleeves-ratios.svg': figure(
      PLACES.map((p) => ratios(records, p)),
      3,
    ),
    'sleeves-examples.svg': figure(PLACES.flatMap((p) => example(p, dry(p)))),
  };
}
