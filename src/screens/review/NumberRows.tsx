import { For } from 'solid-js';
import type { Account, Numbers } from '../../evidence/messages.ts';
import { ACCOUNT, gaugeText, overText, witnessText } from '../../words/account.ts';
import { ARCHIVE as A } from '../../words/archive.ts';
import { holdLine } from '../../words/evidence.ts';
import { duration, NO_VALUE, pressure, stopwatch } from '../../words/format.ts';
import { coldestValue, leakText } from '../../words/hold.ts';
import { RECORDS } from '../../words/records.ts';
import { useServices } from '../context.ts';
import { AlarmCounts } from '../runs/AlarmCounts.tsx';

/** The numbers that a reviewer asks for; a dash where the record does not know. */
export function NumberRows(props: {
  told: { readonly account: Account; readonly numbers: Numbers };
  /** The whole trace was read: what only that tells is known. */
  isWhole: boolean;
}) {
  const app = useServices();
  const n = () => props.told.numbers;
  const a = () => props.told.account;
  const coldest = () => {
    const c = n().coldest;
    if (c === null) return props.isWhole ? NO_VALUE : '…';
    return coldestValue(c, app.units());
  };
  const ceiling = () =>
    a().atCeiling === null ? ACCOUNT.noCeiling : a().atCeiling ? ACCOUNT.reached : ACCOUNT.never;
  const rows = (): readonly (readonly [string, string])[] => [
    [A.peak, pressure(n().peakBar, app.units())],
    [ACCOUNT.over, overText(a(), app.units())],
    [ACCOUNT.atCeiling, ceiling()],
    [A.lowestHold, pressure(n().lowestHoldBar, app.units())],
    [A.highestHold, pressure(n().highestHoldBar, app.units())],
    [A.inBand, holdLine(n().inBandS, n().holdS, n().floorKnown)],
    [A.leak, n().leak === null ? NO_VALUE : leakText(n().leak!, app.units())],
    [RECORDS.cure, n().cureMetS === null ? NO_VALUE : A.atRunTime(stopwatch(n().cureMetS ?? 0))],
    [A.coldest, coldest()],
    [ACCOUNT.gauge, gaugeText(a(), app.units())],
    [ACCOUNT.witness, witnessText(a())],
    [A.gaps, n().gaps === 0 ? '0' : A.gapsOf(n().gaps, duration(n().gapS))],
  ];
  return (
    <section class="panel asked" data-testid="review-numbers" aria-label={A.numbers}>
      <h2>{A.numbers}</h2>
      <dl class="asked-rows">
        <For each={rows()}>
          {([name, text]) => (
            <div>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          )}
        </For>
        <div>
          <dt>{RECORDS.alarms}</dt>
          <dd>
            <AlarmCounts counts={n().alarms} />
          </dd>
        </div>
      </dl>
    </section>
  );
}
