import { type Accessor, createEffect, createMemo, on, untrack } from 'solid-js';
import { answering } from '../checklist/Who.tsx';
import type { Services } from '../context.ts';

/**
 * Says into the run whose hands are at this computer: once a run is on, and whenever another is chosen here. What another
 * window says meanwhile is not answered, or two windows would contradict each other for ever.
 */
export function sayOperator(app: Services, running: Accessor<boolean>): void {
  const { live } = app;
  const who = answering(app);
  const runId = createMemo(() => (running() ? (live.run()?.runId ?? null) : null));
  createEffect(
    on([runId, who], ([run, by]) => {
      if (run === null) return;
      const before = untrack(() => live.events()).findLast((e) => e.e === 'operator');
      if (by === (before?.e === 'operator' ? before.by : '')) return;
      void app.ask({ q: 'command', command: { c: 'operator', by } }).catch(app.fail);
    }),
  );
}
