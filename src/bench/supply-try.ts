import type { ChannelSetup } from '../job/setup.ts';
import { type SampleFrame, STATUS } from '../link/frames.ts';
import { electrical } from '../sensing/signal.ts';
import { type FindingOf, found } from './findings.ts';
import { SAG, SUPPLY_LISTENED_S } from './limits.ts';

/** The sensor's power as the device measures it: how low it went, whatever was tried meanwhile. */
export interface SupplyTry {
  readonly setup: ChannelSetup;
  lowV: number | null;
  /** The device itself called it low. */
  told: boolean;
}

export const createSupplyTry = (setup: ChannelSetup): SupplyTry => ({ setup, lowV: null, told: false });

const MICRO = 1e-6;

export function takeSupply(s: SupplyTry, frame: SampleFrame): void {
  if ((frame.status & STATUS.supplyLow) !== 0) s.told = true;
  const count = frame.counts[s.setup.index] ?? null;
  const line = electrical(s.setup);
  if (count === null || line === null) return;
  const volts = (line.a + line.b * count) * MICRO;
  s.lowV = s.lowV === null ? volts : Math.min(s.lowV, volts);
}

/** @param listenedS seconds with samples */
export function judgeSupply(s: SupplyTry | undefined, listenedS: number): FindingOf<'supply'> {
  if (s === undefined) return found('supply', 'not-measured');
  const { setup, lowV } = s;
  // The nominal supply is the middle of its span (firmware-protocol/SPEC.md, 4, C).
  const nominalV = (setup.rangeLo + setup.rangeHi) / 2;
  const share = lowV === null ? null : 1 - lowV / nominalV;
  const say = (reason: FindingOf<'supply'>['reason']) =>
    found('supply', reason, share, lowV, nominalV, setup.index);
  if (s.told) return say('told-low');
  if (share === null || listenedS < SUPPLY_LISTENED_S) return say('few');
  return say(share <= SAG.good ? 'steady' : share <= SAG.doubtful ? 'sags' : 'sags-far');
}
