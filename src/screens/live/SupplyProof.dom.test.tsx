import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { METRIC } from '../../units/display.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { supplyEvent } from '../../watch/supply/proof-event.ts';
import type { SupplyView } from '../../watch/view.ts';
import { SUPPLY, SUPPLY_REASON } from '../../words/supply.ts';
import { type Services, ServicesContext } from '../context.ts';
import { SupplyProof } from './SupplyProof.tsx';

afterEach(cleanup);

function show(supply: SupplyView | null, events: readonly WatchEvent[] = [], limits: unknown = LIMITS) {
  const ask = vi.fn(async () => null);
  const live = { events: () => events, view: () => ({ supply, limits }) };
  render(() => (
    <ServicesContext.Provider value={{ ask, live, units: () => METRIC } as unknown as Services}>
      <SupplyProof />
    </ServicesContext.Provider>
  ));
  return ask;
}

const PROVED: SupplyView = {
  phase: null,
  leftS: null,
  asked: false,
  lockUpBar: { value: 1.82, low: 1.81, high: 1.83 },
  verdict: 'creeps',
  creepMbarPerMin: { value: 6, low: 5.4, high: 6.6 },
  ceilingInS: { value: 540, low: 500, high: 600 },
  proved: true,
};

it('begins by how the end is closed, and says until then that nothing was proved', () => {
  const ask = show(null);
  expect(screen.getByTestId('supply-result').textContent).toBe(SUPPLY.skipped);
  fireEvent.click(screen.getByTestId('supply-uncoupled'));
  expect(ask).toHaveBeenCalledWith({ q: 'command', command: { c: 'prove-supply', end: 'uncoupled' } });
});

it('says why the last one was none, what the one that holds was, and takes that the regulator was set anew', () => {
  show(null, [supplyEvent(1e6, 'refused', { reason: 'not-empty', bar: 0.4 })]);
  expect(screen.getByTestId('supply-result').textContent).toBe(SUPPLY.notProved(SUPPLY_REASON['not-empty']));
  cleanup();
  const ask = show(PROVED, [supplyEvent(1e6, 'proved')]);
  expect(screen.getByTestId('supply-result').textContent).toMatch(/1\.82.*Creeps.*ceiling in 9/);
  fireEvent.click(screen.getByTestId('supply-turned'));
  expect(ask).toHaveBeenCalledWith({ q: 'command', command: { c: 'supply', said: 'turned' } });
});

it('without limits has nothing to prove it against', () => {
  show(null, [], null);
  expect(screen.queryByTestId('supply-shut')).toBeNull();
  expect(screen.getByText(SUPPLY.needsLimits)).toBeTruthy();
});
