import { type Kind, scaleOf, type UnitChoice } from './display.ts';
import { MM_PER_INCH, PA_PER_BAR, PA_PER_PSI } from './quantity.ts';

/** empty · not-a-number · grouped (more than one separator: 1,234.5 could mean two things) · unit (none of its kind). */
export type ParseCode = 'empty' | 'not-a-number' | 'grouped' | 'unit';
export type ParsedNumber =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly code: ParseCode };

const NUMBER = /^([+\-\u2212])?(\d{0,15})(?:[.,](\d{0,15}))?$/;

/** Reads a typed number with a point or a comma as decimal mark; groups of thousands are refused, never guessed. */
export function parseNumber(text: string): ParsedNumber {
  const t = text.trim();
  if (t === '') return { ok: false, code: 'empty' };
  if ((t.match(/[.,]/g) ?? []).length > 1) return { ok: false, code: 'grouped' };
  const m = NUMBER.exec(t);
  const whole = m?.[2] ?? '';
  const part = m?.[3] ?? '';
  if (m === null || whole + part === '') return { ok: false, code: 'not-a-number' };
  const value = Number(`${whole || '0'}.${part || '0'}`);
  const negative = m[1] === '-' || m[1] === '\u2212';
  return { ok: true, value: negative && value !== 0 ? -value : value };
}

type Factor = readonly [factor: number, shift: number];
const BAR: Readonly<Record<string, Factor>> = {
  bar: [1, 0],
  mbar: [1e-3, 0],
  hpa: [1e-3, 0],
  kpa: [0.01, 0],
  mpa: [10, 0],
  pa: [1 / PA_PER_BAR, 0],
  psi: [PA_PER_PSI / PA_PER_BAR, 0],
};
const scaled = (table: Readonly<Record<string, Factor>>, by: number) =>
  Object.fromEntries(Object.entries(table).map(([k, [f, s]]) => [k, [f * by, s] as const]));
const perMinute = Object.fromEntries(Object.entries(scaled(BAR, 1000)).map(([k, f]) => [`${k}/min`, f]));

/** kept = factor · typed + shift, by the unit written behind the number, lower case. */
const WRITTEN: { readonly [K in Kind]: Readonly<Record<string, Factor>> } = {
  pressure: BAR,
  smallPressure: scaled(BAR, 1000),
  pressureRate: perMinute,
  temperature: {
    '°c': [1, 0],
    c: [1, 0],
    '°f': [1 / 1.8, -32 / 1.8],
    f: [1 / 1.8, -32 / 1.8],
  },
  temperatureDifference: { k: [1, 0], '°c': [1, 0], c: [1, 0], '°f': [1 / 1.8, 0], f: [1 / 1.8, 0] },
  length: {
    mm: [1, 0],
    cm: [10, 0],
    m: [1000, 0],
    in: [MM_PER_INCH, 0],
    '"': [MM_PER_INCH, 0],
    ft: [304.8, 0],
  },
  distance: { m: [1, 0], cm: [0.01, 0], mm: [1e-3, 0], ft: [0.3048, 0], in: [0.0254, 0] },
  volume: { l: [1, 0], ml: [1e-3, 0], 'm³': [1000, 0], m3: [1000, 0] },
  mass: { g: [1, 0], kg: [1000, 0] },
  energy: { j: [1, 0], kj: [1000, 0] },
  force: { n: [1, 0], kn: [1000, 0] },
};

/**
 * Reads a typed quantity into the unit that the program keeps. Without a unit behind the number the user's own unit
 * counts (of mass, energy, force the base unit); a unit of another kind is refused.
 */
export function parseQuantity(text: string, kind: Kind, choice: UnitChoice): ParsedNumber {
  const m = /^\s*([+\-\u2212]?[\d.,]*)\s*([^\d.,\s].*?)?\s*$/.exec(text);
  const parsed = parseNumber(m?.[1] ?? text);
  const written = m?.[2];
  if (!parsed.ok)
    return written !== undefined && parsed.code === 'empty' ? { ok: false, code: 'not-a-number' } : parsed;
  if (written === undefined) {
    const s = scaleOf(kind, choice);
    return { ok: true, value: (parsed.value - s.shift) / s.factor };
  }
  const table = WRITTEN[kind];
  const key = written.toLowerCase();
  const factor = Object.hasOwn(table, key) ? table[key] : undefined;
  if (factor === undefined) return { ok: false, code: 'unit' };
  return { ok: true, value: parsed.value * factor[0] + factor[1] };
}
