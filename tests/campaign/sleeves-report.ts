/** The sleeves' section of the validation page: tables in Markdown. */
import { FIRST_SEED, HEATED_SEED, PLACES, TUNING_SEED } from './sleeves.ts';
import { HEATED_PROBES } from './sleeves-heated.ts';
import { isEarly, METHODS, type Method, ratioOf, type SleeveResult } from './sleeves-judge.ts';
import type { ProbePlace } from './sleeves-scenario.ts';
import { WAITING } from './sleeves-waiting.ts';
import { quantile, rate } from './stats.ts';

export const METHOD_NAME: Readonly<Record<Method, string>> = {
  program: 'lower bound reaches 1 (the program)',
  line20: 'the sheet’s 20 °C line',
  probe: 'sheet’s time at the probe’s temperature',
  ground: 'sheet’s time at the typed ground temperature',
  midway: 'midway between probe and ground',
};
export const PLACE_NAME: Readonly<Record<ProbePlace, string>> = {
  sleeve: 'on the sleeve’s inside',
  air: 'in the packer’s air',
  pipe: 'on the pipe’s wall',
  ground: 'no probe',
};

function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  return [head, head.map(() => '---'), ...rows].map((r) => `| ${r.join(' | ')} |`).join('\n');
}

const two = (x: number): string => (Number.isFinite(x) ? x.toFixed(2) : 'not said');

function row(name: string, records: readonly SleeveResult[], method: Method): string[] {
  const ratios = records.map((r) => ratioOf(r, method));
  return [
    name,
    `${records.length}`,
    rate(records.filter((r) => isEarly(r, method)).length, records.length),
    two(quantile(ratios, 0)),
    two(quantile(ratios, 0.05)),
    two(quantile(ratios, 0.5)),
    two(quantile(ratios, 0.95)),
  ];
}

const HEAD = ['', 'sleeves', 'early (95 % interval)', 'least ratio', '5 %', 'median', '95 %'];

function spreadOf(records: readonly SleeveResult[]): string {
  const logs = records.filter((r) => r.progress !== null && r.progress > 0).map((r) => Math.log(r.progress!));
  const p = (q: number) => `${(100 * (Math.exp(quantile(logs, q)) - 1)).toFixed(0)} %`;
  return `${p(0.05)}, ${p(0.5)}, ${p(0.95)}`;
}

/** How the forecast of the clock time did. */
function clockText(records: readonly SleeveResult[]): string {
  const asked = records.filter((r) => r.clock !== null && r.declaredS.program !== null);
  const held = asked.filter(
    (r) => r.declaredS.program! >= r.clock!.lowS - 60 && r.declaredS.program! <= r.clock!.highS + 60,
  ).length;
  const off = asked.map(
    (r) => Math.abs(r.clock!.valueS - r.declaredS.program!) / (r.declaredS.program! - r.clock!.atS),
  );
  const width = asked.map((r) => (r.clock!.highS - r.clock!.lowS) / (r.declaredS.program! - r.clock!.atS));
  const p = (x: number) => `${(100 * x).toFixed(0)} %`;
  return `The clock, asked once when the lower bound is at a quarter: the time at which ‘met’ was then said lay in its range (to a minute) in
${rate(held, asked.length)}. Its middle was off by ${p(quantile(off, 0.5))} of the time still to go in the median (95 %: ${p(quantile(off, 0.95))}); the
range is ${p(quantile(width, 0.5))} of it wide in the median.`;
}

const medianOf = (list: readonly SleeveResult[]): number =>
  quantile(
    list.map((r) => ratioOf(r, 'program')),
    0.5,
  );

/** What each thing that a job does not know costs: medians of the same sleeves with one more of them known. */
function waitingTable(waiting: readonly (readonly SleeveResult[])[]): string {
  const medians = waiting.map(medianOf);
  return table(
    ['known, each beside those above it', 'early', 'median ratio', 'the wait falls by'],
    WAITING.map(({ name }, i) => {
      const list = waiting[i] ?? [];
      const early = list.filter((r) => isEarly(r, 'program')).length;
      const before = medians[i - 1];
      const cost = before === undefined ? '' : `${(100 * (1 - medians[i]! / before)).toFixed(1)} %`;
      return [name, `${early} of ${list.length}`, two(medians[i]!), cost];
    }),
  );
}

/** By what the camera showed, where the level does not say that the defect is dry. */
function cameraRows(probed: readonly SleeveResult[]): string[][] {
  const open = probed.filter((r) => r.water !== 'below');
  const rows: readonly (readonly [string, (r: SleeveResult) => boolean])[] = [
    ['level above or not known: not looked', (r) => r.infiltration === 'not-looked'],
    ['level above or not known: none seen', (r) => r.infiltration === 'none'],
    ['of these: none seen, and yet it seeps', (r) => r.infiltration === 'none' && r.seeps],
    ['level above or not known: damp', (r) => r.infiltration === 'damp'],
    [
      'level above or not known: dripping or running',
      (r) => r.infiltration === 'dripping' || r.infiltration === 'running',
    ],
  ];
  return rows.map(([name, f]) => row(name, open.filter(f), 'program'));
}

export function sleevesSection(
  records: readonly SleeveResult[],
  waiting: readonly (readonly SleeveResult[])[],
  heated: readonly SleeveResult[],
  failed: number,
): string {
  const probed = records.filter((r) => (PLACES as readonly string[]).includes(r.probe));
  const ground = records.filter((r) => r.probe === 'ground');
  const of = (f: (r: SleeveResult) => boolean) => probed.filter(f);
  const early = probed.filter((r) => isEarly(r, 'program')).length;
  const median = medianOf(probed);
  const dry = of((r) => r.water === 'below');
  const dryMedian = medianOf(dry);
  const above = of((r) => r.water === 'above');
  const share = (n: number) => `${((100 * n) / Math.max(1, probed.length)).toFixed(2)} %`;
  return `
${probed.length} simulated sleeves with one probe (a third each on the sleeve’s inside, in the packer’s air, on the pipe’s wall) and
${ground.length} without any${failed === 0 ? '' : `; ${failed} more could not be simulated and are left out`}. Reported seeds: from ${FIRST_SEED} on at each place. Coverage factors and the
observer’s steering were chosen on seeds from ${TUNING_SEED} on. Five sets were reported before: seeds 1 to 500 (3 of 1500 early, median 1.36) before what the
camera showed was asked; seeds 5001 to 5500, on which 9 of 1500 = 0.60 % (0.27-1.14) were early with the rise over the ground
at k = 1.6, so that this k went back to the 2 it had been; seeds 10001 to 10500, on which 6 of 1500 = 0.40 % (0.15-0.87) were
early, 5 of them of 370 under groundwater with the bound for water at k = 1, which went back to the 1.3 it had been; seeds
20001 to 20500 (5 of 1500 early, median 1.33) before packers that are warmed from outside were judged; and seeds
60001 to 60500 (2 of 1500 early, median 1.35) before cup and witness sample were believed. Nothing else was changed on seeing any of them.

*Early*: ‘met’ was said before the least cured layer of resin, anywhere, reached the degree of cure at which the data
sheet’s times end. *Ratio*: the time at which it was said over the time at which that was true.

What is drawn: autocatalytic kinetics of Kamal’s form (two activation energies of 40-80 kJ/mol, orders, heat, an induction
time in two of five, vitrification in one of four); a sheet of one to four points made from them at 5-30 °C with scatter of 1-5 %
and rounding to 5-30 min, the exotherm’s class named in two of three; pipes of 100-400 mm of seven kinds; sleeves of 2.5-6 mm and packers at other temperatures than the ground;
conductivities tens of per cent off the handbook’s; the pipe’s data on the job sheet complete in some jobs only; ground typed with
1-3 K; probes of tolerance class 1 or 2 (their error anywhere in the class) or calibrated, a cold junction’s error, imperfect contact.
Groundwater stands above the invert and is known to in 25 %, is not known in 15 %, else is known to be below; where it stands above, half of
the defects let it in (10-150 W/(m²·K) at the sleeve’s outside). At three defects of four a camera had looked: it misses a seep in 35 % (of
10 W/(m²·K)) to 5 % (of 150), and takes a dry wall for damp in 10 % and for dripping in 2 %. The judge knows none of the laws, nor whether water seeps.

### The goal

${table(
  ['', 'goal', 'measured', 'met'],
  [
    [
      'early',
      '≤ 0.5 %',
      `${rate(early, probed.length)}`,
      early / Math.max(1, probed.length) <= 0.005 ? 'yes' : 'no',
    ],
    ['median ratio, all', '≤ 1.25', two(median), median <= 1.25 ? 'yes' : 'no'],
    [
      'median ratio, groundwater known to be below the invert',
      '',
      `${two(dryMedian)} (${dry.length} sleeves, ${share(dry.length)} of all)`,
      dryMedian <= 1.25 ? 'yes' : 'no',
    ],
  ],
)}

Where groundwater stands above the invert ${rate(above.filter((r) => isEarly(r, 'program')).length, above.length)} were early. A crew that sees
water should wait for the witness sample, whatever is said here.

### What the waiting is for

The same ${waiting[0]?.length ?? 0} sleeves (tuning seeds), with one thing after the other known that a job does not know:

${waitingTable(waiting)}

The last line is what remains when all is known: 3 % scatter that is granted to any sheet and 0.4 K for placing any probe, at k = 1.6, and
resin outside that is colder than what the model behind the probe says. The rule to count from seating and not from mixing costs the
step before it. What a site can do: look at the defect and find out the water’s level, and calibrate the probe (a class 2 thermocouple is
1.4 K (1 s), about 11 % of the time). No choice of bounds closes the gap to the goal: a smaller k that brought the median of dry pipes to 1.22
made 0.6 % early on 3000 tuning sleeves, and the ground’s temperature weighed with the probe’s (instead of the better of both) 0.5 %. On those
sleeves (with the bound for water at k = 1) the camera’s answer took the median of all from 1.33 to 1.32, and that of none seen where
the level is open from 1.62 to 1.47.

### Packers that are warmed from outside

${heated.length} more sleeves (seeds from ${HEATED_SEED} on), a third each with the probe on the sleeve’s inside, in the packer and on the pipe’s wall:
hot air of 40-75 °C, warm water of 40-70 °C or steam and air of 60-85 °C, which the job sheet names in two of three and says nothing of
else; three in ten in iron, two in ten in 40-90 mm of concrete, named on the job sheet in three of five of them; sleeves of 3-10 mm; sheets with one to five points up to 60 °C.
The resin’s own heat comes on top of it in the simulated world; the judge credits none. No more is credited than at 10 K over a
sheet’s hottest point: with a sheet that ends at 20 °C the wait is long, whatever the heater does.

${table(HEAD, [
  row('all', heated, 'program'),
  ...HEATED_PROBES.map((p) =>
    row(
      `probe ${PLACE_NAME[p]}`,
      heated.filter((r) => r.probe === p),
      'program',
    ),
  ),
  row(
    'iron',
    heated.filter((r) => r.material === 'iron'),
    'program',
  ),
  row(
    'concrete',
    heated.filter((r) => r.material === 'concrete'),
    'program',
  ),
  row(
    'what warms it is not said',
    heated.filter((r) => r.heating === 'unknown'),
    'program',
  ),
  row('the sheet’s time at the probe’s temperature, all', heated, 'probe'),
])}

### Against the four ways of reading a sheet

${table(
  HEAD,
  METHODS.map((m) => row(METHOD_NAME[m], probed, m)),
)}

### By place of the probe

${table(
  ['place', 'method', ...HEAD.slice(1)],
  [...PLACES, 'ground' as const].flatMap((place) => {
    const list = records.filter((r) => r.probe === place);
    const methods = place === 'ground' ? (['program', 'line20', 'ground'] as const) : METHODS;
    return methods.map((m) => [PLACE_NAME[place], ...row(METHOD_NAME[m], list, m)]);
  }),
)}

### The program, by what is known

${table(HEAD, [
  row('groundwater below the invert', dry, 'program'),
  row(
    'groundwater above the invert',
    of((r) => r.water === 'above'),
    'program',
  ),
  row(
    'groundwater not known',
    of((r) => r.water === 'unknown'),
    'program',
  ),
  ...cameraRows(probed),
  row(
    'water really seeps in',
    of((r) => r.seeps),
    'program',
  ),
  ...[1, 2, 3, 4].map((n) =>
    row(
      `sheet of ${n} ${n === 1 ? 'point' : 'points'}, dry`,
      of((r) => r.water === 'below' && r.points === n),
      'program',
    ),
  ),
  row(
    'probe better than 1 K, dry',
    of((r) => r.water === 'below' && r.uC < 1),
    'program',
  ),
  row(
    'probe of class 2 (K), dry',
    of((r) => r.water === 'below' && r.uC > 2.5),
    'program',
  ),
])}

Progress (middle) at the moment when the criterion was truly reached, against 1: 5 %, 50 % and 95 % of the sleeves with dry pipes:
${PLACES.map((p) => `${PLACE_NAME[p]} ${spreadOf(dry.filter((r) => r.probe === p))}`).join('; ')}.

${clockText(probed)}

Quick resins (under an hour) seen from the packer’s air are told late: the rubber passes the warmth on only after some minutes,
and what was not measured in time is not credited.

![Ratios of all methods](figures/sleeves-ratios.svg)

![Three sleeves](figures/sleeves-examples.svg)
`;
}
