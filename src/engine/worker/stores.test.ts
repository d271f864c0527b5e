import { expect, it } from 'vitest';
import { StoreError } from '../../record/stores/store.ts';
import { openStores } from './stores.ts';

// Node has neither store: as a private window.
it('without stores nothing is held up: files are refused with the reason, documents live in memory', async () => {
  const { files, documents } = await openStores();
  const refused = await files.open('run.pages').catch((e: unknown) => e);
  expect(refused).toBeInstanceOf(StoreError);
  expect(await files.list()).toEqual([]);
  expect(await files.room()).toBe(0);
  await documents.put({ kind: 'settings', id: 'tablet', revision: 0, savedUtcMs: 1, body: { a: 1 } });
  expect((await documents.get('settings', 'tablet'))?.body).toEqual({ a: 1 });
});
