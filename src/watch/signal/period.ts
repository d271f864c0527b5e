/** Sample period as the running median of the last five spacings: a dropped frame does not move it. */
export interface Period {
  spacings: number[];
  next: number;
  /** s */
  periodS: number;
}

export function createPeriod(rateHz: number | null): Period {
  return { spacings: [], next: 0, periodS: rateHz !== null && rateHz > 0 ? 1 / rateHz : 0.1 };
}

/** Takes the spacing of two samples, s; what is not positive is no spacing. */
export function periodAdd(p: Period, spacingS: number): void {
  if (!(spacingS > 0)) return;
  p.spacings[p.next] = spacingS;
  p.next = (p.next + 1) % 5;
  const n = p.spacings.length;
  // Rank by counting: five values need no sorted copy on the sample path.
  for (let i = 0; i < n; i++) {
    const v = p.spacings[i]!;
    let below = 0;
    for (let j = 0; j < n; j++) if (p.spacings[j]! < v || (p.spacings[j] === v && j < i)) below++;
    if (below === (n - 1) >> 1) {
      p.periodS = v;
      return;
    }
  }
}
