import { Show } from 'solid-js';
import type { AlarmCode, Priority } from '../watch/codes.ts';
import { alarmLine } from '../words/alarm-titles.ts';
import { type DisplayUnits, duration, NO_VALUE, pressure, pressureNumber } from '../words/format.ts';
import { PRESSURE_SLOT } from '../words/orders.ts';
import { UI } from '../words/ui.ts';
import { AlarmShape } from './AlarmShape.tsx';
import type { Trust } from './trust.ts';

/** What the number is called: it is not the line's pressure where none is read. */
const SLOT: Record<Trust, keyof typeof PRESSURE_SLOT> = {
  good: 'line',
  stale: 'stale',
  over: 'over-range',
  lost: 'lost',
  none: 'lost',
};

export function BigNumber(props: {
  bar: number | null;
  uBar: number | null;
  trust: Trust;
  ageS: number | null;
  /** End of the sensor's span while the reading is over it, bar. */
  overBar: number | null;
  units: DisplayUnits;
  /** An alarm that waits, named beside the digits where its own row may be out of sight. */
  alarm?: { readonly alarm: AlarmCode; readonly priority: Priority } | null;
}) {
  // A lost reading is dashes in the large digits; its last number and age are said in small words.
  const digits = () =>
    props.trust === 'lost' || props.trust === 'none'
      ? pressureNumber(0, props.units).replace(/\d/g, NO_VALUE)
      : props.trust === 'over'
        ? `>${pressureNumber(props.overBar, props.units)}`
        : pressureNumber(props.bar, props.units);
  return (
    <div
      class="big"
      classList={{ [props.trust]: true, long: digits().length > 4 }}
      data-testid="pressure"
      data-trust={props.trust}
    >
      <p class="big-label">
        <span class="big-name">{PRESSURE_SLOT[SLOT[props.trust]]}</span>
        <Show when={props.alarm}>
          {(a) => (
            <span class={`big-alarm ${a().priority}`} aria-hidden="true">
              <AlarmShape priority={a().priority} size={18} />
              <span>{alarmLine(a().alarm, a().priority)}</span>
            </span>
          )}
        </Show>
      </p>
      <p class="big-value">
        <span class="big-digits" data-testid="pressure-value">
          {digits()}
        </span>
        <span class="big-unit">{props.units.pressure}</span>
      </p>
      <p class="big-note" data-testid="pressure-note">
        <Show when={props.trust === 'good' && props.uBar !== null}>
          {UI.readingU(pressure(props.uBar, props.units, 1))}
        </Show>
        <Show when={props.trust === 'stale'}>
          <strong>{props.ageS === null ? UI.oldReading : UI.oldReadingOf(duration(props.ageS))}</strong>
        </Show>
        <Show when={props.trust === 'over'}>
          <strong>{UI.overRange(pressure(props.overBar, props.units))}</strong> {UI.overRangeMeans}
        </Show>
        <Show when={props.trust === 'lost'}>
          <strong>{UI.lostReading}</strong> {props.ageS === null ? '' : UI.lastReading(duration(props.ageS))}
        </Show>
        <Show when={props.trust === 'none'}>{UI.noReading}</Show>
      </p>
    </div>
  );
}
