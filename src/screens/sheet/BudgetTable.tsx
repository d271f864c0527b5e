import { For } from 'solid-js';
import type { Budget } from '../../sensing/uncertainty.ts';
import { Part } from '../../widgets/Fields.tsx';
import { BUDGET, BUDGET_ROW, BUDGET_SHAPE } from '../../words/budget.ts';
import { percent } from '../../words/format.ts';
import { planNumber } from '../../words/refusals.ts';
import { useServices } from '../context.ts';

/** Why the ceiling lies where it lies: the budget of a pressure reading, bar. */
export function BudgetTable(props: { budget: Budget }) {
  const app = useServices();
  const bar = (u: number) => planNumber(u, 'bar', app.units());
  const share = (u: number) => {
    const all = props.budget.combined ** 2;
    return all > 0 ? percent((u * u) / all) : '';
  };
  return (
    <Part title={BUDGET.title} folded>
      <p class="small muted">{BUDGET.text}</p>
      <div class="table-scroll">
        <table class="budget" data-testid="budget">
          <thead>
            <tr>
              <th scope="col">{BUDGET.component}</th>
              <th scope="col">{BUDGET.standard}</th>
              <th scope="col">{BUDGET.distribution}</th>
              <th scope="col">{BUDGET.share}</th>
            </tr>
          </thead>
          <tbody>
            <For each={props.budget.rows}>
              {(row) => (
                <tr data-testid={`budget-${row.code}`}>
                  <th scope="row">{BUDGET_ROW[row.code]}</th>
                  <td>{bar(row.u)}</td>
                  <td>{BUDGET_SHAPE[row.distribution]}</td>
                  <td>{share(row.u)}</td>
                </tr>
              )}
            </For>
          </tbody>
          <tfoot>
            <tr>
              <th scope="row">{BUDGET.combined}</th>
              <td>{bar(props.budget.combined)}</td>
              <td />
              <td />
            </tr>
            <tr>
              <th scope="row">{BUDGET.expanded}</th>
              <td data-testid="budget-expanded">
                <strong>{bar(props.budget.expanded)}</strong>
              </td>
              <td />
              <td />
            </tr>
          </tfoot>
        </table>
      </div>
    </Part>
  );
}
