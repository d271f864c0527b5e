import { readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterEach, expect, it } from 'vitest';
import { runVerify } from '../../src/cli/verify-run.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { english } from '../../src/words/testing/english.ts';
import { endRun, enterPacker, needSerial, type Stage, setStage, shownBar, sleep, startRun } from './stage.ts';

// A run over real Web Serial is sealed, saved and checked; then the browser is killed while it seals.

let stage: Stage | null = null;
afterEach(async () => {
  await stage?.close();
  stage = null;
});

const PACKER = 'Packer of the test';
// Few in every run of the tests; `npm run faults -- kills` makes a hundred.
const KILLS = Number(process.env.STEADYBAR_KILLS ?? 2);

/** A short run, recorded and ended; gives its id. */
async function record(s: Stage): Promise<string> {
  await enterPacker(s.page, PACKER, 2.0);
  await startRun(s, PACKER);
  await s.device.op('true 150000 12000 14000 18000');
  await expect.poll(() => shownBar(s.page), { timeout: 10_000 }).toBeCloseTo(1.5, 1);
  await sleep(4000);
  await endRun(s);
  return new URL(s.page.url()).hash.replace('#/run/', '');
}

async function saveFile(s: Stage): Promise<string> {
  const [download] = await Promise.all([
    s.page.waitForEvent('download'),
    s.page.getByTestId('save-job-file').click(),
  ]);
  const file = path.join(tmpdir(), `steadybar-${process.pid}-${download.suggestedFilename()}`);
  await download.saveAs(file);
  return file;
}

it('sealed, saved, valid here and on the command line; a changed byte is named', async (context) => {
  needSerial(context);
  stage = await setStage();
  const runId = await record(stage);
  const { page } = stage;
  await page.getByTestId('seal').click();
  await page.getByTestId('confirm-yes').click();
  await page.getByTestId('sealed').waitFor();
  expect(await page.getByTestId('new-key').textContent()).toContain('signing key was made');
  await page.getByText('Add to the sealed record').click();
  await page.getByTestId('addition-by').fill('A.B.');
  await page.getByTestId('addition-text').fill('The batch was R-8');
  await page.getByTestId('add-addition').click();
  await expect.poll(() => page.getByTestId('additions').textContent(), { timeout: 15_000 }).toContain('A.B.');

  const file = await saveFile(stage);
  await page.goto(`${stage.origin}/#/settings`);
  const fingerprint = (await page.getByTestId('key-fingerprint').textContent()) ?? '';
  const told = await runVerify([file, '--key', fingerprint], english, loadCatalogue);
  expect(told.text).toMatch(/^VALID/);
  expect(told.exitCode).toBe(0);
  // Made in Chromium, made again in Node: the same bytes, the certificate's too.
  expect(told.text).not.toContain('not made again');
  expect(told.text).not.toContain('would make it otherwise');

  await page.goto(`${stage.origin}/#/verify`);
  await page.getByTestId('verify-file').setInputFiles(file);
  await page.locator('[data-testid=verdict][data-verdict=valid]').waitFor();
  const bytes = readFileSync(file);
  const at = bytes.indexOf('Sbarpage') + 3000;
  bytes[at] = bytes[at]! ^ 1;
  const changed = `${file}.changed.zip`;
  writeFileSync(changed, bytes);
  await page.getByTestId('verify-file').setInputFiles(changed);
  await page.locator('[data-testid=verdict][data-verdict=changed]').waitFor();
  expect(await page.getByTestId('findings').textContent()).toMatch(/block \d+\)? changed,/);
  expect((await runVerify([changed, '--key', fingerprint], english, loadCatalogue)).exitCode).toBe(1);

  await page.goto(`${stage.origin}/#/jobs`);
  await page.reload();
  expect(await page.getByTestId(`run-${runId}`).textContent()).toContain('Sealed');
  expect(stage.faults).toEqual([]);

  // Another key signs from now on, vouched for by the first, which stays in sight.
  await page.goto(`${stage.origin}/#/settings`);
  await page.getByTestId('change-key').click();
  await page.getByTestId('confirm-yes').click();
  const key = page.getByTestId('key-fingerprint');
  await expect.poll(() => key.textContent(), { timeout: 15_000 }).not.toBe(fingerprint);
  expect(((await key.textContent()) ?? '').replace(/\s/g, '')).toMatch(/^[0-9A-F]{64}$/);
  expect(await page.getByTestId('key').textContent()).toContain(fingerprint);
  expect(stage.faults).toEqual([]);
});

it(`killed ${KILLS} times while it seals: sealed whole or not at all, nothing lost`, async (context) => {
  needSerial(context);
  stage = await setStage();
  const runId = await record(stage);
  const before = await stage.runFile();
  let whole = 0;
  for (let kill = 0; kill < KILLS; kill++) {
    const { page } = stage;
    await page.goto(`${stage.origin}/#/run/${runId}`);
    await page.getByTestId('seal').click();
    await page.getByTestId('confirm-yes').waitFor();
    const pids = stage.browserPids();
    // From before the worker hears of it to after the document rests: the press itself takes a few ms.
    const press = page.getByTestId('confirm-yes').evaluate((button) => (button as HTMLElement).click());
    press.catch(() => undefined);
    await sleep(kill * 25);
    for (const pid of pids) {
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // a child that went with its parent
      }
    }
    await sleep(300);
    await stage.reopen();
    expect(Buffer.from(await stage.runFile()).equals(Buffer.from(before))).toBe(true);
    await stage.page.goto(`${stage.origin}/#/run/${runId}`);
    await stage.page.locator('[data-testid=sealed], [data-testid=seal]').first().waitFor();
    if ((await stage.page.getByTestId('sealed').count()) === 0) continue;
    whole++;
    const file = await saveFile(stage);
    await stage.page.goto(`${stage.origin}/#/verify`);
    await stage.page.getByTestId('verify-file').setInputFiles(file);
    await stage.page.getByTestId('verdict').waitFor();
    const found = await stage.page
      .locator('[data-finding]')
      .evaluateAll((all) => all.map((e) => (e as HTMLElement).dataset.finding));
    // Whoever takes a seal away and seals again is told on by the witness log, and by nothing else.
    expect(found).toEqual(whole === 1 ? [] : ['witness']);
    const verdict = await stage.page.getByTestId('verdict').getAttribute('data-verdict');
    expect(verdict).toBe(whole === 1 ? 'valid' : 'changed');
    // The next round needs it unsealed again: only a test may do this.
    await stage.page.evaluate(
      (id) =>
        new Promise<void>((resolve, reject) => {
          const opening = indexedDB.open('steadybar');
          opening.onerror = () => reject(opening.error);
          opening.onsuccess = () => {
            const tx = opening.result.transaction('documents', 'readwrite');
            tx.objectStore('documents').delete(['seal', id]);
            tx.oncomplete = () => {
              opening.result.close();
              resolve();
            };
          };
        }),
      runId,
    );
    await stage.page.reload();
  }
  console.log(`of ${KILLS} kills ${whole} came after the seal was at rest`);
  // And it can be sealed in the end.
  await stage.page.goto(`${stage.origin}/#/run/${runId}`);
  await stage.page.getByTestId('seal').click();
  await stage.page.getByTestId('confirm-yes').click();
  await stage.page.getByTestId('sealed').waitFor();
}, 300_000);
