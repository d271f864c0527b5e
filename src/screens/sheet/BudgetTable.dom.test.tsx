import { cleanup, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it } from 'vitest';
import { METRIC } from '../../units/display.ts';
import { type Services, ServicesContext } from '../context.ts';
import { BudgetTable } from './BudgetTable.tsx';

afterEach(cleanup);

it('shows every source with its share, and the expanded uncertainty with k = 2', () => {
  const rows = [
    { code: 'reference', u: 0.003, distribution: 'normal', type: 'B' },
    { code: 'resolution', u: 0.004, distribution: 'rectangular', type: 'B' },
  ] as const;
  render(() => (
    <ServicesContext.Provider value={{ units: () => METRIC } as unknown as Services}>
      <BudgetTable budget={{ rows, combined: 0.005, k: 2, expanded: 0.01 }} />
    </ServicesContext.Provider>
  ));
  expect(screen.getByTestId('budget-reference').textContent).toContain('36\u00a0%');
  expect(screen.getByTestId('budget-resolution').textContent).toContain('64\u00a0%');
  expect(screen.getByTestId('budget-resolution').textContent).toContain('rectangular');
  expect(screen.getByTestId('budget-expanded').textContent).toContain('0.010');
});
