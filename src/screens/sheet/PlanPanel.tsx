import { For, type JSX, Show } from 'solid-js';
import type { Plan } from '../../plan/setup.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { Part } from '../../widgets/Fields.tsx';
import { DERIVATION, warningText } from '../../words/plan.ts';
import { inputsText, planNumber, refusalText } from '../../words/refusals.ts';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';
import { BudgetTable } from './BudgetTable.tsx';
import { inDrawer } from './drawers.ts';
import { PlanLadder } from './PlanLadder.tsx';

/** The plan as a ladder that moves with every entry, and its remarks by what they ask for. */
export function PlanPanel(props: { plan: Plan | null; children: JSX.Element }) {
  const app = useServices();
  return (
    <aside class="panel plan" aria-label={SHEET.plan}>
      <h2>
        {SHEET.plan} <span class="muted">{SHEET.planMoves}</span>
      </h2>
      <Show when={props.plan} fallback={<p class="note strong">{SHEET.planNone}</p>}>
        {(plan) => (
          <>
            <Show when={plan().setup.limits} fallback={<p class="note strong">{SHEET.planGauge}</p>}>
              {(limits) => <PlanLadder limits={limits()} liftBar={plan().liftBar} />}
            </Show>
            <div class="remarks" data-testid="findings">
              <section class="ranked" classList={{ stops: plan().refusals.length > 0 }} role="status">
                <h3>
                  <Show
                    when={plan().refusals.length > 0}
                    fallback={plan().setup.limits === null ? SHEET.stopsNoneGauge : SHEET.stopsNone}
                  >
                    <AlarmShape priority="high" size={24} /> {SHEET.stops(plan().refusals.length)}
                  </Show>
                </h3>
                <ul>
                  <For each={plan().refusals}>
                    {(r) => <li data-testid={`refusal-${r.code}`}>{refusalText(r, app.units())}</li>}
                  </For>
                </ul>
              </section>
              <Show when={inDrawer(plan(), 'look').length > 0}>
                <section class="ranked">
                  <h3>{SHEET.look(inDrawer(plan(), 'look').length)}</h3>
                  <ul>
                    <For each={inDrawer(plan(), 'look')}>
                      {(w) => <li data-testid={`warning-${w.code}`}>{warningText(w, app.units())}</li>}
                    </For>
                  </ul>
                </section>
              </Show>
              <Show when={inDrawer(plan(), 'unknown').length > 0}>
                <details class="ranked" data-testid="unknown">
                  <summary>
                    <h3>{SHEET.unknown(inDrawer(plan(), 'unknown').length)}</h3>
                  </summary>
                  <p class="small muted">{SHEET.unknownMeans}</p>
                  <ul>
                    <For each={inDrawer(plan(), 'unknown')}>
                      {(w) => <li data-testid={`warning-${w.code}`}>{warningText(w, app.units())}</li>}
                    </For>
                  </ul>
                </details>
              </Show>
            </div>
          </>
        )}
      </Show>
      {props.children}
    </aside>
  );
}

/** Each of the plan's numbers with its reason on demand, and the budget behind the ceiling. */
export function PlanNumbers(props: { plan: Plan }) {
  const app = useServices();
  return (
    <>
      <Part title={SHEET.derivation} folded>
        <ul data-testid="derivations">
          <For each={props.plan.derivations}>
            {(x) => (
              <li>
                <details class="derivation" data-testid={`derivation-${x.code}`}>
                  <summary>
                    <span>{DERIVATION[x.code].name}</span>
                    <strong>{planNumber(x.value, x.unit, app.units())}</strong>
                  </summary>
                  <p class="how">
                    {DERIVATION[x.code].how} {inputsText(x.inputs, app.units())}
                  </p>
                </details>
              </li>
            )}
          </For>
        </ul>
      </Part>
      <Show when={props.plan.budget}>{(budget) => <BudgetTable budget={budget()} />}</Show>
    </>
  );
}
