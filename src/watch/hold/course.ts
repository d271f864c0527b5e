/**
 * The course of a closed segment as means over equal lengths of time, at a bounded number: pressure and, where
 * probes sit there, the temperatures that tell of the gas. A growing course merges neighbours when it is full and
 * so reaches from the segment's beginning to now; a sliding one drops its oldest blocks. Plain data.
 */
export interface Course {
  /** Length of a block, s. */
  lengthS: number;
  readonly slides: boolean;
  /** Middle of each block, s. */
  t: number[];
  /** ln of the absolute pressure in bar. */
  y: number[];
  /** Probe in the packer's air and on the sleeve, K; null where the block has no value. */
  air: (number | null)[];
  sleeve: (number | null)[];
  open: OpenBlock;
}

interface OpenBlock {
  fromS: number | null;
  n: number;
  t: number;
  y: number;
  nAir: number;
  air: number;
  nSleeve: number;
  sleeve: number;
}

/** Blocks of a growing course when it is full; a sliding one keeps this many. */
export const COURSE_FULL = 96;
const SLIDING_KEEP = 80;

const empty = (): OpenBlock => ({
  fromS: null,
  n: 0,
  t: 0,
  y: 0,
  nAir: 0,
  air: 0,
  nSleeve: 0,
  sleeve: 0,
});

export function createCourse(lengthS: number, slides: boolean): Course {
  return { lengthS, slides, t: [], y: [], air: [], sleeve: [], open: empty() };
}

/** Takes a reading: ln p and temperatures in K, null where there is none. True when a block was completed by it. */
export function courseAdd(
  c: Course,
  tS: number,
  y: number,
  air: number | null,
  sleeve: number | null,
): boolean {
  let closed = false;
  const o = c.open;
  if (o.fromS !== null && tS - o.fromS >= c.lengthS - 1e-9) {
    c.t.push(o.t / o.n);
    c.y.push(o.y / o.n);
    c.air.push(o.nAir > 0 ? o.air / o.nAir : null);
    c.sleeve.push(o.nSleeve > 0 ? o.sleeve / o.nSleeve : null);
    c.open = empty();
    closed = true;
    if (c.slides) dropOldest(c, SLIDING_KEEP);
    else if (c.t.length >= COURSE_FULL) halve(c);
  }
  const now = c.open;
  now.fromS ??= tS;
  now.n++;
  now.t += tS;
  now.y += y;
  if (air !== null) {
    now.nAir++;
    now.air += air;
  }
  if (sleeve !== null) {
    now.nSleeve++;
    now.sleeve += sleeve;
  }
  return closed;
}

function dropOldest(c: Course, keep: number): void {
  while (c.t.length > keep) {
    c.t.shift();
    c.y.shift();
    c.air.shift();
    c.sleeve.shift();
  }
}

const mean = (a: number | null, b: number | null): number | null =>
  a === null ? b : b === null ? a : (a + b) / 2;

function halve(c: Course): void {
  const half = c.t.length >> 1;
  for (let i = 0; i < half; i++) {
    c.t[i] = (c.t[2 * i]! + c.t[2 * i + 1]!) / 2;
    c.y[i] = (c.y[2 * i]! + c.y[2 * i + 1]!) / 2;
    c.air[i] = mean(c.air[2 * i]!, c.air[2 * i + 1]!);
    c.sleeve[i] = mean(c.sleeve[2 * i]!, c.sleeve[2 * i + 1]!);
  }
  c.t.length = half;
  c.y.length = half;
  c.air.length = half;
  c.sleeve.length = half;
  c.lengthS *= 2;
}

/** A growing course that begins anew at that time with what the sliding one remembers. */
export function courseFrom(recent: Course, atS: number): Course {
  const first = recent.t.findIndex((t) => t >= atS);
  const from = first < 0 ? recent.t.length : first;
  return {
    lengthS: recent.lengthS,
    slides: false,
    t: recent.t.slice(from),
    y: recent.y.slice(from),
    air: recent.air.slice(from),
    sleeve: recent.sleeve.slice(from),
    open: { ...recent.open },
  };
}

/** Takes back the blocks that reach beyond that time. */
export function courseTrim(c: Course, fromS: number): void {
  const last = c.t.findLastIndex((t) => t + c.lengthS / 2 <= fromS + 1e-6);
  for (const list of [c.t, c.y, c.air, c.sleeve]) list.length = last + 1;
  c.open = empty();
}
