/** What a device is tried for on the bench, and what may be found: a list of codes that are kept in its record. */

export const VERDICTS = ['good', 'doubtful', 'bad', 'not-tried'] as const;
export type Verdict = (typeof VERDICTS)[number];

/**
 * The points, and the reasons of each with the verdict that follows: a record keeps the reason alone, so that no file
 * can call a bad finding good.
 */
export const BENCH_REASONS = {
  lines: { few: 'not-tried', clean: 'good', some: 'doubtful', many: 'bad' },
  rate: { few: 'not-tried', kept: 'good', slow: 'doubtful', 'too-slow': 'bad' },
  lost: { few: 'not-tried', none: 'good', some: 'doubtful', many: 'bad' },
  clock: { few: 'not-tried', close: 'good', off: 'doubtful', 'far-off': 'bad' },
  restarts: { few: 'not-tried', none: 'good', restarted: 'bad' },
  step: {
    'no-channel': 'not-tried',
    fine: 'good',
    coarse: 'doubtful',
    'too-coarse': 'bad',
    'no-scale': 'bad',
  },
  noise: {
    few: 'not-tried',
    quiet: 'good',
    noisy: 'doubtful',
    'too-noisy': 'bad',
    frozen: 'doubtful',
    'no-reading': 'bad',
  },
  drift: { few: 'not-tried', steady: 'good', drifts: 'doubtful', unsure: 'doubtful', 'drifts-far': 'bad' },
  zero: {
    'not-taken': 'not-tried',
    'not-still': 'not-tried',
    near: 'good',
    far: 'doubtful',
    'too-far': 'bad',
    'no-reading': 'bad',
  },
  span: {
    'not-compared': 'not-tried',
    'not-still': 'not-tried',
    agrees: 'good',
    'too-low': 'doubtful',
    'just-off': 'doubtful',
    differs: 'bad',
  },
  supply: {
    'not-measured': 'not-tried',
    few: 'not-tried',
    steady: 'good',
    sags: 'doubtful',
    'sags-far': 'bad',
    'told-low': 'bad',
  },
  warm: {
    'not-held': 'not-tried',
    holding: 'not-tried',
    rises: 'good',
    little: 'doubtful',
    none: 'bad',
    falls: 'bad',
    'no-reading': 'bad',
  },
  guard: {
    'not-armed': 'not-tried',
    refused: 'not-tried',
    armed: 'not-tried',
    'not-asked': 'not-tried',
    heard: 'good',
    late: 'doubtful',
    absent: 'doubtful',
    'no-answer': 'bad',
    'not-kept': 'bad',
    silent: 'bad',
    mute: 'bad',
    'not-heard': 'bad',
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, Verdict>>>>;

export type BenchPoint = keyof typeof BENCH_REASONS;
export type ReasonOf<P extends BenchPoint> = P extends BenchPoint
  ? keyof (typeof BENCH_REASONS)[P] & string
  : never;
export type BenchReason = ReasonOf<BenchPoint>;

export const BENCH_POINTS = Object.keys(BENCH_REASONS) as BenchPoint[];
export const ALL_REASONS = [
  ...new Set(BENCH_POINTS.flatMap((p) => Object.keys(BENCH_REASONS[p]))),
] as BenchReason[];

/** The verdict of a reason of that point; null where the point has no such reason. */
export function verdictOf(point: BenchPoint, reason: string): Verdict | null {
  const reasons: Readonly<Record<string, Verdict>> = BENCH_REASONS[point];
  return Object.hasOwn(reasons, reason) ? (reasons[reason] ?? null) : null;
}

/** Why a line was refused, as the line’s codec has it (link/frames.ts). */
export const REFUSED_LINES = ['garbage', 'crc', 'form', 'long', 'partial', 'unknown'] as const;
export type RefusedLine = (typeof REFUSED_LINES)[number];

/** Was the device tried here, or is its record out of a file? */
export const BENCH_ORIGINS = ['own', 'file'] as const;
