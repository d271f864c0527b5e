/**
 * The rig's seeded random numbers. Everything random on the simulated site is drawn from here, so that a seed
 * names a run for ever; nothing of it reads a clock or the platform's generator.
 */
export interface Random {
  /** Uniform in [0, 1). */
  next(): number;
  /** Uniform in [lo, hi). */
  range(lo: number, hi: number): number;
  /** Log-uniform in [lo, hi), both above 0: for what varies over decades. */
  logRange(lo: number, hi: number): number;
  /** Whole number in [lo, hi], both ends included. */
  int(lo: number, hi: number): number;
  /** Standard normal, mean 0 and variance 1. */
  normal(): number;
  /** Exponential with the given mean. */
  exponential(mean: number): number;
  chance(p: number): boolean;
  pick<T>(items: readonly T[]): T;
  /**
   * A generator of its own for a named purpose. It depends on the seed and the name alone, not on how many
   * numbers were drawn, so that adding a draw in one part does not change another part's noise.
   */
  fork(name: string): Random;
}

const TWO_32 = 4294967296;

/** One mixing step of a 32-bit state (the finaliser of MurmurHash3): spreads near seeds far apart. */
function mix(h: number): number {
  let x = h >>> 0;
  x = Math.imul(x ^ (x >>> 16), 0x85ebca6b);
  x = Math.imul(x ^ (x >>> 13), 0xc2b2ae35);
  return (x ^ (x >>> 16)) >>> 0;
}

/** A 32-bit hash of a name joined to a seed (FNV-1a, then mixed). */
function nameSeed(seed: number, name: string): number {
  let h = (0x811c9dc5 ^ mix(seed)) >>> 0;
  for (let i = 0; i < name.length; i++) h = Math.imul(h ^ name.charCodeAt(i), 0x01000193) >>> 0;
  return mix(h);
}

/**
 * @param seed any number; its lowest 32 bits as an integer count.
 * The generator is sfc32 (small fast counting, 128 bits of state), started from four mixes of the seed.
 */
export function createRandom(seed: number): Random {
  const start = seed >>> 0;
  let a = mix(start ^ 0x9e3779b9);
  let b = mix(start + 0x7f4a7c15);
  let c = mix(start ^ 0x2545f491);
  let d = 1;
  let spare = Number.NaN;

  function word(): number {
    const t = (a + b + d) >>> 0;
    d = (d + 1) >>> 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) >>> 0;
    c = ((c << 21) | (c >>> 11)) >>> 0;
    c = (c + t) >>> 0;
    return t;
  }
  for (let i = 0; i < 12; i++) word();

  const next = () => word() / TWO_32;

  function normal(): number {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    // Marsaglia's polar method: two normals from a point inside the unit circle.
    for (;;) {
      const u = 2 * next() - 1;
      const v = 2 * next() - 1;
      const s = u * u + v * v;
      if (s > 0 && s < 1) {
        const f = Math.sqrt((-2 * Math.log(s)) / s);
        spare = v * f;
        return u * f;
      }
    }
  }

  return {
    next,
    range: (lo, hi) => lo + (hi - lo) * next(),
    logRange: (lo, hi) => lo * Math.exp(Math.log(hi / lo) * next()),
    int: (lo, hi) => lo + Math.floor((hi - lo + 1) * next()),
    normal,
    exponential: (mean) => -mean * Math.log(1 - next()),
    chance: (p) => next() < p,
    pick: (items) => {
      const item = items[Math.floor(items.length * next())];
      if (item === undefined) throw new RangeError('pick from an empty list');
      return item;
    },
    fork: (name) => createRandom(nameSeed(start, name)),
  };
}
