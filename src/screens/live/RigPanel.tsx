import { createMemo, createSignal, For, Show } from 'solid-js';
import type { RigFault, RigHand } from '../../engine/messages.ts';
import { percent, pressure } from '../../words/format.ts';
import { RIG, RIG_FAULT } from '../../words/live.ts';
import { DRILL, PRACTICE, SENSED } from '../../words/practice.ts';
import { UI } from '../../words/ui.ts';
import { useServices } from '../context.ts';
import { hasCup } from './practice.ts';

const FAULTS: readonly RigFault[] = [
  { fault: 'regulator', bar: 3 },
  { fault: 'creep', barPerMin: 0.2 },
  { fault: 'stuck-open' },
  { fault: 'leak', mbarPerMin: 8 },
  { fault: 'open-probe' },
  { fault: 'unplug' },
  { fault: 'replug' },
  { fault: 'reset' },
  { fault: 'garbage', bytes: 400 },
  { fault: 'silence', seconds: 8 },
  { fault: 'supply-sag' },
  { fault: 'kink', open: 0.002 },
  { fault: 'blown-hose' },
  { fault: 'burst' },
  { fault: 'relief', bar: 1.1 },
  { fault: 'first-lost' },
  { fault: 'second-off', bar: -0.45 },
  { fault: 'second-lost' },
  { fault: 'sensors-swapped' },
  { fault: 'cup-in-air' },
  { fault: 'cup-swapped' },
  { fault: 'hose-leak', lPerMin: 2 },
  { fault: 'put-right' },
];
/** Of a device with two pressures alone, and of one with a probe in a cup. */
const OF_PAIR: readonly RigFault['fault'][] = ['second-off', 'second-lost', 'sensors-swapped'];
const OF_CUP: readonly RigFault['fault'][] = ['cup-in-air', 'cup-swapped'];
/** Of a pipe between plugs, at half a bar as the rig takes it: at the pressure of a test it is well over what is allowed. */
const TEST_LEAK: RigFault = { fault: 'leak', mbarPerMin: 40 };
const SPEEDS = [1, 4, 20, 60] as const;
/** Of the dial gauge at a drilled site, bar. */
const DIAL_STEP_BAR = 0.05;

/** Hands and faults of the simulated site. Valve and vent come first: they are what an alarm asks for. */
export function RigPanel() {
  const app = useServices();
  const rig = app.live.rig;
  const [regulator, setRegulator] = createSignal<number | null>(null);
  const hand = (h: RigHand) => void app.ask({ q: 'rig-hand', hand: h }).catch(app.fail);
  const fault = (f: RigFault) => void app.ask({ q: 'rig-fault', fault: f }).catch(app.fail);
  // A supply that sags is seen by a sensor whose supply is measured: a current loop takes no notice of it.
  const faults = createMemo(() => {
    const channels = app.live.link()?.channels ?? [];
    const isSupplyRead = channels.some((c) => c.quantity === 'supply');
    const isPair = channels.filter((c) => c.quantity === 'press').length > 1;
    const isCup = hasCup(channels);
    return FAULTS.filter(({ fault: f }) => {
      if (f === 'supply-sag') return isSupplyRead;
      return (isPair || !OF_PAIR.includes(f)) && (isCup || !OF_CUP.includes(f));
    });
  });
  /** A needle is read to its half division. */
  const dialBar = () => Math.round((rig()?.trueLineBar ?? 0) / DIAL_STEP_BAR) * DIAL_STEP_BAR;
  const heard = () => {
    const all = rig()?.sensed ?? [];
    return all.length === 0 ? PRACTICE.quiet : all.map((s) => SENSED[s]).join(', ');
  };
  const isTest = () => app.live.view()?.stage === 'air-test';
  const valve = () => rig()?.valveOpen ?? 0;
  return (
    <section class="rig" aria-label={RIG.title} data-testid="rig-panel">
      <div class="rig-hands">
        <div class="field">
          <label for="rig-valve">
            {RIG.valve} <span class="field-unit">{percent(valve())}</span>
          </label>
          <div class="row">
            <button
              type="button"
              class="button"
              data-testid="rig-shut"
              onClick={() => hand({ hand: 'valve', open: 0 })}
            >
              {RIG.shut}
            </button>
            <input
              id="rig-valve"
              class="grow"
              type="range"
              min="0"
              max="1"
              step="0.05"
              value={valve()}
              data-testid="rig-valve"
              onInput={(e) => hand({ hand: 'valve', open: Number(e.currentTarget.value) })}
            />
          </div>
        </div>
        <div class="rig-pair">
          <button
            type="button"
            class="button"
            data-testid="rig-vent"
            aria-pressed={rig()?.ventOpen ?? false}
            onClick={() => hand({ hand: 'vent', open: !(rig()?.ventOpen ?? false) })}
          >
            {rig()?.ventOpen ? RIG.ventShut : RIG.ventOpen}
          </button>
          <button
            type="button"
            class="button"
            data-testid="rig-couple"
            aria-pressed={rig()?.coupled ?? false}
            onClick={() => hand({ hand: 'couple', coupled: !(rig()?.coupled ?? false) })}
          >
            {rig()?.coupled ? RIG.uncouple : RIG.couple}
          </button>
          <Show when={rig()?.coupled === false}>
            <button
              type="button"
              class="button"
              data-testid="rig-end"
              aria-pressed={rig()?.endShut ?? false}
              onClick={() => hand({ hand: 'end', shut: !(rig()?.endShut ?? false) })}
            >
              {rig()?.endShut ? RIG.endOpen : RIG.endShut}
            </button>
          </Show>
        </div>
        <div class="field">
          <label for="rig-regulator">
            {RIG.regulator}{' '}
            <span class="field-unit">{pressure(regulator() ?? rig()?.regulatorBar, app.units())}</span>
          </label>
          <input
            id="rig-regulator"
            type="range"
            min="0"
            max="4"
            step="0.05"
            value={regulator() ?? rig()?.regulatorBar ?? 0}
            data-testid="rig-regulator"
            onInput={(e) => {
              const bar = Number(e.currentTarget.value);
              setRegulator(bar);
              hand({ hand: 'regulator', bar });
            }}
            onChange={() => setRegulator(null)}
          />
        </div>
        <div class="field">
          <span class="label">{RIG.speed}</span>
          <div class="segments" data-testid="rig-speed">
            <For each={SPEEDS}>
              {(speed) => (
                <button
                  type="button"
                  class="segment"
                  aria-pressed={rig()?.speed === speed}
                  onClick={() => void app.ask({ q: 'rig-speed', speed }).catch(app.fail)}
                >
                  {speed}×
                </button>
              )}
            </For>
          </div>
        </div>
        <Show
          when={rig()?.drill}
          fallback={
            <p class="small rig-truth">
              {RIG.truth}
              {UI.colon}{' '}
              <strong>{rig() === null ? UI.notKnown : pressure(rig()?.truePackerBar, app.units())}</strong>
            </p>
          }
        >
          {(drill) => (
            <div class="rig-truth stack" data-testid="rig-drill">
              <p>
                <strong>
                  {PRACTICE.goal}
                  {UI.colon}
                </strong>{' '}
                {DRILL[drill()].goal}
              </p>
              <p class="small">
                {PRACTICE.dial}
                {UI.colon} <strong>{pressure(dialBar(), app.units())}</strong>
                {' · '}
                {PRACTICE.atSite}
                {UI.colon} <strong>{heard()}</strong>
              </p>
            </div>
          )}
        </Show>
      </div>
      <Show when={(rig()?.drill ?? null) === null}>
        <details>
          <summary>{RIG.faults}</summary>
          <div class="row">
            <For each={faults()}>
              {(f) => (
                <button
                  type="button"
                  class="button"
                  data-testid={`rig-fault-${f.fault}`}
                  onClick={() => fault(f.fault === 'leak' && isTest() ? TEST_LEAK : f)}
                >
                  {RIG_FAULT[f.fault]}
                </button>
              )}
            </For>
          </div>
        </details>
      </Show>
      <p class="small muted">{RIG.text}</p>
    </section>
  );
}
