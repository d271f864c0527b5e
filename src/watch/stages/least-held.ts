import { type Levels, levelMin, levelNow } from '../signal/levels.ts';

/**
 * The least that a packer holds while a hand fills it. Before a hose the line reads more than the packer as long as air
 * flows, by some hundredths or by nearly all of it: a puff before a limp packer stands for seconds, and is gone at once when
 * the valve is shut. What comes steeply may be the hose's; what comes slowly, or is left when the flow has ended, is the
 * packer's.
 */
export interface LeastHeld {
  /** bar; 0: nothing is known to be in it. */
  bar: number;
  /** So much of what the line reads may be the hose's, bar. */
  hoseBar: number;
  /** The level before; null: none, or from before a gap. */
  lastBar: number | null;
  lastS: number;
  /** When the line fell steeply last, s; null: air has come in since. */
  fellS: number | null;
}

export function createLeastHeld(): LeastHeld {
  return { bar: 0, hoseBar: 0, lastBar: null, lastS: 0, fellS: null };
}

/** A hose fills faster, bar/s. A small packer does so, too: what it holds is known when the flow has ended. */
const STEEP = 0.2;
/** And it evens out faster, bar/s. */
const FALLS = 0.1;
/** Less is noise: standard deviations of a level, and bar. */
const NOISE_SD = 5;
const NOISE_BAR = 0.005;
/** Nothing has risen for so long after a fall: the flow has ended, s. */
const ENDED_S = 2;
/** A level counts when it has stood for so long, s. */
const STOOD_S = 1;
/** Means are of a quarter of a second, s. */
const SPACING_S = 0.25;

/** What comes after is not seen to come from what was before. */
export function leastBreak(h: LeastHeld): void {
  h.lastBar = null;
  h.fellS = null;
}

/** Nothing flows in a hold: what it is known to hold there counts. */
export function leastRests(h: LeastHeld, knownBar: number | null): void {
  leastBreak(h);
  if (knownBar !== null) h.bar = knownBar;
}

/**
 * Takes a new mean of the levels while a hand fills.
 * @param atPacker no hose lies between the sensor and the packer
 * @param mostBar a let-out down to here was asked for, bar; null: none
 */
export function leastFollow(h: LeastHeld, levels: Levels, atPacker: boolean, mostBar: number | null): void {
  const now = levelNow(levels);
  const nowS = levels.t[levels.t.length - 1];
  if (now === null || nowS === undefined) return;
  if (h.lastBar === null) h.hoseBar = Math.max(0, now - h.bar);
  else follow(h, now - h.lastBar, nowS, NOISE_SD * levels.noiseBar + NOISE_BAR);
  h.lastBar = now;
  h.lastS = nowS;
  const held = Math.min(now - (atPacker ? 0 : h.hoseBar), levelMin(levels, STOOD_S) ?? 0);
  h.bar = Math.max(h.bar, mostBar === null ? held : Math.min(held, mostBar));
}

function follow(h: LeastHeld, moved: number, nowS: number, noise: number): void {
  const slope = moved / Math.max(SPACING_S, nowS - h.lastS);
  if (moved > noise) {
    h.fellS = null;
    if (slope > STEEP) h.hoseBar += moved;
  } else if (moved < -noise && slope < -FALLS) {
    h.fellS = nowS;
    h.hoseBar = Math.max(0, h.hoseBar + moved);
  }
  if (h.fellS !== null && nowS - h.fellS >= ENDED_S) h.hoseBar = 0;
}
