import { expect, it } from 'vitest';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { createMemoryStore } from '../record/stores/testing/memory.ts';
import { runPages } from '../record/testing/sealing.ts';
import { createRunList } from './run-list.ts';

it('runs without a document are adopted, though another tab removes one meanwhile', async () => {
  const store = createMemoryStore();
  for (const runId of ['run-0000', 'run-0001']) {
    const file = await store.open(`${runId}.run`);
    file.append(runPages({ seconds: 1, head: { runId } }));
    file.close();
  }
  const files: typeof store = Object.assign(Object.create(store), {
    async list() {
      const listed = await store.list();
      await store.remove('run-0000.run');
      return listed;
    },
  });
  const runList = createRunList(createMemoryDocuments(), files, () => 0);
  await runList.adoptOrphans({ breathe: async () => undefined });
  expect((await runList.list()).map((s) => s.runId)).toEqual(['run-0001']);
});
