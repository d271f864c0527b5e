import { Show } from 'solid-js';
import { pressure } from '../../words/format.ts';
import { ZERO_SECOND } from '../../words/zero.ts';
import { useServices } from '../context.ts';

/** Over this an open line is none, bar: no zero is taken so far off (sensing/zero.ts). */
const OPEN_BAR = 0.05;

/** Beside the zero: a second sensor that reads no open line. Its zero is not taken, and what that may be is asked. */
export function SecondAtZero() {
  const app = useServices();
  const second = () => app.live.view()?.second ?? null;
  const off = () => {
    const bar = second()?.bar ?? null;
    return bar !== null && Math.abs(bar) > OPEN_BAR ? bar : null;
  };
  return (
    <Show when={second()}>
      {(s) => (
        <p class="note" role="status" data-testid="second-at-zero">
          {s().lost
            ? ZERO_SECOND.lost
            : off() === null
              ? ZERO_SECOND.both
              : ZERO_SECOND.asks[s().role](pressure(off(), app.units()))}
        </p>
      )}
    </Show>
  );
}

/** Until the fill: the zero of a second sensor that had none, and what became of it. */
export function ZeroSecond() {
  const app = useServices();
  const second = () => app.live.view()?.second ?? null;
  const last = () => {
    const event = app.live.events().findLast((e) => e.e === 'zero');
    return event?.e === 'zero' ? (event.second ?? null) : null;
  };
  const said = () => {
    const zero = last();
    if (zero === null) return ZERO_SECOND.none;
    return zero.reason === 'ok'
      ? ZERO_SECOND.taken(pressure(zero.offsetBar, app.units(), 1))
      : ZERO_SECOND.refused[zero.reason](pressure(zero.offsetBar, app.units()));
  };
  return (
    <Show when={second()}>
      <fieldset class="task" data-testid="zero-second-task">
        <legend>{ZERO_SECOND.title}</legend>
        <p class="small" role="status" data-testid="zero-second-result">
          {said()}
        </p>
        <Show when={second()?.zeroed !== true}>
          <SecondAtZero />
          <button
            type="button"
            class="button"
            data-testid="zero-second"
            onClick={() => void app.ask({ q: 'command', command: { c: 'zero' } }).catch(app.fail)}
          >
            {ZERO_SECOND.now}
          </button>
        </Show>
      </fieldset>
    </Show>
  );
}
