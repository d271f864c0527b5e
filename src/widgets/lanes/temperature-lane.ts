import { numeralSize, type ReadingUnit } from './numerals.ts';
import { block, CAP, line, type Measure, type Rect, type Shape, type Tone } from './shape.ts';

/** Ends of the temperature lane, °C. */
export interface TemperatureScale {
  readonly lowC: number;
  readonly highC: number;
  /** Between its numbers, in the unit shown. */
  readonly step: number;
}

/** A line stays this far from the ends, in the unit shown. */
const ROOM = 0.5;
const STEPS = [5, 10, 20, 50, 100, 200];
/** Most numbers on the scale. */
const MOST = 4;

/**
 * A scale in whole steps round what is seen: it moves when a line leaves it, never with each reading.
 * @param before the scale so far: kept while it holds all and is not much too wide
 */
export function temperatureScale(
  lowC: number,
  highC: number,
  unit: Pick<ReadingUnit, 'factor' | 'shift'>,
  before: TemperatureScale | null = null,
): TemperatureScale {
  const [lo, hi] = [lowC, highC].map((c) => c * unit.factor + unit.shift) as [number, number];
  const kept = (v: number) => (v - unit.shift) / unit.factor;
  for (const step of STEPS) {
    let from = Math.floor((lo - ROOM) / step) * step;
    let to = Math.ceil((hi + ROOM) / step) * step;
    if (to - from < 2 * step) {
      if (lo - from < to - hi) from -= step;
      else to += step;
    }
    if ((to - from) / step > MOST) continue;
    const scale = { lowC: kept(from), highC: kept(to), step };
    const holds =
      before !== null &&
      before.lowC <= kept(lo - ROOM / 2) &&
      before.highC >= kept(hi + ROOM / 2) &&
      before.highC - before.lowC <= 1.5 * (scale.highC - scale.lowC);
    return holds ? before : scale;
  }
  return { lowC: kept(lo - 1), highC: kept(hi + 1), step: hi - lo };
}

/** From °C to px from the top. */
export function temperatureY(box: Pick<Rect, 'y' | 'h'>, scale: TemperatureScale): (c: number) => number {
  return (c) => box.y + box.h * (1 - (c - scale.lowC) / (scale.highC - scale.lowC));
}

/** Whole steps of the scale, in the unit shown. */
function numbersOf(scale: TemperatureScale, unit: Pick<ReadingUnit, 'factor' | 'shift'>): number[] {
  const [from, to] = [scale.lowC, scale.highC].map((c) => c * unit.factor + unit.shift) as [number, number];
  const out: number[] = [];
  for (let v = Math.ceil(from / scale.step - 1e-6) * scale.step; v <= to + 1e-6; v += scale.step) out.push(v);
  return out;
}

/** Ground and grid of the temperature lane. */
export function temperatureGround(
  box: Rect,
  scale: TemperatureScale,
  unit: Pick<ReadingUnit, 'factor' | 'shift'>,
  ticksX: readonly number[],
): Shape[] {
  const y = temperatureY(box, scale);
  const out: Shape[] = [...block(box.x, box.y, box.w, box.h, 'well')];
  for (const v of numbersOf(scale, unit)) {
    const at = y((v - unit.shift) / unit.factor);
    if (at > box.y + 1 && at < box.y + box.h - 1)
      out.push(line(box.x, at, box.x + box.w, at, { tone: 'grid', wide: 1 }));
  }
  for (const x of ticksX) out.push(line(x, box.y, x, box.y + box.h, { tone: 'grid', wide: 1 }));
  return out;
}

/**
 * Numbers of the temperature scale, outside the lane, where no line runs through them; the unit at its upper end.
 * @param x right edge of the numbers where `anchor` is 'end', left edge where it is 'start', px
 */
export function temperatureNumerals(
  box: Rect,
  x: number,
  anchor: 'start' | 'end',
  scale: TemperatureScale,
  unit: ReadingUnit,
  small: boolean,
): Shape[] {
  const y = temperatureY(box, scale);
  const size = numeralSize(small) - (small ? 2 : 3);
  const text = (at: number, words: string): Shape => ({
    k: 'text',
    x,
    y: at,
    text: words,
    size,
    anchor,
    tone: 'ink2',
  });
  const top = box.y + size * CAP;
  const out: Shape[] = [text(top, unit.unit)];
  let last = Number.POSITIVE_INFINITY;
  for (const v of numbersOf(scale, unit)) {
    const at = Math.min(box.y + box.h, y((v - unit.shift) / unit.factor) + size * CAP * 0.5);
    if (at - top < size * 1.1 || last - at < size * 1.1) continue;
    out.push(text(at, unit.axis(v, 0)));
    last = at;
  }
  return out;
}

/** A temperature as it is now. */
export interface TemperatureNow {
  readonly name: string;
  /** With its digits, its unit on the lane's scale; a dash where it is not known. */
  readonly value: string;
  readonly dash: readonly number[];
  readonly tone: Tone;
}

/** Names and values beside the lane, each with its line's dash: the legend is where the line ends. */
export function temperaturesNow(
  box: Rect,
  list: readonly TemperatureNow[],
  small: boolean,
  measure: Measure,
): Shape[] {
  const out: Shape[] = [];
  const row = box.h / Math.max(small ? 3 : 3, list.length);
  const valueSize = Math.min(small ? 14 : 19, row * 0.74);
  const right = box.x + box.w - (small ? 6 : 14);
  const x0 = box.x + (small ? 22 : 34);
  const x1 = x0 + (small ? 17 : 28);
  const widest = Math.max(0, ...list.map((t) => measure(t.value, valueSize, true)));
  const room = right - widest - (small ? 4 : 8) - x1 - (small ? 4 : 8);
  for (const [i, t] of list.entries()) {
    const middle = box.y + row * (i + 0.5);
    const size = Math.min(small ? 11.5 : 14.5, row * 0.6);
    const wide = measure(t.name, size, false);
    out.push(
      line(x0, middle, x1, middle, {
        tone: t.tone,
        wide: i === 0 ? 2.5 : 2,
        ...(t.dash.length === 0 ? {} : { dash: t.dash }),
      }),
    );
    out.push({
      k: 'text',
      x: x1 + (small ? 4 : 8),
      y: middle + size * CAP * 0.5,
      text: t.name,
      size: wide > room ? Math.max(7, (size * room) / wide) : size,
      tone: 'ink2',
    });
    out.push({
      k: 'text',
      x: right,
      y: middle + valueSize * CAP * 0.5,
      text: t.value,
      size: valueSize,
      bold: true,
      anchor: 'end',
      tone: 'ink',
    });
  }
  return out;
}
