import { Match, Switch } from 'solid-js';
import type { WatchView } from '../watch/view.ts';
import { type DisplayUnits, duration, pressure } from '../words/format.ts';
import { UI } from '../words/ui.ts';
import { viewTrust } from './trust.ts';

/** The pressure in one line, for pages that show something else: only a reading that may be believed is a bare number. */
export function Glance(props: { view: WatchView | null; silent: boolean; units: DisplayUnits }) {
  const trust = () => viewTrust(props.view, props.silent);
  return (
    <strong data-testid="glance" data-trust={trust()}>
      <Switch>
        <Match when={trust() === 'good'}>{pressure(props.view?.bar, props.units)}</Match>
        <Match when={trust() === 'over'}>{UI.overRange(pressure(props.view?.overBar, props.units))}</Match>
        <Match when={trust() === 'stale'}>
          {props.view?.ageS == null ? UI.oldReading : UI.oldReadingOf(duration(props.view.ageS))}
        </Match>
        <Match when={trust() === 'lost'}>{UI.lostReading}</Match>
        <Match when={trust() === 'none'}>{UI.noReading}</Match>
      </Switch>
    </strong>
  );
}
