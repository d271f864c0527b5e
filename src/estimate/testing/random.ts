/** Seeded random numbers for tests and benches: small, and the same everywhere, so that an expectation stays true. */

/** Uniform in (0, 1): Park and Miller's minimal standard generator (CACM 31, 1988). @param seed 1 … 2³¹ − 2 */
export function uniform(seed: number): () => number {
  let x = seed;
  return () => {
    x = (x * 16807) % 2147483647;
    return x / 2147483647;
  };
}

/** Near-normal noise, mean 0 and standard deviation 1: twelve uniforms. */
export function noise(seed: number): () => number {
  const next = uniform(seed);
  return () => {
    let sum = -6;
    for (let i = 0; i < 12; i++) sum += next();
    return sum;
  };
}

/** 32 random bits a call (mulberry32). */
export function bits32(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return (t ^ (t >>> 14)) >>> 0;
  };
}
