import { Show } from 'solid-js';
import { type DisplayUnits, duration, NO_VALUE, pressureNumber } from '../words/format.ts';
import { UI } from '../words/ui.ts';

/** How a reading may be believed: good, old (greyed) or lost (struck, never a live-looking number). */
export type Trust = 'none' | 'good' | 'stale' | 'lost';

/**
 * Shown trust of the pressure. A value of null is lost even when the engine calls it fresh; an engine that fell
 * silent makes every number old.
 */
export function trustOf(
  bar: number | null,
  ageS: number | null,
  stale: boolean,
  lost: boolean,
  silent: boolean,
): Trust {
  if (ageS === null && bar === null) return lost ? 'lost' : 'none';
  if (lost || bar === null) return 'lost';
  return stale || silent ? 'stale' : 'good';
}

export function BigNumber(props: {
  bar: number | null;
  uBar: number | null;
  trust: Trust;
  ageS: number | null;
  units: DisplayUnits;
}) {
  // A lost reading shows the dash: the last number is said in small words with its age, never in the large digits: there, dashes stand in their place.
  const digits = () =>
    props.trust === 'lost' || props.trust === 'none'
      ? pressureNumber(0, props.units).replace(/\d/g, NO_VALUE)
      : pressureNumber(props.bar, props.units);
  return (
    <div
      class="big"
      classList={{ [props.trust]: true, long: digits().length > 4 }}
      data-testid="pressure"
      data-trust={props.trust}
    >
      <p class="big-label">{UI.pressure}</p>
      <p class="big-value">
        <span class="big-digits" data-testid="pressure-value">
          {digits()}
        </span>
        <span class="big-unit">{props.units.pressure}</span>
      </p>
      <p class="big-note" data-testid="pressure-note">
        <Show when={props.trust === 'good' && props.uBar !== null}>
          {`± ${pressureNumber(props.uBar, props.units, 1)} ${props.units.pressure}, ${UI.gaugePressure}`}
        </Show>
        <Show when={props.trust === 'stale'}>
          <strong>{UI.oldReading}</strong> {props.ageS === null ? '' : duration(props.ageS)}
        </Show>
        <Show when={props.trust === 'lost'}>
          <strong>{UI.lostReading}</strong>{' '}
          {props.ageS === null ? '' : `${UI.lastReading} ${duration(props.ageS)} ${UI.ago}`}
        </Show>
        <Show when={props.trust === 'none'}>{UI.noReading}</Show>
      </p>
    </div>
  );
}
