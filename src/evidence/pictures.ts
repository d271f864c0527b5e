/** Pictures of records: one with its limits and stages, or several laid over each other. */

import type { TraceWindow } from '../engine/messages.ts';
import type { SecondPressure } from '../job/codes.ts';
import { sensorEndBar } from '../job/gauge-kind.ts';
import type { Place, Setup } from '../job/setup.ts';
import type { SeriesName } from '../record/types.ts';
import { ordinals } from '../units/ordinals.ts';
import type { WatchEvent } from '../watch/events.ts';
import type { Catalogue } from '../words/catalogue.ts';
import { METRIC } from '../words/create-format.ts';
import type { Align, Picture, PictureInk, PictureOrder } from './messages.ts';
import { floorOfRecord, holdsOf, lastLimited } from './numbers.ts';
import type { OpenRecord, Values } from './open.ts';
import { highestOf, type Plot, type PlotLine, plotSvg } from './plot-svg.ts';

export const DASHES = ['', '7 4', '2 3', '10 3 2 3', '5 2 1 2 1 2', '14 5'] as const;
const TEMPERATURE_DASHES = ['', '6 4', '2 3', '10 3 2 3'] as const;
/** A second pressure is thinner than the one that the guard goes by. */
const LINE_WIDTH: { readonly [N in SeriesName]: number } = { bar: 1.6, second: 0.8, temperature: 1 };
/** Buckets: two points each are more than a printed line can show. */
const POINTS = 900;

export const PAPER: PictureInk = {
  ground: '#ffffff',
  ink: '#000000',
  ink2: '#4a4a4a',
  line: '#d0d0d0',
  band: '#e9e9e9',
  alarm: { urgent: '#a50e1a', high: '#b06f00', low: '#3a3eb0' },
};

const gapsOf = (events: readonly WatchEvent[], firstUs: number) =>
  events.flatMap((e) =>
    e.e === 'gap' ? [{ fromS: (e.fromUs - firstUs) / 1e6, toS: (e.toUs - firstUs) / 1e6 }] : [],
  );

function seriesName({ terms, ui }: Catalogue, { name, place }: TraceWindow['series'][number]): string {
  if (name === 'bar') return ui.UI.pressure;
  if (name === 'second')
    return place !== null && Object.hasOwn(terms.SECOND_TITLE, place)
      ? terms.SECOND_TITLE[place as SecondPressure]
      : ui.UI.pressure;
  return place !== null && Object.hasOwn(terms.PLACE_TITLE, place)
    ? terms.PLACE_TITLE[place as Place]
    : ui.UI.temperature;
}

export interface Told {
  readonly events: readonly WatchEvent[];
  readonly setups: readonly Setup[];
  readonly firstUs: number;
  /** Seconds from the first sample. */
  readonly lastS: number;
}

/** The end of a sensor, where a line got there: what stood over it nobody knows, and no table names it. */
function endRules(lines: readonly PlotLine[], words: Catalogue): Plot['rules'] {
  const past = lines.filter((l) => l.endBar !== null && highestOf(l) > l.endBar);
  return [...new Set(past.map((l) => l.endBar!))].map((bar) => {
    const own = past.filter((l) => l.endBar === bar);
    return {
      bar,
      label: words.picture.PICTURE.sensorEnd,
      fromS: Math.min(...own.map((l) => l.window.fromS + l.shiftS)),
      toS: Math.max(...own.map((l) => l.window.toS + l.shiftS)),
      ...SENSOR_END,
    };
  });
}

/** Lines of a record's window: pressure first, then its temperatures. */
function linesOf(window: TraceWindow, told: Told, words: Catalogue): PlotLine[] {
  const gaps = gapsOf(told.events, told.firstUs);
  const names = window.series.map((s) => seriesName(words, s));
  const numbers = ordinals(names);
  const label = (i: number): string => {
    const n = numbers[i] ?? null;
    return n === null ? names[i]! : words.terms.NUMBERED(names[i]!, n);
  };
  let temperatures = 0;
  return window.series.map((s, series) => ({
    label: label(series),
    kind: s.name,
    window,
    series,
    shiftS: 0,
    dash: s.name !== 'temperature' ? '' : TEMPERATURE_DASHES[temperatures++ % TEMPERATURE_DASHES.length]!,
    width: LINE_WIDTH[s.name],
    endBar: s.name === 'bar' ? sensorEndBar(told.setups) : null,
    gaps,
  }));
}

/**
 * The limits in the line styles that they have on the screen: a ceiling is dashed, the working pressure solid, the floor
 * dash-dot, the seat dotted, and rated the thickest.
 */
export const RULES = {
  rated: { dash: '', width: 2.2 },
  ceiling: { dash: '7 4', width: 1 },
  working: { dash: '', width: 0.7 },
  floor: { dash: '11 3 3 3', width: 1 },
  seat: { dash: '3 3', width: 0.7 },
} as const;
/** No limit of the job: thinner than any of them. */
const SENSOR_END = { dash: '1 3', width: 0.7 } as const;
type RuleMark = keyof typeof RULES;

type Limited = Pick<Plot, 'rules' | 'bands' | 'stages' | 'marks'>;

/** Limits, hold band, stages and alarms as the record has them. */
export function decorOf({ events, setups, firstUs, lastS }: Told, words: Catalogue): Limited {
  const { PICTURE } = words.picture;
  const s = (us: number): number => Math.max(0, (us - firstUs) / 1e6);
  const rules: Plot['rules'][number][] = [];
  const bands: Plot['bands'][number][] = [];
  const limits = events.filter((e) => e.e === 'limits');
  limits.forEach((e, i) => {
    if (e.e !== 'limits') return;
    const next = limits[i + 1];
    const [fromS, toS] = [s(e.tUs), next === undefined ? lastS : s(next.tUs)];
    if (toS <= fromS) return;
    const set = setups.find((x) => x.number === e.setup)?.limits ?? null;
    const last = next === undefined;
    const rule = (mark: RuleMark, bar: number | null): void => {
      if (bar !== null) rules.push({ bar, label: last ? PICTURE[mark] : '', fromS, toS, ...RULES[mark] });
    };
    rule('rated', set?.ratedBar ?? null);
    if (e.ceilingBar !== (set?.ratedBar ?? null)) rule('ceiling', e.ceilingBar);
    rule('working', set?.cue === false ? null : e.workingBar);
    rule('floor', e.floorBar);
    rule('seat', set?.seatBar ?? null);
    if (e.floorBar !== null && e.ceilingBar !== null)
      bands.push({ fromS, toS, low: e.floorBar, high: e.ceilingBar });
  });
  const stages: Plot['stages'][number][] = [];
  for (const e of events) {
    if (e.e !== 'stage') continue;
    const before = stages.at(-1);
    if (before !== undefined) stages[stages.length - 1] = { ...before, toS: s(e.tUs) };
    stages.push({
      label: words.terms.stageName(e.stage, e.attempt),
      fromS: s(e.tUs),
      toS: lastS,
    });
  }
  const marks = events.flatMap((e) =>
    e.e === 'alarm' && e.why === 'condition' && e.to === 'unacknowledged'
      ? [{ atS: s(e.tUs), priority: e.priority }]
      : [],
  );
  return { rules, bands, stages, marks };
}

export interface Frame {
  readonly fromS: number;
  readonly toS: number;
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly units?: Plot['units'];
  readonly ink: PictureInk;
}

/** One record's trace with everything that the record says of it. */
export function recordPicture(told: Told, values: Values, frame: Frame, words: Catalogue): string {
  const window = values.window(frame.fromS, frame.toS, POINTS);
  const lines = linesOf(window, told, words);
  const decor = decorOf(told, words);
  return plotSvg({
    units: METRIC,
    format: words.format,
    timeName: words.picture.PICTURE.time(frame.toS),
    ...frame,
    ...decor,
    rules: [...decor.rules, ...endRules(lines, words)],
    lines,
  });
}

/** Where a record is laid on the others, seconds from its first sample; null: it has no such point. */
export function anchorS(events: readonly WatchEvent[], firstUs: number, align: Align): number | null {
  if (align === 'start') return 0;
  const s = (us: number): number => (us - firstUs) / 1e6;
  if (align === 'hold') {
    const hold = holdsOf(events).at(-1);
    if (hold !== undefined) return s(hold.fromUs);
  }
  const stage = align === 'fill' ? 'inflate' : 'hold';
  const found = events.findLast((e) => e.e === 'stage' && e.stage === stage);
  return found?.e === 'stage' ? s(found.fromUs ?? found.tUs) : null;
}

/** Limits of several records on one clock: those that are the same are one line, named with the records it is of. */
function sharedRules(
  records: readonly OpenRecord[],
  shifts: readonly number[],
  words: Catalogue,
): readonly Plot['rules'][number][] {
  const { PICTURE } = words.picture;
  type Shared = Plot['rules'][number] & { readonly of: readonly number[]; readonly mark: RuleMark };
  const rules = new Map<string, Shared>();
  records.forEach(({ detail }, i) => {
    const setup = lastLimited(detail.setups);
    const limits = setup?.limits ?? null;
    if (limits === null) return;
    const floor = floorOfRecord(detail.events, setup).bar;
    for (const [mark, bar] of [
      ['rated', limits.ratedBar],
      ['ceiling', limits.ceilingBar],
      ['floor', floor],
    ] as const) {
      if (bar === null) continue;
      const id = `${mark} ${words.format.pressureNumber(bar)}`;
      const known = rules.get(id);
      const [fromS, toS] = [shifts[i]!, detail.lastS + shifts[i]!];
      rules.set(id, {
        ...RULES[mark],
        mark,
        bar,
        label: '',
        of: [...(known?.of ?? []), i + 1],
        fromS: Math.min(known?.fromS ?? fromS, fromS),
        toS: Math.max(known?.toS ?? toS, toS),
      });
    }
  });
  return [...rules.values()].map((r) => {
    const name = PICTURE[r.mark];
    return { ...r, label: r.of.length === records.length ? name : PICTURE.namedOf(name, r.of.join(', ')) };
  });
}

export async function overlay(
  order: PictureOrder,
  records: readonly OpenRecord[],
  titles: readonly string[],
  words: Catalogue,
): Promise<Picture> {
  const anchors = records.map((r) => anchorS(r.detail.events, r.detail.firstUs, order.align));
  const unaligned = anchors.flatMap((a, i) => (a === null ? [i] : []));
  const shifts = anchors.map((a) => -(a ?? 0));
  const wholeFromS = Math.min(...shifts);
  const wholeToS = Math.max(...records.map((r, i) => r.detail.lastS + shifts[i]!), wholeFromS + 1);
  const fromS = Math.max(wholeFromS, order.fromS ?? wholeFromS);
  const toS = Math.min(wholeToS, Math.max(order.toS ?? wholeToS, fromS + 0.5));
  const frame = { ...order, fromS, toS, title: titles.join('; ') };
  const [only] = records;
  if (records.length === 1 && only !== undefined) {
    const { detail } = only;
    const shift = shifts[0]!;
    const told = { ...detail, firstUs: detail.firstUs };
    const values = await only.values();
    const svg = recordPicture(
      told,
      values,
      { ...frame, fromS: fromS - shift, toS: toS - shift, title: titles[0]! },
      words,
    );
    return { svg, wholeFromS, wholeToS, unaligned };
  }
  const lines: PlotLine[] = [];
  for (const [i, record] of records.entries()) {
    const { detail } = record;
    const window = (await record.values()).window(fromS - shifts[i]!, toS - shifts[i]!, POINTS);
    const series = window.series.findIndex((s) => s.name === 'bar');
    if (series < 0) continue;
    lines.push({
      label: words.picture.PICTURE.numbered(i + 1, titles[i]!),
      kind: 'bar',
      window,
      series,
      shiftS: shifts[i]!,
      dash: DASHES[i % DASHES.length]!,
      width: 1.6,
      endBar: sensorEndBar(detail.setups),
      gaps: gapsOf(detail.events, detail.firstUs),
    });
  }
  const rules = [...sharedRules(records, shifts, words), ...endRules(lines, words)];
  const timeName = words.picture.PICTURE.time(toS);
  const svg = plotSvg({
    ...frame,
    format: words.format,
    timeName,
    lines,
    rules,
    bands: [],
    stages: [],
    marks: [],
  });
  return { svg, wholeFromS, wholeToS, unaligned };
}
