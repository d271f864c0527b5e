import { cleanup, fireEvent, render, screen, waitFor } from '@solidjs/testing-library';
import { createRoot, createSignal } from 'solid-js';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type CheckAnswer, openItems } from '../../job/check-answers.ts';
import { MOMENTS } from '../../job/checklist.ts';
import { builtInChecklist, type KeptItem } from '../../job/checklist-document.ts';
import { resinOf, setupOf } from '../../job/testing/givens.ts';
import { STAGES } from '../../watch/codes.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { HOLD_MS } from '../../widgets/Key.tsx';
import { REST_MS } from '../../widgets/press-guard.ts';
import { CHECK_REASONS } from '../../words/checks.ts';
import { type Services, ServicesContext, useServices } from '../context.ts';
import { type Actions, createActions } from './actions.ts';
import { answersOf } from './answers.ts';
import { ChecklistTask } from './ChecklistTask.tsx';
import { createLiveChecklist, type LiveChecklist } from './checklist.ts';
import { dueItems, momentsNow, safetyAfter, safetyBefore } from './checks-open.ts';
import { instructionOf } from './instruction.ts';
import { layoutOf } from './layout.ts';
import { Drawer } from './more/Drawer.tsx';
import { createMore, type More } from './more/state.ts';
import { stageKey } from './stage-key.ts';
import { createStart } from './start.ts';
import { liveBench } from './testing/bench.ts';
import { sceneOf } from './testing/scene.ts';

const LIST = builtInChecklist();
const ALL = { open: openItems(LIST, [], MOMENTS) };
const ids = (items: readonly KeptItem[]) => items.map((i) => i.id);
const RESIN = setupOf({ resin: resinOf() });

describe('what a stage asks for', () => {
  it('no stage before the packer is out asks for the camera after', () => {
    for (const stage of STAGES)
      expect(ids(dueItems(ALL, stage, true)).includes('camera-after'), stage).toBe(
        stage === 'done' || stage === 'air-test',
      );
    expect(momentsNow('prepare', true)).not.toContain('air');
    expect(momentsNow('prepare', false)).toContain('air');
  });

  it('air waits for the safety items of all moments before it, going on down for none of them', () => {
    const before = ids(safetyBefore(ALL, 'prepare', 'seat'));
    expect(before).toEqual([
      'permit',
      'ventilation',
      'packer-inspected',
      'relief-fitted',
      'protection',
      'fittings-locked',
      'area-clear',
    ]);
    expect(safetyBefore(ALL, 'seat', 'inflate')).toEqual([]);
    expect(safetyBefore(ALL, 'hold', 'let-down')).toEqual([]);
    expect(safetyAfter(ALL)).toEqual([]);
  });

  it('the key that leads on is to be held while they wait, the order names them, and a key leads to the list', () => {
    const waits = sceneOf({}, { setup: RESIN, checks: ALL });
    expect(stageKey(waits, false)).toMatchObject({ does: 'stage', look: 'hold' });
    const asked = instructionOf(waits);
    expect(asked.code).toBe('checklist');
    expect(answersOf(waits, asked).map((a) => a.code)).toEqual(['checklist', 'mixed']);
    const rest = { open: ALL.open.filter((i) => !i.safety) };
    const calm = sceneOf({}, { setup: RESIN, checks: rest });
    expect(stageKey(calm, false)).toMatchObject({ does: 'stage', look: 'ready' });
    expect(instructionOf(calm).code).not.toBe('checklist');
    expect(answersOf(calm, instructionOf(calm)).map((a) => a.code)).toEqual(['checklist', 'mixed']);
  });
});

beforeEach(() => void vi.useFakeTimers({ shouldAdvanceTime: true }));
afterEach(() => {
  cleanup();
  vi.useRealTimers();
});

/** A list that is answered on the page alone. */
function held(first: readonly CheckAnswer[] = []) {
  const [answers, setAnswers] = createSignal(first);
  const said: [string, string, string][] = [];
  const checklist: LiveChecklist = {
    list: () => LIST,
    answers,
    checks: () => ({ open: openItems(LIST, answers(), MOMENTS) }),
    async say({ id: item }, how, text) {
      said.push([item, how, text]);
      const others = answers().filter((a) => a.item !== item);
      setAnswers(how === 'taken-back' ? others : [...others, { item, how, text, atUtcMs: 1, by: '' }]);
    },
  };
  return { checklist, said };
}

function drawer(checklist: LiveChecklist) {
  const bench = liveBench({ stage: 'prepare', bar: 0 });
  let more!: More;
  let actions!: Actions;
  const Panel = () => {
    const app = useServices();
    const start = createStart(app, () => null);
    more = createMore();
    actions = createActions(app, start, more, checklist);
    return (
      <>
        <button type="button" data-testid="go" onClick={() => actions.go('seat')}>
          go
        </button>
        <Drawer
          tab={more.tab() ?? 'start'}
          open={more.tab() !== null}
          more={more}
          start={start}
          actions={actions}
          checklist={checklist}
          at={layoutOf(1180, 820, false).drawer}
          small={false}
          span="stage"
          onSpan={() => undefined}
        />
      </>
    );
  };
  render(() => (
    <ServicesContext.Provider value={bench.services}>
      <Panel />
    </ServicesContext.Provider>
  ));
  return { ...bench, more, actions };
}
const tap = (el: HTMLElement) => {
  vi.advanceTimersByTime(REST_MS + 10);
  fireEvent.pointerDown(el, { button: 0 });
  fireEvent.pointerUp(el);
  fireEvent.click(el, { detail: 1 });
};
const holdDown = (el: HTMLElement) => {
  vi.advanceTimersByTime(REST_MS + 10);
  fireEvent.pointerDown(el, { button: 0 });
  vi.advanceTimersByTime(HOLD_MS + 10);
  fireEvent.pointerUp(el);
};

describe('a step with safety items that nobody answered', () => {
  it('lists them; answered there, nothing speaks against it any more and it goes on without a reason', async () => {
    const { checklist, said } = held();
    const { commands } = drawer(checklist);
    fireEvent.click(screen.getByTestId('go'));
    expect(screen.getByTestId('stage-doubt').dataset.to).toBe('seat');
    expect(commands).toEqual([]);
    for (const id of ids(safetyBefore(ALL, 'prepare', 'seat')))
      fireEvent.click(screen.getByTestId(`check-${id}`));
    expect(said).toHaveLength(7);
    // Rows stay where they are under a finger.
    expect(screen.getByTestId('check-permit').getAttribute('aria-pressed')).toBe('true');
    tap(screen.getByTestId('go-on'));
    await waitFor(() => expect(commands).toEqual([{ c: 'stage', to: 'seat' }]));
  });

  it('gone on without all of them for one reason, each item bears it', async () => {
    const { checklist, said } = held();
    const { commands } = drawer(checklist);
    fireEvent.click(screen.getByTestId('go'));
    fireEvent.click(screen.getByTestId('check-permit'));
    tap(screen.getByTestId('reason-0'));
    await waitFor(() => expect(commands).toEqual([{ c: 'stage', to: 'seat' }]));
    expect(said.filter(([, how]) => how === 'passed')).toHaveLength(6);
    expect(new Set(said.slice(1).map(([, , why]) => why))).toEqual(new Set([CHECK_REASONS[0]]));
  });
});

describe('the list in the drawer', () => {
  it('shows what is asked now open and what comes later folded; one item is gone on without by a held key and a reason', () => {
    const { checklist, said } = held();
    const { more } = drawer(checklist);
    more.open('checklist');
    const later = screen.getByTestId<HTMLDetailsElement>('checks-later');
    expect(later.open).toBe(false);
    expect(later.contains(screen.getByTestId('check-camera-after'))).toBe(true);
    expect(later.contains(screen.getByTestId('check-permit'))).toBe(false);
    tap(screen.getByTestId('pass-permit'));
    expect(screen.queryByTestId('why-permit')).toBeNull();
    holdDown(screen.getByTestId('pass-permit'));
    tap(screen.getByTestId('why-permit-1'));
    expect(said).toEqual([['permit', 'passed', CHECK_REASONS[1]]]);
    expect(screen.getByTestId('told-permit').textContent).toContain(CHECK_REASONS[1]);
  });

  it('the end of the run leads to the safety items that are asked when the packer is out, while one waits', () => {
    const { checklist } = held();
    const items = LIST.items.map((i) => (i.id === 'cleaned' ? { ...i, safety: true } : i));
    const own: LiveChecklist = {
      ...checklist,
      list: () => ({ ...LIST, items }),
      checks: () => ({ open: openItems({ ...LIST, items }, checklist.answers(), MOMENTS) }),
    };
    const { more, actions } = drawer(own);
    actions.press({ does: 'end', to: null, look: 'ready' });
    expect(more.tab()).toBe('checklist');
    fireEvent.click(screen.getByTestId('check-cleaned'));
    expect(safetyAfter(own.checks())).toEqual([]);
  });

  it('an answer is taken back by the same row', () => {
    const { checklist, said } = held([{ item: 'permit', how: 'done', text: '', atUtcMs: 1, by: 'A.B.' }]);
    drawer(checklist).more.open('checklist');
    expect(screen.getByTestId('told-permit').textContent).toContain('A.B.');
    fireEvent.click(screen.getByTestId('check-permit'));
    expect(said).toEqual([['permit', 'taken-back', '']]);
    expect(screen.getByTestId('check-permit').getAttribute('aria-pressed')).toBe('false');
  });

  it('what wants a number waits for it, and says it with the answer', () => {
    const { checklist, said } = held();
    const first = { ...LIST.items[0]!, wants: 'number', unit: '%' } as const;
    const own = { ...checklist, list: () => ({ ...LIST, items: [first, ...LIST.items.slice(1)] }) };
    drawer(own).more.open('checklist');
    const key = screen.getByTestId<HTMLButtonElement>('check-permit');
    expect(key.disabled).toBe(true);
    fireEvent.input(screen.getByTestId('check-value-permit'), { target: { value: '20.9' } });
    fireEvent.click(key);
    expect(said).toEqual([['permit', 'done', '20.9']]);
  });

  it('a run without a sheet has none', () => {
    const bench = liveBench();
    render(() => (
      <ServicesContext.Provider value={bench.services}>
        <ChecklistTask checklist={{ ...held().checklist, list: () => null }} />
      </ServicesContext.Provider>
    ));
    expect(screen.getByTestId('no-checklist')).not.toBeNull();
  });
});

describe('an answer in a run', () => {
  it('goes into the record with its words, and behind it onto the sheet; what the run said holds', async () => {
    const { DEMO } = await import('../demo.ts');
    const [events, setEvents] = createSignal<readonly WatchEvent[]>([]);
    let stored = {
      kind: 'job',
      id: 'job-1',
      revision: 3,
      savedUtcMs: 0,
      body: { ...DEMO.job, answers: [] as readonly CheckAnswer[] },
    };
    const asked: unknown[] = [];
    const services = {
      ...liveBench().services,
      nowMs: () => 7000,
      settings: () => ({
        people: [{ initials: 'A.B.', name: 'A' }],
        here: [{ day: '1970-01-01', initials: ['A.B.'] }],
      }),
      live: { run: () => ({ runId: 'r', jobId: 'job-1' }), events },
      async ask(request: { q: string; command?: object; document?: typeof stored }) {
        if (request.q === 'command') asked.push(request.command);
        if (request.q === 'put-document') {
          expect(request.document!.revision).toBe(stored.revision);
          stored = { ...request.document!, revision: stored.revision + 1 };
        }
        return stored;
      },
    } as unknown as Services;
    await createRoot(async (dispose) => {
      const checklist = createLiveChecklist(services);
      await waitFor(() => expect(checklist.list()).not.toBeNull());
      const before = checklist.list();
      const permit = LIST.items.find((i) => i.id === 'permit')!;
      const cleaned = LIST.items.find((i) => i.id === 'cleaned')!;
      await Promise.all([checklist.say(permit, 'done', ''), checklist.say(cleaned, 'done', '')]);
      expect(asked[0]).toEqual({
        c: 'check',
        item: 'permit',
        said: '',
        safety: true,
        how: 'done',
        text: '',
        by: 'A.B.',
      });
      await waitFor(() => expect(stored.body.answers).toHaveLength(2));
      // The sheet was written and read anew; its list says the same, and no row is made anew under a finger.
      await waitFor(() => expect(checklist.answers()).toHaveLength(2));
      expect(checklist.list()).toBe(before);
      expect(stored.body.answers[0]).toEqual({
        item: 'permit',
        how: 'done',
        text: '',
        atUtcMs: 7000,
        by: 'A.B.',
      });
      setEvents([
        { tUs: 9, e: 'check', item: 'permit', said: '', safety: true, how: 'taken-back', text: '', by: '' },
      ]);
      expect(ids(checklist.checks().open)).toContain('permit');
      expect(ids(checklist.checks().open)).not.toContain('cleaned');
      dispose();
    });
  });
});
