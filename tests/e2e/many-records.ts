import path from 'node:path';
import type { Page } from 'playwright-core';

const FIXTURE = 'fixtures/records/sealed.steadybar.zip';

/** What a record's row says in another way than the others' rows; by the number of the record. */
export type Otherwise = Readonly<Record<number, Readonly<Record<string, unknown>>>>;

/**
 * An archive of many records: the fixture's file is checked and kept by the page itself, and then what the store holds of it is
 * laid down again under other names, places and days.
 * @param otherwise what some rows say in another way; every other one had no alarm
 */
export async function keepMany(
  page: Page,
  origin: string,
  records: number,
  otherwise: Otherwise,
): Promise<void> {
  await page.goto(`${origin}/#/verify`);
  await page.locator('input[type=file]').first().setInputFiles(path.resolve(FIXTURE));
  await page.getByTestId('verdict').waitFor({ timeout: 60_000 });
  await page.getByTestId('keep').click();
  await page.getByTestId('kept').waitFor({ timeout: 30_000 });
  await page.evaluate(
    async ({ records, otherwise }) => {
      type Kept = { kind: string; id: string; body: Record<string, unknown> };
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const asked = indexedDB.open('steadybar');
        asked.onsuccess = () => resolve(asked.result);
        asked.onerror = () => reject(asked.error);
      });
      const all = await new Promise<Kept[]>((resolve) => {
        const asked = db.transaction('documents').objectStore('documents').getAll();
        asked.onsuccess = () => resolve(asked.result as Kept[]);
      });
      const file = all.find((d) => d.kind === 'seal' && d.id.startsWith('import-'))!;
      const sha256 = file.id.slice('import-'.length);
      const label = all.find((d) => d.kind === 'review' && d.id === `label-${sha256}`)!;
      // Spread over all first characters, as hashes are.
      const hashOf = (i: number) =>
        (Math.imul(i + 1, 0x9e3779b1) >>> 0).toString(16).padStart(8, '0').padEnd(64, '0');
      const store = db.transaction('documents', 'readwrite').objectStore('documents');
      for (let i = 0; i < records; i++) {
        const other = hashOf(i);
        const opened = 1_700_000_000_000 + i * 11 * 3_600_000;
        const facts = { sha256: other, runId: `run-${i}`, name: `${i}.steadybar.zip`, importedUtcMs: opened };
        store.put({ ...file, id: `import-${other}`, body: { ...file.body, ...facts } });
        const row = {
          title: `Joint at ${(i % 97) + 3}.${i % 10} m`,
          site: `Yard ${i % 40}, chamber ${i}`,
          packer: `Packer ${i % 12}`,
          openedUtcMs: opened,
          alarms: 0,
          ...otherwise[i],
        };
        store.put({ ...label, id: `label-${other}`, body: { ...label.body, ...row } });
      }
      // As every put of the program does it: the rows of the list that were there before are no longer whole.
      for (const c of '0123456789abcdef')
        store.put({ kind: 'rows', id: `import-${c}`, revision: 1000, savedUtcMs: 0, body: null });
      await new Promise<void>((resolve, reject) => {
        store.transaction.oncomplete = () => resolve();
        store.transaction.onerror = () => reject(store.transaction.error);
      });
      db.close();
    },
    { records, otherwise },
  );
}
