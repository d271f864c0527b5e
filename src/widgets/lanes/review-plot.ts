import type { Priority } from '../../watch/codes.ts';
import { type Box, type Course, freest } from '../label-place.ts';
import { alarmMark } from './alarm-mark.ts';
import { pressureY } from './geometry.ts';
import type { Mark } from './marks.ts';
import { type PressureUnit, pressureNumerals, type ReadingUnit } from './numerals.ts';
import { type LimitSpan, practiceWord, pressureGround, pressureMarks, stretchesOf } from './pressure-lane.ts';
import { CAP, ground, line, type Measure, type Rect, type Shape } from './shape.ts';
import { type TemperatureScale, temperatureGround, temperatureNumerals } from './temperature-lane.ts';
import { axisLabels, type Tick } from './time-axis.ts';

/** A trace under a hand: two lanes with their scales at the left, for a run that is looked into. */

/** What is drawn with the lines: limits and band, gaps, marks. */
export interface Decor {
  readonly limits: readonly LimitSpan[];
  readonly gaps: readonly { readonly fromS: number; readonly toS: number }[];
  readonly marks: readonly {
    readonly atS: number;
    readonly priority: Priority | null;
    readonly isShelved?: boolean;
  }[];
  readonly practice: boolean;
  /** The end of the pressure's sensor, where the line goes along it, bar; null: it does not get there. */
  readonly sensorEndBar: number | null;
  /** The same of a second pressure's sensor; null: it is not known. */
  readonly secondEndBar: number | null;
}

/** No limit of the job: thinner than any of them. */
const SENSOR_END = { tone: 'ink', wide: 1, dash: [1, 3] } as const;

export interface PlotBox {
  readonly pressure: Rect;
  /** null where no temperature was read. */
  readonly temperature: Rect | null;
  readonly axisY: number;
  readonly small: boolean;
}

/** Where the lanes of a plot of that size stand. */
export function plotBox(w: number, h: number, hasTemperature: boolean): PlotBox {
  const small = w < 520;
  const left = small ? 34 : 52;
  const right = 12;
  const top = small ? 10 : 14;
  const axis = small ? 20 : 26;
  const bottom = h - axis;
  const gap = small ? 12 : 18;
  const tempH = hasTemperature ? Math.max(36, Math.round((bottom - top) * 0.24)) : 0;
  const foot = hasTemperature ? bottom - tempH - gap : bottom;
  const wide = Math.max(20, w - left - right);
  return {
    pressure: { x: left, y: top, w: wide, h: Math.max(20, foot - top) },
    temperature: hasTemperature ? { x: left, y: bottom - tempH, w: wide, h: tempH } : null,
    axisY: h - (small ? 5 : 7),
    small,
  };
}

export interface PlotScene {
  readonly box: PlotBox;
  readonly endBar: number;
  readonly scale: TemperatureScale | null;
  readonly decor: Decor;
  readonly ticks: readonly (Tick & { readonly text: string })[];
  /** Seconds to px. */
  readonly x: (s: number) => number;
  readonly pressureUnit: PressureUnit;
  readonly temperatureUnit: ReadingUnit;
  readonly words: {
    readonly marks: Readonly<Record<Mark, string>>;
    readonly sensorEnd: string;
    readonly practice: string;
  };
}

/** Ground, grid, axes, gaps and the practice word: behind the lines. */
export function plotUnder(p: PlotScene, measure: Measure): Shape[] {
  const { box, endBar, decor, x } = p;
  const { pressure, temperature, small } = box;
  const ticksX = p.ticks.map((t) => t.x);
  const stretches = stretchesOf(decor.limits, pressure, x);
  const out = pressureGround(pressure, endBar, p.pressureUnit, stretches, ticksX);
  if (temperature !== null && p.scale !== null)
    out.push(
      ...temperatureGround(temperature, p.scale, p.temperatureUnit, ticksX),
      ...temperatureNumerals(temperature, pressure.x - 8, 'end', p.scale, p.temperatureUnit, small),
    );
  const right = pressure.x + pressure.w;
  for (const g of decor.gaps) {
    const x0 = Math.max(pressure.x, x(g.fromS));
    const x1 = Math.min(right, Math.max(x(g.toS), x(g.fromS) + 2));
    out.push(...ground(x0, pressure.y, x1 - x0, pressure.h, 'dots', 0.7));
  }
  const last = stretches[stretches.length - 1];
  if (decor.practice) {
    const floorY = last?.floorBar == null ? null : pressureY(pressure, endBar)(last.floorBar);
    out.push(practiceWord(pressure, floorY, p.words.practice, small));
  }
  out.push(
    ...pressureMarks(pressure, endBar, stretches, small),
    ...sensorEnd(p),
    ...pressureNumerals(pressure, pressure.x - 8, endBar, p.pressureUnit, small),
    ...axisLabels(p.ticks, pressure, box.axisY, small, measure, null),
  );
  return out;
}

function sensorEnd({ box: { pressure }, endBar, decor: { sensorEndBar } }: PlotScene): Shape[] {
  if (sensorEndBar === null || sensorEndBar > endBar) return [];
  const at = pressureY(pressure, endBar)(sensorEndBar);
  return [line(pressure.x, at, pressure.x + pressure.w, at, SENSOR_END)];
}

/** Alarms, and the names of the limits where the line leaves them room. */
export function plotOver(p: PlotScene, courses: readonly Course[], measure: Measure): Shape[] {
  const { box, endBar, decor, x, words, pressureUnit } = p;
  const { pressure, small } = box;
  const out: Shape[] = [];
  for (const m of decor.marks) {
    const at = x(m.atS);
    if (at >= pressure.x && at <= pressure.x + pressure.w)
      out.push(...alarmMark(at, pressure, m.priority, m.isShelved === true, small));
  }
  const stretches = stretchesOf(decor.limits, pressure, x);
  const last = stretches[stretches.length - 1];
  const y = pressureY(pressure, endBar);
  const size = small ? 11 : 13;
  const high = size * 1.2;
  // Where marks are no lines: the names of others, put down before.
  const taken: Box[] = [];
  const limits = [last?.ratedBar ?? null, last?.ceilingBar ?? null, last?.floorBar ?? null] as const;
  const [ratedBar, ceilingBar, floorBar] = limits;
  const lines = [...limits, decor.sensorEndBar].flatMap((b) => (b === null ? [] : [y(b)]));
  const name = (of: string, bar: number | null, bold: boolean) => {
    if (bar === null || bar > endBar) return;
    const text = `${of} ${pressureUnit.text(bar)}`;
    const wide = measure(text, size, bold);
    const at = y(bar);
    const rows = [at - high - 3, at + 3];
    const right = pressure.x + pressure.w;
    const columns = [right - 6 - wide, pressure.x + 6, pressure.x + (pressure.w - wide) / 2];
    const free = (b: Box) =>
      b.top >= pressure.y &&
      b.top + b.height <= pressure.y + pressure.h &&
      !lines.some((l) => l > b.top && l < b.top + b.height) &&
      !taken.some(
        (t) =>
          t.left < b.left + b.width &&
          b.left < t.left + t.width &&
          t.top < b.top + b.height &&
          b.top < t.top + t.height,
      );
    const places = columns
      .flatMap((left) => rows.map((top) => ({ left, top, width: wide, height: high })))
      .filter(free);
    const place = freest(places, courses);
    if (place === null) return;
    taken.push(place);
    out.push({
      k: 'text',
      x: place.left,
      y: place.top + high / 2 + size * CAP * 0.5,
      text,
      size,
      bold,
      tone: 'ink',
      halo: 'well',
    });
  };
  name(words.marks.rated, ratedBar, true);
  if (ceilingBar !== ratedBar) name(words.marks.ceiling, ceilingBar, false);
  name(words.marks.floor, floorBar, false);
  name(words.sensorEnd, decor.sensorEndBar, false);
  return out;
}
