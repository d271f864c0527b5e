/**
 * What of a Setup follows from the rest of it: gain and offset from the points of the calibration, the ceiling from the rated
 * pressure and the uncertainty of the reading. The plan makes them so; whoever signs a Setup of his own can write others.
 */
import { isPressureRole } from '../job/pressure-roles.ts';
import type { ChannelSetup, Limits, Setup } from '../job/setup.ts';
import { fitCalibration, leftOf } from '../sensing/calibration.ts';
import { pressureBudget } from '../sensing/uncertainty.ts';
import type { Finding } from './findings.ts';
import type { Page } from './page.ts';
import type { RunVisitor } from './reader.ts';

type Unfounded = Extract<Finding, { f: 'setup' }>;

/** Of what a double of another machine's rounding may differ by. */
const ROUNDING = 1e-9;

const isNear = (a: number, b: number): boolean => Math.abs(a - b) <= ROUNDING * Math.max(1, Math.abs(b));

/** Nobody corrects a supply or a cold junction. */
function isFitted({ role, calibration, rangeLo, rangeHi }: ChannelSetup): boolean {
  if (calibration === null || !(isPressureRole(role) || role === 'temperature')) return true;
  const quantity = role === 'temperature' ? 'temperature' : 'pressure';
  const fit = fitCalibration(leftOf(calibration), rangeHi - rangeLo, quantity);
  const { offset, gain, uResidual } = calibration;
  return fit.ok && isNear(offset, fit.offset) && isNear(gain, fit.gain) && isNear(uResidual, fit.uResidual);
}

/** Within a run a ceiling only falls: one that was kept may be lower. */
const isGuarded = ({ ceilingBar, ratedBar, uBar, noMargin }: Limits): boolean =>
  noMargin !== null || ceilingBar <= Math.max(0, ratedBar - uBar) + ROUNDING;

/**
 * The least that the plan can take for the reading at the rated pressure, bar: with its zero taken. null where no channel reads the
 * pressure; then it assumes one.
 */
function leastUncertainty({ channels, air }: Setup, ratedBar: number): number | null {
  const ch = channels.find((c) => c.role === 'pressure');
  if (ch === undefined) return null;
  const supplied = channels.some((c) => c.index === ch.partner && c.role === 'supply');
  return pressureBudget(ch, ratedBar, supplied, { zeroed: true, airU: air.uBar }).expanded;
}

const isUncertain = (setup: Setup, { uBar, ratedBar }: Limits): boolean =>
  uBar >= (leastUncertainty(setup, ratedBar) ?? 0) - ROUNDING;

/** Is handed every page; asked of Setups whose form is known. */
export class SetupFollows implements RunVisitor {
  /** The first of each kind and channel. */
  private readonly found = new Map<string, Unfounded>();

  page({ header, placed }: Page): void {
    for (const { entry } of placed)
      if (entry.l === 'setup') this.setup(entry.setup, { page: header.index, tUs: entry.tUs });
  }

  private setup(setup: Setup, at: Pick<Unfounded, 'page' | 'tUs'>): void {
    const { channels, limits } = setup;
    for (const ch of channels)
      if (!isFitted(ch)) this.note({ f: 'setup', what: 'calibration', channel: ch.index, ...at });
    if (limits !== null && !isGuarded(limits))
      this.note({ f: 'setup', what: 'ceiling', channel: null, ...at });
    if (limits !== null && !isUncertain(setup, limits))
      this.note({ f: 'setup', what: 'uncertainty', channel: null, ...at });
  }

  private note(finding: Unfounded): void {
    const key = `${finding.what} ${finding.channel}`;
    if (!this.found.has(key)) this.found.set(key, finding);
  }

  get findings(): readonly Unfounded[] {
    return [...this.found.values()];
  }
}
