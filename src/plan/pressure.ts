import type { JobDocument } from '../job/job-document.ts';
import { highestRating, type PackerDocument, PLAIN_RATED_BAR, unreadRating } from '../job/packer-document.ts';
import { between, ratedAt, ratedFor } from '../job/packer-table.ts';
import type { ResinDocument } from '../job/resin-document.ts';
import type { Limits, Setup } from '../job/setup.ts';
import { liftByWarmth } from '../physics/gas.ts';
import { head, waterDensity } from '../physics/water.ts';
import { pressureBudget } from '../sensing/uncertainty.ts';
import type { PlannedChannels } from './channels.ts';
import { down, input, type Notes, up } from './notes.ts';

/** Rise of the air in the packer where the sheet gives none, K, by exotherm class (common practice, no source). */
const RISE_K = { low: 6, medium: 12, high: 25, unknown: 15 } as const;
/** What stored air in the hose adds after the valve is shut: 21-40 mbar is typical. */
const AFTER_RISE_BAR = 0.04;
/** Ground temperature where none is entered, °C: the lift per kelvin hardly depends on it. */
const USUAL_GROUND_C = 10;
/** Uncertainty where nothing is known of the sensor: 3 % of rated, at least 50 mbar. */
const UNKNOWN_U = { share: 0.03, least: 0.05 } as const;
const LARGE_U = 0.1;

function rating(packer: PackerDocument, diameterMm: number | null, notes: Notes): number | null {
  const rated = ratedFor(packer, diameterMm);
  if (rated === null) {
    notes.warn('no-rating', [], packer.name);
    return null;
  }
  if (packer.plate === 'working') notes.warn('plate-says-working', [], packer.name);
  // Any row counts: which one is used may change with the diameter.
  const highest = highestRating(packer);
  const unread = unreadRating(packer);
  if (unread !== null) notes.refuse('rated-unread', [input('rated', unread, 'bar')], packer.name);
  else if (highest > PLAIN_RATED_BAR) notes.warn('rated-high', [input('rated', highest, 'bar')], packer.name);
  if (diameterMm === null) {
    notes.warn('diameter-unknown', [input('rated', rated, 'bar')]);
    return notes.derive('rated', rated, 'bar', []);
  }
  const at = input('diameter', diameterMm, 'mm');
  if (diameterMm > packer.sizes.maxMm) notes.refuse('packer-too-small', [at], packer.name);
  if (diameterMm < packer.sizes.minMm) notes.refuse('packer-too-large', [at], packer.name);
  if (ratedAt(packer, diameterMm) === null && diameterMm <= packer.sizes.maxMm)
    notes.refuse('packer-too-small', [at], packer.name);
  return notes.derive('rated', rated, 'bar', [at]);
}

/** With another packer on the line the lower rating is the limit: what is seen of one the other bears as well. */
function withOther(job: JobDocument, own: number, notes: Notes): number {
  if (job.packersOnLine === 'one') return own;
  notes.warn('two-on-line');
  const other = job.otherRatedBar;
  if (other === null) {
    notes.refuse('other-unrated', []);
    return own;
  }
  // Taken too high it would hide that the other packer bears less.
  if (other > PLAIN_RATED_BAR) notes.warn('rated-high', [input('other-rated', other, 'bar')]);
  if (other >= own) return own;
  return notes.derive('rated-lower', other, 'bar', [
    input('rated', own, 'bar'),
    input('other-rated', other, 'bar'),
  ]);
}

/** Expanded uncertainty of the reading at rated, bar, rounded up. */
function uncertainty(
  rated: number,
  planned: PlannedChannels,
  air: Setup['air'],
  zeroed: boolean,
  notes: Notes,
): number {
  const ch = planned.pressure;
  let u = Math.max(UNKNOWN_U.least, UNKNOWN_U.share * rated);
  if (ch === null) notes.warn('u-assumed');
  else {
    u = pressureBudget(ch, rated, planned.supplied, { zeroed, airU: air.uBar }).expanded;
    if (ch.rangeHi < rated + (ch.gaugeKind === 'absolute' ? air.bar : 0))
      notes.refuse('rated-over-range', [input('rated', rated, 'bar')]);
  }
  u = up(u);
  if (u >= rated / 2) notes.refuse('u-over-rated', [input('u', u, 'bar'), input('rated', rated, 'bar')]);
  else if (u > LARGE_U * rated) notes.warn('u-large', [input('u', u, 'bar'), input('rated', rated, 'bar')]);
  return notes.derive('u', u, 'bar', [input('rated', rated, 'bar')]);
}

export interface PressurePlan {
  readonly limits: Limits | null;
  /** What the plan would work at, bar; null without a limit. */
  readonly proposalBar: number | null;
  /** Expected lift of the line by warmth at the working pressure, bar; 0 where a relieving regulator lets it out. */
  readonly liftBar: number;
}

/** Rise of the packer's air by what warms it from outside, K: all that it is brought over the ground. */
function heatedRise(job: JobDocument, resin: ResinDocument | null, groundC: number, notes: Notes): number {
  const { by, toC } = job.heating;
  switch (by) {
    case 'none':
      return 0;
    case 'unknown':
      if (resin !== null && resin.curedBy === 'time') notes.warn('heating-unknown');
      return 0;
    case 'water':
    case 'steam':
      notes.warn('not-gas');
      return 0;
    case 'hot-air':
      if (toC !== null) return Math.max(0, toC - groundC);
      notes.warn('heated-to-unknown');
      return 0;
    default:
      by satisfies never;
      return 0;
  }
}

/** Pressures from packer, sensor, water and warmth, after the instrument's rules 1, 2 and 5. */
export function planPressure(
  job: JobDocument,
  packer: PackerDocument | null,
  resin: ResinDocument | null,
  planned: PlannedChannels,
  air: Setup['air'],
  ground: Setup['ground'],
  diameterMm: number | null,
  zeroed: boolean,
  notes: Notes,
): PressurePlan {
  const none = { limits: null, proposalBar: null, liftBar: 0 };
  if (packer === null) {
    notes.warn('no-packer');
    return none;
  }
  const own = rating(packer, diameterMm, notes);
  if (own === null) return none;
  const rated = withOther(job, own, notes);
  const u = uncertainty(rated, planned, air, zeroed, notes);
  const guarded = Math.max(0, down(rated - u));

  // Lift by warmth concerns every line that may not let it out.
  const groundC = ground?.c ?? USUAL_GROUND_C;
  const relieving = job.line === 'supplied-relieving';
  const cureRise = resin?.expectedRiseK ?? RISE_K[resin?.exotherm ?? 'unknown'];
  const rise = relieving ? 0 : Math.max(cureRise, heatedRise(job, resin, groundC, notes));
  if (!relieving && rise === cureRise && (resin === null || resin.expectedRiseK === null))
    notes.warn('rise-assumed', [input('rise', rise, 'K')]);
  const wet = job.wetness !== 'dry';
  if (job.wetness === 'unknown' && rise > 0) notes.warn('wetness-unknown');
  const share = rise / (groundC + 273.15);
  // What liquid water adds: its vapour at the end of the rise, less what that of the beginning would have become as a gas.
  const vapour = liftByWarmth(1, groundC, rise, wet) - liftByWarmth(1, groundC, rise, false);
  // working + (working + air) · share + vapour + after-rise = ceiling
  const room = (guarded - AFTER_RISE_BAR - vapour - air.bar * share) / (1 + share);
  const proposal = Math.max(0, Math.floor(room * 100 + 1e-6) / 100);
  notes.derive('proposal', proposal, 'bar', [
    input('ceiling', guarded, 'bar'),
    input('rise', rise, 'K'),
    input('ground', groundC, 'C'),
    input('air', air.bar, 'bar'),
    input('after-rise', AFTER_RISE_BAR, 'bar'),
    ...(wet ? [input('vapour', vapour, 'bar')] : []),
  ]);

  const { workingBar: entered, noMarginReason } = job.pressures;
  if (entered === null) notes.warn('working-proposed', [input('working', proposal, 'bar')]);
  let working = entered ?? proposal;
  const ratedInput = input('rated', rated, 'bar');
  const reason = working > guarded && working <= rated ? noMarginReason : null;
  if (working > rated) notes.refuse('working-over-rated', [input('working', working, 'bar'), ratedInput]);
  else if (reason !== null) notes.warn('no-margin', [input('working', working, 'bar'), ratedInput]);
  else if (working > guarded)
    notes.refuse('no-margin-reason', [input('working', working, 'bar'), input('ceiling', guarded, 'bar')]);
  const noMargin = reason === null ? null : { reason };
  const ceiling = noMargin === null ? guarded : rated;
  notes.derive('ceiling', ceiling, 'bar', [ratedInput, input('u', u, 'bar')]);
  const lift = liftByWarmth(working + air.bar, groundC, rise, wet);
  notes.derive('lift', lift, 'bar', [
    input('working', working, 'bar'),
    input('air', air.bar, 'bar'),
    input('rise', rise, 'K'),
    input('ground', groundC, 'C'),
    ...(wet ? [input('vapour', vapour, 'bar')] : []),
  ]);
  if (lift > 0 && working <= rated) {
    const numbers = [input('working', working, 'bar'), input('lift', lift, 'bar'), ratedInput];
    if (working + lift > rated) notes.refuse('lift-past-rated', numbers);
    else if (working + lift > ceiling) notes.warn('lift-past-ceiling', numbers);
  }
  // Whatever was entered, what the guard runs on stays inside the limit.
  working = Math.min(working, ceiling);
  notes.derive('working', working, 'bar', entered === null ? [] : [input('working', entered, 'bar')]);
  relief(job, packer, rated, working, notes);

  const floor = planFloor(job, packer, groundC, diameterMm, notes);
  if (floor.floorBar !== null && floor.floorBar >= working)
    notes.refuse('floor-over-working', [
      input('head', floor.headBar ?? 0, 'bar'),
      input('free-inflation', floor.freeInflationBar ?? 0, 'bar'),
      input('working', working, 'bar'),
    ]);
  let seat = job.pressures.seatBar;
  if (seat !== null && seat >= working) {
    notes.warn('seat-over-working', [input('working', working, 'bar')]);
    seat = null;
  }
  if (job.tap === 'supply' || job.tap === 'unknown') notes.warn('tap-no-hold');
  if (job.line === 'unknown') notes.warn('line-unknown');
  return {
    limits: {
      ratedBar: rated,
      uBar: u,
      ceilingBar: ceiling,
      workingBar: working,
      seatBar: seat,
      ...floor,
      seatingMarginBar: job.pressures.seatingMarginBar,
      noMargin,
      cue: working > 0,
    },
    proposalBar: proposal,
    liftBar: lift,
  };
}

function relief(
  job: JobDocument,
  packer: PackerDocument,
  rated: number,
  working: number,
  notes: Notes,
): void {
  const set = job.pressures.reliefBar ?? packer.reliefBar;
  if (set === null) notes.warn('no-relief');
  else if (set > rated)
    notes.warn('relief-over-rated', [input('pressure', set, 'bar'), input('rated', rated, 'bar')]);
  else if (set <= working)
    notes.warn('relief-under-working', [input('pressure', set, 'bar'), input('working', working, 'bar')]);
}

/** Hold floor: head at the invert + free inflation at this diameter + margin; unknown where a part is unknown. */
function planFloor(
  job: JobDocument,
  packer: PackerDocument,
  groundC: number,
  diameterMm: number | null,
  notes: Notes,
): Pick<Limits, 'floorBar' | 'headBar' | 'freeInflationBar'> {
  const level = job.ground.waterM;
  const waterC = Math.min(40, Math.max(0, groundC));
  let headBar: number | null = null;
  if (level === null) notes.warn('water-unknown');
  else {
    headBar = head(level, waterC) / 1e5;
    notes.derive('head', headBar, 'bar', [
      input('water-level', level, 'm'),
      input('density', waterDensity(waterC), 'kg/m3'),
    ]);
  }
  const freeInflationBar =
    diameterMm === null ? null : between(packer.freeInflation, diameterMm, (r) => r.bar);
  if (freeInflationBar === null) notes.warn('free-inflation-unknown');
  else
    notes.derive(
      'free-inflation',
      freeInflationBar,
      'bar',
      diameterMm === null ? [] : [input('diameter', diameterMm, 'mm')],
    );
  const margin = job.pressures.seatingMarginBar;
  const floorBar =
    headBar === null || freeInflationBar === null ? null : up(headBar + freeInflationBar + margin);
  if (floorBar !== null)
    notes.derive('floor', floorBar, 'bar', [
      input('head', headBar ?? 0, 'bar'),
      input('free-inflation', freeInflationBar ?? 0, 'bar'),
      input('margin', margin, 'bar'),
    ]);
  return { floorBar, headBar, freeInflationBar };
}
