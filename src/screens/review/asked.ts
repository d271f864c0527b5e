import type { Account, Numbers } from '../../evidence/messages.ts';
import { ACCOUNT, gaugeText, overText, supplyProved, witnessText } from '../../words/account.ts';
import { ARCHIVE as A } from '../../words/archive.ts';
import { holdLine } from '../../words/evidence.ts';
import {
  count,
  type DisplayUnits,
  duration,
  NO_VALUE,
  pressure,
  type RunClock,
  stopwatch,
} from '../../words/format.ts';
import { coldestValue, leakText } from '../../words/hold.ts';
import { RECORDS } from '../../words/records.ts';

export interface Asked {
  readonly account: Account;
  readonly numbers: Numbers;
}

/**
 * The figures that a reviewer asks for, each with its name, in the same order for every run; a dash where the record does not know.
 * @param isWhole the whole trace was read: what only that tells is known
 */
export function askedRows(
  { account, numbers: n }: Asked,
  clock: RunClock,
  units: DisplayUnits,
  isWhole: boolean,
): readonly (readonly [name: string, text: string])[] {
  const ceiling =
    account.atCeiling === null ? ACCOUNT.noCeiling : account.atCeiling ? ACCOUNT.reached : ACCOUNT.never;
  return [
    [A.peak, pressure(n.peakBar, units)],
    [ACCOUNT.over, overText(account, units)],
    [ACCOUNT.atCeiling, ceiling],
    [A.heldFrom, n.heldFromS === null ? NO_VALUE : clock(n.heldFromS)],
    [A.lowestHold, pressure(n.lowestHoldBar, units)],
    [A.highestHold, pressure(n.highestHoldBar, units)],
    [A.inBand, holdLine(n.inBandS, n.holdS, n.floorKnown)],
    [A.leak, n.leak === null ? NO_VALUE : leakText(n.leak, units)],
    [RECORDS.cure, n.cureMetS === null ? NO_VALUE : A.atRunTime(stopwatch(n.cureMetS))],
    [A.coldest, n.coldest === null ? (isWhole ? NO_VALUE : '…') : coldestValue(n.coldest, units)],
    [ACCOUNT.supply, supplyProved(account, units)],
    [ACCOUNT.gauge, gaugeText(account, units)],
    [ACCOUNT.witness, witnessText(account)],
    [A.overrides, count(n.overrides)],
    [A.gaps, n.gaps === 0 ? '0' : A.gapsOf(n.gaps, duration(n.gapS))],
  ];
}
