import { For, Show } from 'solid-js';
import type { Plan } from '../../plan/setup.ts';
import { Part } from '../../widgets/Fields.tsx';
import { DERIVATION, warningText } from '../../words/plan.ts';
import { inputsText, planNumber, refusalText } from '../../words/refusals.ts';
import { SHEET } from '../../words/sheet.ts';
import { useServices } from '../context.ts';
import { BudgetTable } from './BudgetTable.tsx';

/** What the plan refuses and warns of, and each of its numbers with its reason on demand. */
export function Findings(props: { plan: Plan }) {
  const app = useServices();
  return (
    <div class="sheet-plan">
      <Part title={SHEET.findings}>
        <ul class="stack" data-testid="findings">
          <For each={props.plan.refusals}>
            {(r) => (
              <li class="finding refuse" data-testid={`refusal-${r.code}`}>
                <strong>{SHEET.refused}</strong> {refusalText(r, app.units())}
              </li>
            )}
          </For>
          <For each={props.plan.warnings}>
            {(w) => (
              <li class="finding" data-testid={`warning-${w.code}`}>
                {warningText(w, app.units())}
              </li>
            )}
          </For>
          <Show when={props.plan.refusals.length + props.plan.warnings.length === 0}>
            <li class="muted">{SHEET.nothingFound}</li>
          </Show>
        </ul>
      </Part>
      <Part title={SHEET.derivation}>
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
    </div>
  );
}
