import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { afterEach, expect, it, vi } from 'vitest';
import { LIMITS } from '../../../job/testing/givens.ts';
import type { WatchView } from '../../../watch/view.ts';
import { REST_MS } from '../../../widgets/press-guard.ts';
import { FACE } from '../../../words/face.ts';
import { ServicesContext, useServices } from '../../context.ts';
import { createActions } from '../actions.ts';
import { NO_CHECKLIST } from '../checklist.ts';
import { layoutOf } from '../layout.ts';
import { createStart } from '../start.ts';
import { liveBench } from '../testing/bench.ts';
import { Drawer } from './Drawer.tsx';
import { createMore, type More } from './state.ts';

afterEach(cleanup);

function shown(first: Partial<WatchView> = { stage: 'hold', bar: 1.5 }) {
  const bench = liveBench(first);
  let more!: More;
  const Panel = () => {
    const app = useServices();
    const start = createStart(app, () => null);
    more = createMore();
    const actions = createActions(app, start, more);
    return (
      <Drawer
        tab={more.tab() ?? 'start'}
        open={more.tab() !== null}
        more={more}
        start={start}
        actions={actions}
        checklist={NO_CHECKLIST}
        at={layoutOf(1180, 820, false).drawer}
        small={false}
        span="stage"
        onSpan={() => undefined}
      />
    );
  };
  render(() => (
    <ServicesContext.Provider value={bench.services}>
      <button type="button" data-testid="elsewhere">
        elsewhere
      </button>
      <Panel />
    </ServicesContext.Provider>
  ));
  return { ...bench, more };
}
const drawer = () => screen.getByTestId('drawer');

it('is shut at first, out of sight and of the tab order', () => {
  shown();
  expect(drawer().hidden).toBe(true);
});

it('in a run it has what is not needed at a glance, one part named after another', () => {
  const { more } = shown();
  more.open('numbers');
  expect(drawer().hidden).toBe(false);
  expect(drawer().getAttribute('aria-label')).toBe(FACE.tabs.numbers);
  const tabs = screen.getAllByRole('tab');
  expect(tabs.map((t) => t.textContent)).toEqual(
    (['numbers', 'spans', 'stages', 'checks', 'note', 'alarms', 'run'] as const).map((t) => FACE.tabs[t]),
  );
  expect(tabs.filter((t) => t.getAttribute('aria-selected') === 'true').map((t) => t.textContent)).toEqual([
    FACE.tabs.numbers,
  ]);
  fireEvent.click(screen.getByTestId('more-spans'));
  expect(more.tab()).toBe('spans');
  expect(screen.getByTestId('more-spans').getAttribute('aria-selected')).toBe('true');
});

it('what was opened gets the focus: the drawer, or the field that was asked for', async () => {
  const { more } = shown({ stage: 'seat', bar: 0.4 });
  screen.getByTestId('elsewhere').focus();
  more.open('numbers');
  await waitFor(() => expect(document.activeElement).toBe(drawer()));
  more.open('checks', 'gauge-value');
  await waitFor(() => expect(document.activeElement).toBe(screen.getByTestId('gauge-value')));
});

it('Escape shuts it, and what was typed is there when it is opened again', async () => {
  const { more } = shown();
  more.open('note');
  const field = drawer().querySelector<HTMLTextAreaElement | HTMLInputElement>(
    'textarea, input[type=text], input',
  )!;
  fireEvent.input(field, { target: { value: 'Dial gauge hard to read' } });
  fireEvent.keyDown(field, { key: 'Escape' });
  expect(more.tab()).toBeNull();
  expect(drawer().hidden).toBe(true);
  more.open('alarms');
  more.open('note');
  expect(field.isConnected).toBe(true);
  expect(field.value).toBe('Dial gauge hard to read');
});

it('before the air goes in the checks ask whether the alarm is heard', () => {
  const { more, show } = shown({ stage: 'prepare', bar: 0 });
  more.open('checks');
  expect(screen.queryByTestId('sound-test')).not.toBeNull();
  show({ stage: 'inflate' });
  expect(screen.queryByTestId('sound-test')).toBeNull();
});

it('a hold far under working asks why by its figures, and records them with the reason', async () => {
  const { more, commands } = shown({ stage: 'inflate', bar: 1.2, limits: LIMITS, uBar: 0.02 });
  more.ask({ to: 'hold', doubts: ['under-working'] });
  const text = screen.getByTestId('stage-doubt').textContent?.replaceAll('\u00a0', ' ');
  expect(text).toContain('1.20 bar, working 1.80. ');
  fireEvent.input(screen.getByTestId('stage-reason'), { target: { value: 'Old pipe.' } });
  fireEvent.click(screen.getByTestId('send-reason'));
  expect(commands).toEqual([{ c: 'stage', to: 'hold', reason: 'Old pipe. (1.20\u00a0bar, working 1.80)' }]);
});

it('who goes on to done since the packer was seen empty has said so of it, and no other reason has', async () => {
  for (const i of [0, 1]) {
    const { more, services } = shown({ stage: 'let-down', bar: 0 });
    const asked = vi.spyOn(services, 'ask');
    more.ask({ to: 'done', doubts: ['no-rebound'] });
    await new Promise((resolve) => setTimeout(resolve, REST_MS + 50));
    fireEvent.pointerDown(screen.getByTestId(`reason-${i}`), { button: 0 });
    fireEvent.click(screen.getByTestId(`reason-${i}`), { detail: 1 });
    expect(asked.mock.calls.some(([r]) => r.q === 'command')).toBe(true);
    expect(asked.mock.calls.some(([r]) => r.q === 'packer-empty')).toBe(i === 0);
    cleanup();
  }
});
