import { createRoot, createSignal } from 'solid-js';
import { afterEach, expect, it } from 'vitest';
import type { WatchEvent } from '../../watch/events.ts';
import type { Services } from '../context.ts';
import { sayOperator } from './operator.ts';

function bench(here: readonly string[]) {
  const [events, setEvents] = createSignal<readonly WatchEvent[]>([]);
  const [run, setRun] = createSignal<{ runId: string } | null>(null);
  const [today, setToday] = createSignal(here);
  const asked: unknown[] = [];
  const services = {
    nowMs: () => 0,
    settings: () => ({
      people: ['O.N.', 'T.W.'].map((initials) => ({ initials, name: initials })),
      here: [{ day: '1970-01-01', initials: today() }],
    }),
    live: { run, events },
    ask: async (request: { command: { by: string } }) => {
      asked.push(request.command);
      setEvents([...events(), { tUs: 1, e: 'operator', by: request.command.by }]);
    },
    fail: (e: unknown) => {
      throw e;
    },
  } as unknown as Services;
  return { services, asked, setRun, setEvents, setToday };
}

let end: () => void;
afterEach(() => end());
/** Effects run once the root is made. */
function begin(services: Services): void {
  end = createRoot((dispose) => {
    sayOperator(services, () => true);
    return dispose;
  });
}

const said = (...by: string[]) => by.map((b) => ({ c: 'operator', by: b }));

it('the one who is here is named once a run is on, again in the next, and when another takes over', () => {
  const b = bench(['O.N.']);
  begin(b.services);
  expect(b.asked).toEqual([]);
  b.setRun({ runId: 'one' });
  expect(b.asked).toEqual(said('O.N.'));
  b.setToday(['T.W.']);
  expect(b.asked).toEqual(said('O.N.', 'T.W.'));
  b.setEvents([]);
  b.setRun({ runId: 'two' });
  expect(b.asked).toEqual(said('O.N.', 'T.W.', 'T.W.'));
});

it('says nothing where nobody is named, nor what stands there already, nor against another window', () => {
  const b = bench([]);
  begin(b.services);
  b.setRun({ runId: 'one' });
  expect(b.asked).toEqual([]);
  b.setEvents([{ tUs: 1, e: 'operator', by: 'O.N.' }]);
  b.setToday(['O.N.']);
  expect(b.asked).toEqual([]);
  b.setEvents([{ tUs: 2, e: 'operator', by: 'T.W.' }]);
  expect(b.asked).toEqual([]);
});
