/**
 * What of a Setup follows from the rest of it: gain and offset from the points of the calibration, the ceiling from the rated
 * pressure and the uncertainty of the reading. The plan makes them so; whoever signs a Setup of his own can write others.
 */
import { isPressureRole } from '../job/pressure-roles.ts';
import type { ChannelSetup, Limits, Setup } from '../job/setup.ts';
import { fitCalibration, leftOf } from '../sensing/calibration.ts';
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

/** Is handed every page; asked of Setups whose form is known. */
export class SetupFollows implements RunVisitor {
  /** The first of each kind and channel. */
  private readonly found = new Map<string, Unfounded>();

  page({ header, placed }: Page): void {
    for (const { entry } of placed)
      if (entry.l === 'setup') this.setup(entry.setup, { page: header.index, tUs: entry.tUs });
  }

  private setup({ channels, limits }: Setup, at: Pick<Unfounded, 'page' | 'tUs'>): void {
    for (const ch of channels)
      if (!isFitted(ch)) this.note({ f: 'setup', what: 'calibration', channel: ch.index, ...at });
    if (limits !== null && !isGuarded(limits))
      this.note({ f: 'setup', what: 'ceiling', channel: null, ...at });
  }

  private note(finding: Unfounded): void {
    const key = `${finding.what} ${finding.channel}`;
    if (!this.found.has(key)) this.found.set(key, finding);
  }

  get findings(): readonly Unfounded[] {
    return [...this.found.values()];
  }
}
