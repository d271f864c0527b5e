import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterEach, beforeAll, expect, it, type TestContext } from 'vitest';
import { createOffice } from '../../src/evidence/testing/office.ts';
import { toBundle } from '../../src/job/bundle.ts';
import { demoBundle } from '../../src/job/demo.ts';
import { PLAIN_WORDING } from '../../src/job/testing/wording.ts';
import { DEMO_NAMES } from '../../src/words/en/demo.ts';
import { LANGUAGES } from '../../src/words/languages.ts';
import { notRun } from '../unit/not-run.ts';
import { faults, open, profile, serve } from './app.ts';
import { violationsOf } from './axe.ts';

// A record from elsewhere, in a browser without Web Serial: checked, kept, and its certificate printed for real.

const hasPoppler = spawnSync('pdftotext', ['-v'], { stdio: 'ignore' }).status === 0;
const work = mkdtempSync(path.join(tmpdir(), 'steadybar-print-'));
const closers: (() => Promise<void> | void)[] = [];
afterEach(async () => {
  for (const close of closers.splice(0).reverse()) await close();
});

interface JobFile {
  readonly name: string;
  readonly buffer: Buffer;
  readonly mimeType: string;
}
let plain: JobFile;
let crowded: JobFile;

async function jobFile(crowd: boolean): Promise<JobFile> {
  const office = createOffice();
  const long = 'A long text that somebody typed on a wet tablet. '.repeat(6);
  await office.keepJob(crowd ? { site: long.slice(0, 200), client: long.slice(0, 200), answers: [] } : {});
  const runId = await office.record({
    holdS: 300,
    during: async (bench) => {
      for (let i = 0; crowd && i < 60; i++)
        await bench.ask({
          q: 'command',
          command: { c: 'override', what: `w-${i}`, reason: long.slice(0, 290) },
        });
    },
  });
  await office.ask({ q: 'seal', runId, wording: PLAIN_WORDING });
  const { name, file } = await office.ask({ q: 'job-file', ref: { kind: 'run', runId } });
  return { name, buffer: Buffer.from(await file.arrayBuffer()), mimeType: 'application/zip' };
}

beforeAll(async () => {
  plain = await jobFile(false);
  crowded = await jobFile(true);
  return () => rmSync(work, { recursive: true, force: true });
});

function needPoppler(context: TestContext): void {
  if (!hasPoppler) notRun(context, 'poppler (pdftotext) is not installed');
}

/** The app in a browser that has no Web Serial at all. */
async function office() {
  const server = await serve();
  closers.push(() => server.close());
  const { dir, dispose } = profile(server.origin);
  closers.push(dispose);
  const context = await open(dir);
  closers.push(() => context.close());
  await context.addInitScript(() => {
    delete (Navigator.prototype as unknown as { serial?: unknown }).serial;
  });
  const page = await context.newPage();
  const seen = faults(page);
  await page.goto(`${server.origin}/#/verify`);
  return { page, seen, origin: server.origin };
}

async function check(page: Awaited<ReturnType<typeof office>>['page'], file: JobFile) {
  await page.getByTestId('verify-file').setInputFiles(file);
  // A busy machine takes its time over a crowded record.
  await page.getByTestId('verdict').waitFor({ timeout: 60_000 });
  return page.getByTestId('verdict').getAttribute('data-verdict');
}

function printed(pdf: Buffer, name: string): { pages: number; text: string } {
  const file = path.join(work, name);
  writeFileSync(file, pdf);
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  return { pages: text.split('\f').length - 1, text: text.replace(/\s+/g, ' ') };
}

it('unknown signer, named, valid, kept; the certificate prints on four pages of A4 and of Letter, its text whole', async (context) => {
  needPoppler(context);
  const { page, seen } = await office();
  expect(await page.evaluate(() => 'serial' in navigator)).toBe(false);
  expect(await check(page, plain)).toBe('unknown-signer');
  await page.getByTestId('signer-name').fill('Crew 4');
  await page.getByTestId('know-signer').click();
  await page.locator('[data-testid=verdict][data-verdict=valid]').waitFor();
  await page.getByTestId('keep').click();
  await page.getByTestId('kept').waitFor();

  await page.getByTestId('open-record').click();
  await page.getByTestId('judge-again').click();
  await page.getByTestId('judged').waitFor();
  expect(await page.getByTestId('judged').textContent()).toMatch(/All \d+ events are the same/);

  await page.getByTestId('certificate').click();
  await page.locator('.certificate h1').waitFor();
  expect(await violationsOf(page)).toEqual([]);
  const letter = printed(await page.pdf({ format: 'Letter', printBackground: true }), 'letter.pdf');
  const { pages, text } = printed(await page.pdf({ format: 'A4', printBackground: true }), 'a.pdf');
  expect([pages, letter.pages]).toEqual([4, 4]);
  for (const n of [1, 2, 3, 4]) expect(text).toContain(`page ${n} of 4`);
  // Everything that the page says is in the print, and nothing of the app around it.
  const onScreen = await page.locator('.certificate').evaluate((el) => {
    const copy = el.cloneNode(true) as Element;
    for (const svg of copy.querySelectorAll('svg')) svg.remove();
    return [...copy.querySelectorAll('h1, h2, th, td, li, p')].map((e) => (e.textContent ?? '').trim());
  });
  const bare = (s: string) => s.replace(/[\s\u00ad]+/g, '');
  const print = bare(execFileSync('pdftotext', [path.join(work, 'a.pdf'), '-'], { encoding: 'utf8' }));
  expect(onScreen.length).toBeGreaterThan(60);
  // A cell may be broken over lines with its neighbour between: its words are looked for one by one.
  const lost = onScreen.flatMap((s) => s.split(/\s+/)).filter((w) => w !== '' && !print.includes(bare(w)));
  expect(lost).toEqual([]);
  expect(text).toContain('What this page does not prove');
  expect(text).not.toMatch(/Print or save|Settings/);
  expect(text).not.toMatch(/\b(cured|safe|guaranteed)\b/i);
  expect(seen).toEqual([]);
});

it('what is in sight can be taken out: a picture, drawn and as pixels, and its values', async () => {
  const { page, seen } = await office();
  expect(await check(page, plain)).toBe('unknown-signer');
  await page.getByTestId('open-record').click();
  await page.getByTestId('zoom-in').click();
  const taken = async (id: string) => {
    const [download] = await Promise.all([page.waitForEvent('download'), page.getByTestId(id).click()]);
    const file = path.join(work, download.suggestedFilename());
    await download.saveAs(file);
    return { name: download.suggestedFilename(), bytes: readFileSync(file) };
  };
  const png = await taken('save-png');
  expect(png.name).toMatch(/\.png$/);
  // PNG's signature, then the size in the first chunk (W3C PNG specification, 5.2 and 11.2.1).
  expect([...png.bytes.subarray(0, 8)]).toEqual([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  expect(png.bytes.readUInt32BE(16)).toBeGreaterThan(600);
  expect(png.bytes.readUInt32BE(20)).toBeGreaterThan(300);
  const svg = (await taken('save-svg')).bytes.toString('utf8');
  expect(svg).toMatch(/^<svg /);
  expect(svg).toMatch(/<(path|polyline)/);
  expect(svg).not.toMatch(/<script|javascript:/i);

  const csv = (await taken('save-data')).bytes.toString('utf8');
  const rows: string[][] = parse(csv, { bom: true, comment: '#', relax_column_count: true });
  const head = rows[0] ?? [];
  expect(head.join(' ')).toMatch(/bar/);
  const numbers = rows.slice(1).map((r) => r.map(Number));
  expect(numbers.length).toBeGreaterThan(100);
  const times = numbers.map((r) => r[0] ?? Number.NaN);
  expect(times.every((t, k) => k === 0 || t >= times[k - 1]!)).toBe(true);
  // Half of the run was in sight; the fill and hold of the job stand between nothing and its 1.5 bar.
  const span = times[times.length - 1]! - times[0]!;
  expect(span).toBeGreaterThan(60);
  const bars = numbers.map((r) => r[head.findIndex((h) => /bar/.test(h))]).filter((v) => Number.isFinite(v));
  expect(Math.max(...(bars as number[]))).toBeGreaterThan(1.3);
  expect(Math.max(...(bars as number[]))).toBeLessThan(1.8);
  expect(seen).toEqual([]);
});

it('with sixty overrides and long names it is still as many pages, and says how much is left out', async (context) => {
  needPoppler(context);
  const { page } = await office();
  expect(await check(page, crowded)).toBe('unknown-signer');
  await page.getByTestId('open-record').click();
  await page.getByTestId('certificate').click();
  await page.locator('.certificate h1').waitFor();
  const letter = printed(await page.pdf({ format: 'Letter', printBackground: true }), 'b-letter.pdf');
  const { pages, text } = printed(await page.pdf({ format: 'A4', printBackground: true }), 'b.pdf');
  expect([pages, letter.pages]).toEqual([4, 4]);
  expect(text).toMatch(/and \d+ more in the record/);
  expect(text).toContain('Seen by the client');
});

/** A job whose every text is as long as it may be, which the plan refuses, and a resin with all rows. */
function longestJob(): Buffer {
  const { job, packer, resin, sensors } = demoBundle(DEMO_NAMES);
  const long = (n: number) =>
    'Third joint behind the lateral of the old brewery '.repeat(5).slice(0, n).trim();
  const bundle = toBundle({
    jobId: 'longest',
    job: {
      ...job,
      title: long(120),
      site: long(200),
      crew: 'A.B., C.D., E.F., G.H., I.J., K.L., M.N., O.P., Q.R., S.T., U.V., W.X., Y.Z.',
      pressures: { ...job.pressures, workingBar: 2.4 },
      airTest: { method: 'LC', lengthM: 2 },
      packerId: 'longest-packer',
      resin: { ...job.resin, resinId: 'longest-resin', resinBatch: long(60) },
    },
    packer: { id: 'longest-packer', document: { ...packer!.document, name: long(120) } },
    resin: {
      id: 'longest-resin',
      document: {
        ...resin!.document,
        name: long(120),
        curePoints: Array.from({ length: 12 }, (_, i) => ({ c: i * 5 - 10, minutes: 19_999 - 500 * i })),
      },
    },
    sensors,
  });
  return Buffer.from(JSON.stringify(bundle));
}

it('the tailgate card is one sheet of A4 and of Letter in each language, blank or with all that a job can have', async (context) => {
  needPoppler(context);
  const { page, seen, origin } = await office();
  await page.goto(`${origin}/#/jobs`);
  const sheet = { name: 'longest.job.json', mimeType: 'application/json', buffer: longestJob() };
  await page.getByTestId('job-file').setInputFiles(sheet);
  await page.waitForURL(/#\/job\/longest$/);
  for (const language of Object.keys(LANGUAGES)) {
    const kept = JSON.stringify({ language, decimal: 'auto', theme: 'dark' });
    await page.evaluate((text) => localStorage.setItem('steadybar.preferences', text), kept);
    // Blank it holds less: one language of it will do.
    for (const hash of language === 'de' ? ['card', 'card/longest'] : ['card/longest']) {
      const what = `${language} ${hash}`;
      await page.goto(`${origin}/#/${hash}`);
      await page.reload();
      const there =
        hash === 'card' ? '.tailgate-dark' : '[data-testid=card-pressures] dd:not(:has(.tailgate-line))';
      await page.locator(there).first().waitFor();
      for (const format of ['A4', 'Letter']) {
        const { pages, text } = printed(await page.pdf({ format, printBackground: true }), 'card.pdf');
        expect(pages, `${what} ${format}`).toBe(1);
        // To its last line, and nothing of the app around it.
        const last = await page.locator('.tailgate-cautions li').last().textContent();
        expect(text.replace(/\s+/g, ''), what).toContain((last ?? '?').slice(-12).replace(/\s+/g, ''));
        const around = await page
          .locator('.tailgate-page > .no-print')
          .first()
          .getByRole('button')
          .textContent();
        expect(text, what).not.toContain(around ?? '?');
      }
      await page.emulateMedia({ media: 'print' });
      const looks = await page.locator('.tailgate').evaluate((card) => {
        const points = (e: Element) => (Number.parseFloat(getComputedStyle(e).fontSize) * 72) / 96;
        const least = (selector: string) => Math.min(...[...card.querySelectorAll(selector)].map(points));
        const colours = [...card.querySelectorAll('*')].map((e) => getComputedStyle(e).color);
        return {
          all: least('*'),
          orders: least('.tailgate-orders > li > strong, .tailgate-orders strong *, .tailgate-dark li'),
          wide: card.scrollWidth - card.clientWidth,
          colours: [...new Set(colours)],
        };
      });
      await page.emulateMedia({ media: null });
      expect(looks.all, what).toBeGreaterThanOrEqual(11);
      expect(looks.orders, what).toBeGreaterThanOrEqual(14);
      expect(looks.wide, what).toBeLessThanOrEqual(0);
      expect(looks.colours, what).toEqual(['rgb(0, 0, 0)']);
    }
  }
  // In the hand it is read in one column, and by whoever hears it.
  await page.setViewportSize({ width: 320, height: 640 });
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth);
  await expect.poll(wide).toBeLessThanOrEqual(320);
  expect(await violationsOf(page)).toEqual([]);
  expect(seen).toEqual([]);
}, 300_000);

it('two kept records are laid over each other from the start of the hold, and taken out', async () => {
  const { page, origin } = await office();
  for (const file of [plain, crowded]) {
    expect(await check(page, file)).toBe('unknown-signer');
    await page.getByTestId('keep').click();
    await page.getByTestId('kept').waitFor();
  }
  await page.goto(`${origin}/#/archive`);
  const boxes = page.locator('[data-testid^="pick-"]');
  await expect.poll(() => boxes.count(), { timeout: 15_000 }).toBe(2);
  for (const box of await boxes.all()) await box.check();
  await page.getByTestId('overlay').click();
  await page.getByTestId('align').selectOption('hold');
  const lines = page.locator('.compare-picture svg path[stroke-width="1.6"][fill="none"]');
  await expect.poll(() => lines.count(), { timeout: 15_000 }).toBe(2);
  // The axis counts from the start of the hold, so it begins before zero.
  const zero = page.locator('.compare-picture svg text', { hasText: /^0:00$/ });
  expect(await zero.count()).toBe(1);
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByTestId('save-overlay').click(),
  ]);
  expect(download.suggestedFilename()).toBe('overlay.svg');
});
