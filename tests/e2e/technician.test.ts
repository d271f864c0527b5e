import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, afterEach, expect, it } from 'vitest';
import { runVerify } from '../../src/cli/verify-run.ts';
import { loadCatalogue } from '../../src/words/catalogue.ts';
import { english } from '../../src/words/testing/english.ts';
import { openStand, type Stand } from '../stand/stand.ts';
import { open, profile, serve } from './app.ts';
import { byKeys } from './by-keys.ts';
import { firstJob, JOB } from './first-job.ts';
import { byTouch } from './touch.ts';

// A technician's first job from an empty app, by a finger on a phone and by a keyboard alone; and its client, who has the packet
// and nothing else. Readings come over the port of a simulated device, hours pass on the stand's clock; the run is a real one.

const work = mkdtempSync(path.join(tmpdir(), 'steadybar-roles-'));
afterAll(() => rmSync(work, { recursive: true, force: true }));
let stand: Stand | null = null;
afterEach(async () => {
  await stand?.close();
  stand = null;
});
const packet = path.join(work, 'packet.zip');

it('by touch at 390 px: from an empty app to the sealed record, its certificate and the client’s packet', async () => {
  stand = await openStand({ size: { width: 390, height: 844 }, phone: true });
  const { page } = stand;
  const finger = await byTouch(page);
  await firstJob(stand, finger);

  await finger.unfold('sign');
  await finger.write('signed-name', 'A. B.');
  await finger.sign(page.getByTestId('pad'));
  await finger.press('keep-signature');
  await page.getByTestId('remove-signature').waitFor();
  await finger.press('seal');
  await finger.press('confirm-yes');
  await page.getByTestId('sealed').waitFor();
  await finger.press('certificate');
  await page.locator('.certificate h1').waitFor();
  const told = (await page.locator('.certificate').first().textContent()) ?? '';
  for (const part of [JOB.title, JOB.packer, JOB.resin]) expect(told).toContain(part);
  await page.goBack();
  const download = page.waitForEvent('download');
  await finger.press('make-packet');
  await (await download).saveAs(packet);

  expect([...finger.wrong]).toEqual([]);
  expect(stand.faults).toEqual([]);
}, 240_000);

it('by the keyboard alone: the same job, the focus always seen and never lost', async () => {
  stand = await openStand();
  const keys = byKeys(stand.page);
  await firstJob(stand, keys);
  await keys.press('seal');
  await keys.press('confirm-yes');
  await stand.page.getByTestId('sealed').waitFor();
  await keys.look('after the sealing');
  await keys.press('certificate');
  await stand.page.locator('.certificate h1').waitFor();
  expect([...keys.wrong]).toEqual([]);
  expect(stand.faults).toEqual([]);
}, 240_000);

it('the client has the packet alone: valid by the key that the firm tells, refused with one byte changed', async () => {
  const bytes = readFileSync(packet);
  const howTo = bytes.toString('utf8');
  // What the firm tells by telephone, and what the packet says of it.
  const key = /\n {4}((?:[0-9A-F]{4}[ \n]*){16})\n/.exec(howTo)?.[1]?.replace(/\s/g, '') ?? '';
  expect(key).toMatch(/^[0-9A-F]{64}$/);
  const changed = path.join(work, 'changed.zip');
  const at = bytes.indexOf('Sbarpage') + 50_000;
  writeFileSync(
    changed,
    Buffer.concat([bytes.subarray(0, at), Buffer.from([bytes[at]! ^ 1]), bytes.subarray(at + 1)]),
  );

  const server = await serve();
  const { dir, dispose } = profile(server.origin);
  const context = await open(dir, { width: 1180, height: 820 });
  try {
    const page = await context.newPage();
    await page.goto(`${server.origin}/#/verify`);
    const check = async (file: string) => {
      await page.getByTestId('verify-file').setInputFiles(file);
      await page.getByTestId('verdict').waitFor();
      return page.getByTestId('verdict').getAttribute('data-verdict');
    };
    // Nobody has told the key yet: so far it is anybody's.
    expect(await check(packet)).toBe('unknown-signer');
    expect(await page.getByTestId('in-packet').textContent()).toContain('packet.zip');
    await page.getByTestId('signer-name').fill('The firm');
    await page.getByTestId('know-signer').click();
    await page.locator('[data-testid=verdict][data-verdict=valid]').waitFor();
    expect(await check(changed)).toBe('changed');
    expect(await page.getByTestId('findings').textContent()).toMatch(/block \d+\)? changed, from run time/);
    expect(await page.getByTestId('keep').count()).toBe(0);
    // A download that broke off, and what is no record at all.
    const other = path.join(work, 'other.zip');
    writeFileSync(other, bytes.subarray(0, 70_000));
    expect(await check(other)).toBe('incomplete');
    writeFileSync(other, '<html>no record</html>');
    expect(await check(other)).toBe('refused');
  } finally {
    await context.close();
    await server.close();
    dispose();
  }
  // The same by the command line.
  const [good, bad] = [
    await runVerify([packet, '--key', key], english, loadCatalogue),
    await runVerify([changed, '--key', key], english, loadCatalogue),
  ];
  expect(good.text).toMatch(/^VALID/);
  expect([good.exitCode, bad.exitCode]).toEqual([0, 1]);
}, 60_000);
