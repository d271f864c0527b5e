import { describe, expect, it } from 'vitest';
import { createManualTimers, settle } from '../link/testing/timers.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import type { RunSummary } from './messages.ts';
import { createRunList } from './run-list.ts';
import { createSettling } from './settling.ts';
import { createTestLocks } from './testing/bench.ts';

const summary = (runId: string, state: RunSummary['state']): RunSummary => ({
  runId,
  jobId: null,
  title: 'A repair',
  practice: false,
  openedUtcMs: 1,
  endedUtcMs: null,
  state,
  seconds: 0,
  readings: 0,
  peakBar: null,
  gaps: 0,
  alarms: 0,
  bytes: 0,
  sensorChecks: [],
});

function bench() {
  const timers = createManualTimers();
  const files = createMemoryStore();
  const documents = createMemoryDocuments();
  const locks = createTestLocks();
  const utcMs = () => 1;
  const runList = createRunList(documents, files, utcMs);
  const settling = createSettling({ files, documents, locks, timers, utcMs }, runList);
  return { timers, files, runList, locks, settling };
}

describe('the stores at the start', () => {
  it('runs that were left open are offered, but for one that is held', async () => {
    const { runList, locks, settling } = bench();
    await runList.save(summary('held', 'open'));
    await runList.save(summary('left', 'open'));
    await runList.save(summary('over', 'ended'));
    await locks.acquire('run-held');
    expect((await settling.begin()).left.map((r) => r.runId)).toEqual(['left']);
    // Looking takes nothing.
    expect(await locks.acquire('run-left')).not.toBeNull();
  });

  it('the list waits for them, and shows what there is after 3 s', async () => {
    const { timers, files, runList, settling } = bench();
    await runList.save(summary('over', 'ended'));
    files.list = () => new Promise(() => undefined);
    void settling.begin();
    let listed: readonly RunSummary[] | null = null;
    void settling.listed().then((runs) => {
      listed = runs;
    });
    await timers.run(2990);
    await settle();
    expect(listed).toBeNull();
    await timers.run(20);
    expect(listed).toMatchObject([{ runId: 'over' }]);
  });
});
