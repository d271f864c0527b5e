import { METRIC, scaleOf, show, type UnitChoice } from '../../../units/display.ts';
import { LiveBuffer } from '../../live-buffer.ts';
import { dashOf } from '../../trace-dashes.ts';
import { paceOf } from '../../trace-data.ts';
import { type LanesSize, lanesBox } from '../geometry.ts';
import type { LadderState } from '../ladder-state.ts';
import type { MarkedLimits } from '../marks.ts';
import type { PressureUnit, ReadingUnit } from '../numerals.ts';
import type { LanesPicture } from '../painter.ts';
import { scaleEnd } from '../scale.ts';
import { temperatureScale } from '../temperature-lane.ts';
import { ticksOf } from '../time-axis.ts';

/** Pictures of the lanes in every state, from invented runs: what the tests draw and lay out. */

export const SIZES = {
  tablet: { w: 696, h: 502, ladderW: 242, ribbonH: 34, tempH: 85, axisH: 22, small: false },
  laptop: { w: 948, h: 650, ladderW: 328, ribbonH: 34, tempH: 110, axisH: 22, small: false },
  phone: { w: 348, h: 370, ladderW: 158, ribbonH: 24, tempH: 62, axisH: 16, small: true },
  low: { w: 357, h: 314, ladderW: 162, ribbonH: 22, tempH: 58, axisH: 15, small: true },
} as const satisfies Record<string, LanesSize>;

export const LIMITS: MarkedLimits = {
  ratedBar: 1.8,
  ceilingBar: 1.74,
  workingBar: 1.5,
  floorBar: 0.77,
  seatBar: 0.4,
};
/** All within 0.3 bar. */
export const NARROW: MarkedLimits = {
  ratedBar: 0.8,
  ceilingBar: 0.76,
  workingBar: 0.7,
  floorBar: 0.55,
  seatBar: 0.5,
};

export const unitOf = (units: UnitChoice): PressureUnit => {
  const { unit, factor } = scaleOf('pressure', units);
  return {
    unit,
    factor,
    text: (bar) => show('pressure', bar, units).number,
    axis: (value, digits) => value.toFixed(digits),
  };
};
const CELSIUS: ReadingUnit = { unit: '°C', factor: 1, shift: 0, text: String, axis: (v, d) => v.toFixed(d) };

export const WORDS: LanesPicture['words'] = {
  marks: { rated: 'Rated', ceiling: 'Ceiling', working: 'Working', floor: 'Floor', seat: 'Seat' },
  ghost: { settles: 'Settles', 'left-open': 'If left open', warmth: 'Lifts to' },
  last: 'Last',
  atLeast: 'At least',
  letOutTo: 'Let out to',
  leaveAtLeast: 'Leave',
  lowered: (from) => `Ceiling, was ${from}`,
  now: 'now',
  loupe: { title: 'The foot, enlarged, last 30 s', allowed: (v) => `counts as zero to ${v}` },
};
/** The same a third longer, as another language may be. */
const third = (s: string) => s + s.slice(0, Math.ceil(s.length / 3)).replace(' ', 'n');
export const LONG_WORDS: LanesPicture['words'] = {
  marks: {
    rated: third('Rated'),
    ceiling: third('Ceiling'),
    working: third('Working'),
    floor: third('Floor'),
    seat: third('Seat'),
  },
  ghost: { settles: third('Settles'), 'left-open': third('If left open'), warmth: third('Lifts to') },
  last: third('Last'),
  atLeast: third('At least'),
  letOutTo: third('Let out to'),
  leaveAtLeast: third('Leave'),
  lowered: (from) => third(`Ceiling, was ${from}`),
  now: third('now'),
  loupe: { title: third('The foot, enlarged, last 30 s'), allowed: (v) => third(`counts as zero to ${v}`) },
};

const state = (part: Partial<LadderState>): LadderState => ({
  bar: 1.47,
  trust: 'good',
  endBar: 2.196,
  limits: LIMITS,
  loweredFromBar: null,
  aim: null,
  ghost: null,
  order: null,
  rateBarPerS: null,
  second: null,
  ...part,
});

/** States of the ladder by name. */
export const LADDERS = {
  prepare: state({ bar: 0.001 }),
  seat: state({ bar: 0.4, aim: 'seat', rateBarPerS: 0.001 }),
  cue: state({
    bar: 1.12,
    aim: 'working',
    rateBarPerS: 0.047,
    ghost: { value: 1.52, low: 1.49, high: 1.55, by: 'settles', isUrgent: false },
  }),
  rising: state({
    bar: 1.38,
    aim: 'working',
    rateBarPerS: 0.06,
    ghost: { value: 1.93, low: 1.88, high: 1.97, by: 'left-open', isUrgent: true },
  }),
  ceiling: state({ bar: 1.76, rateBarPerS: 0.03 }),
  over: state({ bar: 3, rateBarPerS: 0.01, endBar: scaleEnd(1.8, 3) }),
  range: state({ bar: 4, trust: 'over', endBar: scaleEnd(1.8, 4) }),
  hold: state({ aim: 'band' }),
  lowered: state({ aim: 'band', limits: { ...LIMITS, ceilingBar: 1.6 }, loweredFromBar: 1.74 }),
  lift: state({
    bar: 1.61,
    aim: 'band',
    ghost: { value: 1.78, low: 1.74, high: 1.81, by: 'warmth', isUrgent: false },
    order: { toBar: 1.35, notUnderBar: 0.9 },
  }),
  lost: state({ bar: 1.46, trust: 'lost', aim: 'band' }),
  stale: state({ bar: 1.46, trust: 'stale', aim: 'band' }),
  letDown: state({ bar: 0.62, rateBarPerS: -0.02 }),
  rebound: state({ bar: 0.06 }),
  noLimit: state({ bar: 1.21, limits: null, endBar: scaleEnd(null, 1.5) }),
  narrow: state({
    bar: 0.66,
    limits: NARROW,
    endBar: scaleEnd(0.8, 0.7),
    aim: 'working',
    ghost: { value: 0.71, low: 0.69, high: 0.73, by: 'settles', isUrgent: false },
  }),
  none: state({ bar: null, trust: 'none' }),
} as const satisfies Record<string, LadderState>;
export type PictureName = keyof typeof LADDERS;

/** A course that ends at the state's pressure: seated, filled, held. */
function bufferOf(name: PictureName, seconds: number): LiveBuffer {
  const buffer = new LiveBuffer();
  const end = LADDERS[name].bar ?? 0;
  const trust = LADDERS[name].trust;
  let seed = 7;
  const noise = () => {
    seed = (seed * 16_807) % 2_147_483_647;
    return seed / 2_147_483_647 - 0.5;
  };
  const n = seconds * 10;
  const s = new Float64Array(n);
  const bar = new Float32Array(n);
  const temps = [0, 1, 2].map((channel) => ({ channel, c: new Float32Array(n) }));
  const isHeld = seconds > 1000;
  for (let i = 0; i < n; i++) {
    const t = i / 10;
    const left = seconds - t;
    s[i] = t;
    if (isHeld) bar[i] = Math.min(end, (end * t) / 70) + noise() * 0.004;
    else if (name === 'letDown') bar[i] = left > 72 ? 1.46 : 1.46 * Math.exp(-(72 - left) / 84);
    else if (name === 'rebound')
      bar[i] = left > 14 ? Math.max(0, 0.5 * Math.exp(-(120 - left) / 16) - 0.003) : 0.0043 * (14 - left);
    else if (end < 0.01) bar[i] = 0.001 + noise() * 0.004;
    else if (left > 92) bar[i] = noise() * 0.002;
    else if (left > 20 || end < 0.5) bar[i] = 0.4 * (1 - Math.exp(-(92 - left) / 6)) + noise() * 0.003;
    else bar[i] = 0.4 + (end - 0.4) * ((20 - left) / 20) ** 0.85 + noise() * 0.003;
    if (trust === 'none' || (trust === 'lost' && left < 30)) bar[i] = Number.NaN;
    const bump = isHeld ? 4.2 * Math.exp(-(((t - seconds * 0.6) / (seconds * 0.25)) ** 2)) : 0;
    const values = [
      10.2 + bump,
      10.6 + bump * 1.25 + (isHeld ? 0 : Math.max(0, 25 - left) * 0.12),
      10 + bump * 0.6,
    ];
    for (const [k, v] of values.entries())
      temps[k]!.c[i] = i % 10 === 0 && trust !== 'none' ? v + noise() * 0.1 : Number.NaN;
  }
  buffer.append({ s, bar, second: null, temps });
  return buffer;
}

/** A picture of a state at a size. */
export function pictureOf(
  name: PictureName,
  size: LanesSize,
  units: UnitChoice = METRIC,
  words: LanesPicture['words'] = WORDS,
): LanesPicture {
  const ladder = LADDERS[name];
  const isHeld = ['hold', 'lowered', 'lift', 'lost', 'stale'].includes(name);
  const spanS = isHeld ? 5400 : 120;
  const nowS = isHeld ? 3900 : 130;
  const box = lanesBox(size);
  const { ticks } = ticksOf(-spanS, 0, box.pressure, size.small ? 62 : 96);
  const isDown = name === 'rebound';
  return {
    size,
    box,
    ladder,
    lines: {
      spanS,
      nowS,
      scale: temperatureScale(9, isHeld ? 16 : 13, CELSIUS),
      dashes: new Map([0, 1, 2].map((c) => [c, { dash: dashOf(c + 1), isFirst: c === 0 }])),
      pace: paceOf(50),
      gaps: [],
    },
    limitsBefore:
      ladder.loweredFromBar === null
        ? []
        : [{ ...LIMITS, fromS: Number.NEGATIVE_INFINITY, toS: nowS - 0.4 * spanS }],
    buffer: bufferOf(name, nowS),
    ticks: ticks
      .filter((t) => t.s < 0)
      .map((t) => ({ ...t, text: spanS > 600 ? `−${-t.s / 60} min` : `−${-t.s} s` })),
    marks:
      name === 'over' || name === 'rising'
        ? [{ atS: nowS - 12, priority: 'urgent', isShelved: false }]
        : name === 'lift'
          ? [
              { atS: nowS - 300, priority: 'high', isShelved: false },
              { atS: nowS - 2500, priority: 'low', isShelved: true },
            ]
          : [],
    unknown: ladder.trust === 'lost' ? [{ fromS: nowS - 300, toS: nowS }] : [],
    temperatures: ['Sleeve', 'Air', 'Pipe wall'].map((n, i) => ({
      name: n,
      value: ladder.trust === 'none' ? '–' : `${[12.3, 12.6, 11.4][i]}`,
      dash: dashOf(i + 1),
      tone: i === 0 ? ('ink' as const) : ('ink3' as const),
    })),
    loupe: isDown
      ? {
          points: Array.from({ length: 60 }, (_, i) => ({
            s: i / 2 - 30,
            bar: i < 32 ? 0 : (i - 32) * 0.0021,
          })),
          allowedBar: 0.02,
          bar: 0.06,
        }
      : null,
    practice: name === 'seat' ? 'PRACTICE' : null,
    pressureUnit: unitOf(units),
    temperatureUnit: CELSIUS,
    words,
  };
}
