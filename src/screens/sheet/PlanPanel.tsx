import { createSignal, For, type JSX, Show } from 'solid-js';
import type { Plan } from '../../plan/setup.ts';
import { AlarmShape } from '../../widgets/AlarmShape.tsx';
import { Part } from '../../widgets/Fields.tsx';
import { DERIVATION, warningText } from '../../words/plan.ts';
import { inputsText, planNumber, refusalText } from '../../words/refusals.ts';
import { SHEET } from '../../words/sheet.ts';
import { WELCOME } from '../../words/welcome.ts';
import { useServices } from '../context.ts';
import { Help } from '../help/Help.tsx';
import { BudgetTable } from './BudgetTable.tsx';
import { inDrawer } from './drawers.ts';
import type { SheetField } from './fields.tsx';
import { PlanLadder } from './PlanLadder.tsx';
import { FIELD_OF } from './remark-fields.ts';

/** The plan as a ladder that moves with every entry, and its remarks by rank: refused, risky, to know. */
export function PlanPanel(props: {
  plan: Plan | null;
  /** Leads to the field that a remark speaks of. */
  onField(field: SheetField): void;
  children: JSX.Element;
}) {
  const app = useServices();
  return (
    <aside class="panel plan" id="plan" tabIndex={-1} aria-label={SHEET.plan}>
      <div class="with-help">
        <h2>
          {SHEET.plan} <span class="muted">{SHEET.planMoves}</span>
        </h2>
        <Help about="marks" of={WELCOME.guide} />
      </div>
      {props.children}
      <Show when={props.plan} fallback={<p class="note strong">{SHEET.planNone}</p>}>
        {(plan) => (
          <>
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
                    {(r) => (
                      <Remark
                        testId={`refusal-${r.code}`}
                        text={refusalText(r, app.units())}
                        field={FIELD_OF[r.code]}
                        onField={props.onField}
                      />
                    )}
                  </For>
                </ul>
              </section>
              <Rank
                notes={inDrawer(plan(), 'look')}
                title={SHEET.look(inDrawer(plan(), 'look').length)}
                open
                testId="risky"
                onField={props.onField}
              />
              <Rank
                notes={inDrawer(plan(), 'unknown')}
                title={SHEET.unknown(inDrawer(plan(), 'unknown').length)}
                means={SHEET.unknownMeans}
                testId="unknown"
                onField={props.onField}
              />
            </div>
            <Show when={plan().setup.limits} fallback={<p class="note strong">{SHEET.planGauge}</p>}>
              {(limits) => <PlanLadder limits={limits()} liftBar={plan().liftBar} />}
            </Show>
          </>
        )}
      </Show>
    </aside>
  );
}

/** The remarks of one rank, folded as a whole. */
function Rank(props: {
  notes: Plan['warnings'];
  title: string;
  means?: string;
  open?: boolean;
  testId: string;
  onField(field: SheetField): void;
}) {
  const app = useServices();
  // Opened and shut by whoever reads; the plan that moves on leaves it so.
  const [open, setOpen] = createSignal(props.open ?? false);
  return (
    <Show when={props.notes.length > 0}>
      <details
        class="ranked"
        open={open()}
        onToggle={(e) => setOpen(e.currentTarget.open)}
        data-testid={props.testId}
      >
        <summary>
          <h3>{props.title}</h3>
        </summary>
        <Show when={props.means}>
          <p class="small muted">{props.means}</p>
        </Show>
        <ul>
          <For each={props.notes}>
            {(w) => (
              <Remark
                testId={`warning-${w.code}`}
                text={warningText(w, app.units())}
                field={FIELD_OF[w.code]}
                onField={props.onField}
              />
            )}
          </For>
        </ul>
      </details>
    </Show>
  );
}

/** What the plan says, and the way to the field that answers it. */
function Remark(props: {
  text: string;
  field: SheetField | null;
  testId: string;
  onField(field: SheetField): void;
}) {
  return (
    <li data-testid={props.testId}>
      <Show when={props.field} fallback={props.text}>
        {(field) => (
          <button type="button" class="remark" onClick={() => props.onField(field())}>
            {props.text}
          </button>
        )}
      </Show>
    </li>
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
