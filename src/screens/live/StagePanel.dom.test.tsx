import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeAll, expect, it, vi } from 'vitest';
import { LIMITS } from '../../job/testing/givens.ts';
import { METRIC } from '../../units/display.ts';
import { viewOf } from '../../watch/step.ts';
import { Script } from '../../watch/testing/script.ts';
import type { WatchView } from '../../watch/view.ts';
import { type Services, ServicesContext } from '../context.ts';
import { StagePanel } from './StagePanel.tsx';

afterEach(cleanup);
// jsdom draws no dialogs.
beforeAll(() => {
  HTMLDialogElement.prototype.showModal ??= function show(this: HTMLDialogElement) {
    this.open = true;
  };
  HTMLDialogElement.prototype.close ??= function close(this: HTMLDialogElement) {
    this.open = false;
  };
});

function show(first: WatchView) {
  const ask = vi.fn(async () => null);
  const [view, setView] = createSignal(first);
  const live = { events: () => [], view, setup: () => null };
  render(() => (
    <ServicesContext.Provider
      value={{ ask, live, fail: vi.fn(), units: () => METRIC } as unknown as Services}
    >
      <StagePanel onEnd={() => {}} />
    </ServicesContext.Provider>
  ));
  return { ask, setView };
}
const look = (s: Script) => viewOf(s.w, s.tS * 1e6);
/** A fill that was brought to a pressure. */
const inflated = (bar: number) =>
  new Script()
    .flow(2, 0)
    .say({ c: 'stage', to: 'inflate' })
    .flow(15, (t) => Math.min(bar, 0.15 * t))
    .flow(5, bar);

it('offers the hold at working pressure, and nothing like it under an urgent alarm', () => {
  const s = inflated(1.8);
  const { setView } = show(look(s));
  expect(screen.getByTestId('stage-next').dataset.to).toBe('hold');
  expect(screen.getByTestId('stage').textContent).toContain('Open slowly');
  s.flow(10, (t) => 1.8 + 0.1 * t);
  setView(look(s));
  expect(look(s).alarms[0]!.priority).toBe('urgent');
  const button = screen.getByTestId<HTMLButtonElement>('stage-next');
  expect([button.disabled, button.dataset.to, button.textContent]).toEqual([
    true,
    undefined,
    'The alarm comes first',
  ]);
  expect(screen.getByText(/Open slowly/).classList.contains('unseen')).toBe(true);
  // Not blocked: the step is there, behind the others.
  expect(screen.getByTestId('stage-hold')).toBeTruthy();
});

it('a hold at 2.25 bar, over the working pressure, asks for a reason and records it', () => {
  expect(LIMITS.workingBar).toBe(1.8);
  const view = look(inflated(1.8));
  const { ask } = show({ ...view, bar: 2.25 });
  fireEvent.click(screen.getByTestId('stage-next'));
  expect(ask).not.toHaveBeenCalled();
  expect(screen.getByTestId('stage-doubt').textContent).toContain('over the working pressure');
  fireEvent.input(screen.getByTestId('stage-reason'), { target: { value: 'tight joint' } });
  fireEvent.click(screen.getByTestId('confirm-yes'));
  expect(ask).toHaveBeenCalledExactlyOnceWith({
    q: 'command',
    command: { c: 'stage', to: 'hold', reason: 'tight joint' },
  });
});
