import { For, Show } from 'solid-js';
import type { Numbers } from '../../evidence/messages.ts';
import { ARCHIVE as A } from '../../words/archive.ts';
import { holdLine } from '../../words/evidence.ts';
import { duration, NO_VALUE, pressure, stopwatch, temperature } from '../../words/format.ts';
import { leakText } from '../../words/hold.ts';
import { PLACE } from '../../words/terms.ts';
import { useServices } from '../context.ts';

/** The numbers that a reviewer asks for; a dash where the record does not know. */
export function NumberRows(props: { numbers: Numbers }) {
  const app = useServices();
  const n = () => props.numbers;
  const coldest = () => {
    const c = n().coldest;
    if (c === null) return NO_VALUE;
    const place =
      c.place !== null && Object.hasOwn(PLACE, c.place) ? PLACE[c.place as keyof typeof PLACE] : '';
    return `${temperature(c.c, app.units())}${place === '' ? '' : ` (${place})`}`;
  };
  const rows = (): readonly (readonly [string, string])[] => [
    [A.inBand, holdLine(n().inBandS, n().holdS, n().floorKnown)],
    [A.lowestHold, pressure(n().lowestHoldBar, app.units())],
    [A.highestHold, pressure(n().highestHoldBar, app.units())],
    [A.peak, pressure(n().peakBar, app.units())],
    [A.cureMet, n().cureMetS === null ? NO_VALUE : stopwatch(n().cureMetS ?? 0)],
    [A.coldest, coldest()],
    [A.gaps, n().gaps === 0 ? '0' : A.gapsOf(n().gaps, duration(n().gapS))],
    [A.alarmsBy, `${n().alarms.urgent} / ${n().alarms.high} / ${n().alarms.low}`],
  ];
  return (
    <section class="panel stack" data-testid="review-numbers" aria-label={A.numbers}>
      <h2>{A.numbers}</h2>
      <dl class="facts">
        <For each={rows()}>
          {([name, text]) => (
            <div>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          )}
        </For>
        <Show when={n().leak}>
          {(leak) => (
            <div class="fact-wide">
              <dt>{A.leak}</dt>
              <dd>{leakText(leak(), app.units())}</dd>
            </div>
          )}
        </Show>
      </dl>
    </section>
  );
}
