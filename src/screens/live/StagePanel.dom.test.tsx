import { cleanup, fireEvent, render, screen } from '@solidjs/testing-library';
import { createSignal } from 'solid-js';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import type { Request } from '../../engine/messages.ts';
import type { Stage } from '../../watch/codes.ts';
import type { WatchView } from '../../watch/view.ts';
import { METRIC } from '../../words/format.ts';
import { type Services, ServicesContext } from '../context.ts';
import { StagePanel } from './StagePanel.tsx';

beforeEach(() => vi.useFakeTimers());
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

it('a second press is meant for the stage before, and skips none', async () => {
  const [stage, setStage] = createSignal<Stage>('prepare');
  const asked: Stage[] = [];
  const ask = async (request: Request) => {
    if (request.q === 'command' && request.command.c === 'stage') {
      asked.push(request.command.to);
      setStage(request.command.to);
    }
    return null;
  };
  const view = () =>
    ({
      stage: stage(),
      standing: [],
      alarms: [],
      temps: [],
      limits: { seatBar: 0.3 },
      attempt: 1,
      overBar: null,
      bar: 0,
      cure: null,
    }) as unknown as WatchView;
  const services = {
    ask,
    live: { view, events: () => [], setup: () => null },
    units: () => METRIC,
    fail: vi.fn(),
  } as unknown as Services;
  render(() => (
    <ServicesContext.Provider value={services}>
      <StagePanel onEnd={() => undefined} />
    </ServicesContext.Provider>
  ));
  const next = () => screen.getByTestId('stage-next');
  fireEvent.click(next());
  for (let i = 0; i < 5; i++) {
    await vi.advanceTimersByTimeAsync(200);
    expect(next().getAttribute('aria-disabled')).toBe('true');
    fireEvent.click(next());
  }
  expect(asked).toEqual(['seat']);
  await vi.advanceTimersByTimeAsync(1000);
  const held = new KeyboardEvent('keydown', { key: 'Enter', repeat: true, cancelable: true, bubbles: true });
  next().dispatchEvent(held);
  expect(held.defaultPrevented).toBe(true);
  fireEvent.click(next());
  expect(asked).toEqual(['seat', 'inflate']);
});
