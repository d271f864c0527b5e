import { For, Show } from 'solid-js';
import { LINE_ENDS } from '../../watch/codes.ts';
import type { Command } from '../../watch/inputs.ts';
import { pressure } from '../../words/format.ts';
import { SUPPLY, SUPPLY_REASON, supplyText } from '../../words/supply.ts';
import { useServices } from '../context.ts';
import { Help } from '../help/Help.tsx';

/**
 * Proof of the supply before the hose is on the packer. The order zone leads through it; here it is begun, and its result stands
 * with what speaks against it.
 */
export function SupplyProof() {
  const app = useServices();
  const send = (command: Command) => void app.ask({ q: 'command', command }).catch(app.fail);
  const view = () => app.live.view();
  const supply = () => view()?.supply ?? null;
  const proving = () => (supply()?.phase ?? null) !== null;
  /** Why the last one is none; what holds has no reason. */
  const failed = () => {
    const last = app.live.events().findLast((e) => e.e === 'supply' && e.reason !== null);
    return last?.e === 'supply' && last.reason !== null && supply()?.proved !== true && !proving()
      ? SUPPLY.notProved(SUPPLY_REASON[last.reason])
      : null;
  };
  const result = () => {
    const s = supply();
    if (s === null || s.lockUpBar === null) return null;
    // While it is watched the creep is none that is known.
    return supplyText(s.proved ? s : { ...s, creepMbarPerMin: null }, app.units());
  };
  return (
    <fieldset class="task" data-testid="supply-proof">
      <legend>{SUPPLY.title}</legend>
      <div class="with-help">
        <p class="small">{SUPPLY.text}</p>
        <Help about="supply" of={SUPPLY.title} />
      </div>
      <Show when={view()?.limits != null} fallback={<p class="note">{SUPPLY.needsLimits}</p>}>
        <Show when={!proving()}>
          <p class="small">{supply()?.proved === true ? SUPPLY.again : SUPPLY.closed}</p>
          <div class="row">
            <For each={LINE_ENDS}>
              {(end) => (
                <button
                  type="button"
                  class="button grow"
                  data-testid={`supply-${end}`}
                  onClick={() => send({ c: 'prove-supply', end })}
                >
                  {SUPPLY[end]}
                </button>
              )}
            </For>
          </div>
        </Show>
        <p class="note strong" role="status" data-testid="supply-result">
          {result() ?? (proving() ? SUPPLY.underWay : (failed() ?? SUPPLY.skipped))}
        </p>
        <Show when={supply()?.proved === true}>
          <button
            type="button"
            class="button"
            data-testid="supply-turned"
            onClick={() => send({ c: 'supply', said: 'turned' })}
          >
            {SUPPLY.turned}
          </button>
        </Show>
        <p class="small">{SUPPLY.beside}</p>
      </Show>
    </fieldset>
  );
}

/** Where the outlet stood before the fill: a regulator that was turned since has not moved by itself. */
export function OutletStood() {
  const app = useServices();
  const stoodBar = () => app.live.view()?.second?.stoodBar ?? null;
  return (
    <Show when={stoodBar() !== null}>
      <fieldset class="task" data-testid="outlet-stood">
        <legend>{SUPPLY.outletTitle}</legend>
        <p class="small">{SUPPLY.outletText(pressure(stoodBar(), app.units()))}</p>
        <button
          type="button"
          class="button"
          data-testid="outlet-turned"
          onClick={() =>
            void app.ask({ q: 'command', command: { c: 'supply', said: 'turned' } }).catch(app.fail)
          }
        >
          {SUPPLY.turned}
        </button>
      </fieldset>
    </Show>
  );
}
