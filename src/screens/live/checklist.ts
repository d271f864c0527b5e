import { type Accessor, createMemo, createResource } from 'solid-js';
import {
  answersWith,
  type CheckAnswer,
  openItems,
  withAnswer,
  withoutAnswer,
} from '../../job/check-answers.ts';
import { type CheckSaid, MOMENTS } from '../../job/checklist.ts';
import type { KeptChecklist, KeptItem } from '../../job/checklist-document.ts';
import type { WatchEvent } from '../../watch/events.ts';
import { answering } from '../checklist/Who.tsx';
import { failed, type Services } from '../context.ts';
import { DEMO } from '../demo.ts';
import { keep, loadOne } from '../documents/store.ts';
import { type ChecksOpen, NO_CHECKS } from './checks-open.ts';

/** The checklist of the run's job, with what was answered on the sheet and in the run. */
export interface LiveChecklist {
  /** null: the run has no job sheet, or it is being read. */
  readonly list: Accessor<KeptChecklist | null>;
  readonly answers: Accessor<readonly CheckAnswer[]>;
  readonly checks: Accessor<ChecksOpen>;
  /** Into the record, and behind it onto the job sheet. */
  say(item: KeptItem, how: CheckSaid, text: string): Promise<void>;
}

export const NO_CHECKLIST: LiveChecklist = {
  list: () => null,
  answers: () => [],
  checks: () => NO_CHECKS,
  say: async () => undefined,
};

const saidIn = (events: readonly WatchEvent[]) =>
  events.flatMap((e) => (e.e === 'check' ? [{ ...e, atUtcMs: null }] : []));

export function createLiveChecklist(app: Services): LiveChecklist {
  const { live } = app;
  const who = answering(app);
  const jobId = createMemo(() => live.run()?.jobId ?? null);
  const sheetOf = async (id: string) => {
    const kept = await loadOne(app, 'job', id);
    // The practice job is there without having been stored.
    return kept ?? (id === DEMO.jobId ? { id, revision: 0, savedUtcMs: 0, document: DEMO.job } : null);
  };
  const [job, { mutate }] = createResource(jobId, (id) => sheetOf(id).catch(failed(app)));
  /** A run that is over leaves its sheet in the resource: it is no other's. */
  const own = () => (job.latest != null && job.latest.id === jobId() ? job.latest.document : null);
  // Each answer writes the sheet and reads it again: a list that says the same is the same, and its rows keep finger and focus.
  const list = createMemo(() => own()?.checklist ?? null, null, {
    equals: (a, b) => JSON.stringify(a) === JSON.stringify(b),
  });
  const said = createMemo(() => saidIn(live.events()), [], { equals: (a, b) => a.length === b.length });
  /** By this page's clock, what was said on it. */
  const times = new Map<string, number>();
  const answers = createMemo(() => {
    const sheet = own()?.answers ?? [];
    // The run's events count by its own clock: the time of the day stands on the sheet, where they were written too.
    return answersWith(sheet, said()).map((a) => ({
      ...a,
      atUtcMs: a.atUtcMs ?? times.get(a.item) ?? sheet.find((s) => s.item === a.item)?.atUtcMs ?? null,
    }));
  });
  const checks = createMemo<ChecksOpen>(() => {
    const kept = list();
    return kept === null ? NO_CHECKS : { open: openItems(kept, answers(), MOMENTS) };
  });
  let writing: Promise<unknown> = Promise.resolve();
  /** Others may have written the sheet meanwhile: it is read anew each time. */
  const write = (id: string, change: (before: readonly CheckAnswer[]) => readonly CheckAnswer[]) => {
    writing = writing
      .catch(() => undefined)
      .then(async () => {
        // Who practises next finds the practice job as it was.
        if (id === DEMO.jobId) return;
        const kept = await sheetOf(id);
        if (kept === null) return;
        const { document, revision } = kept;
        mutate(await keep(app, 'job', id, revision, { ...document, answers: [...change(document.answers)] }));
      });
    return writing;
  };
  return {
    list,
    answers,
    checks,
    async say(item, how, text) {
      const id = jobId();
      const by = who();
      const atUtcMs = app.nowMs();
      times.set(item.id, atUtcMs);
      await app.ask({
        q: 'command',
        command: { c: 'check', item: item.id, said: item.text ?? '', safety: item.safety, how, text, by },
      });
      // It stands in the record: the sheet is written behind it, and keeps no step waiting.
      if (id !== null)
        write(id, (before) =>
          how === 'taken-back'
            ? withoutAnswer(before, item.id)
            : withAnswer(before, { item: item.id, how, text, atUtcMs, by }),
        ).catch(app.fail);
    },
  };
}
