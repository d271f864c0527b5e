import { JOB_ID } from '../stand/repair.ts';
import type { Stand } from '../stand/stand.ts';
import type { StoryName } from '../stand/states.ts';

/** Every page other than Live, as it looks with a few runs on the tablet. */
export const PAGES = [
  'start',
  'sheet',
  'review',
  'review-failed',
  'archive',
  'compare',
  'record',
  'certificate',
  'verify',
  'packers',
  'packer',
  'resins',
  'resin',
  'sensors',
  'sensor',
  'settings',
  'backup',
  'folder',
  'about',
  'registers',
  'bench',
] as const;

/** What else there is: further looks of those pages, and pages that are made for hands that come once a while. */
export const FURTHER_PAGES = [
  'sheet-pipe',
  'sheet-line',
  'sheet-mixing',
  'sheet-record',
  'sheet-whole',
  'checklists',
  'checklist',
  'practice',
  'debrief',
  'log',
] as const;
export type PageName = (typeof PAGES)[number] | (typeof FURTHER_PAGES)[number];

/** The runs that the pages show. */
export const PAGE_STORIES = ['repair', 'too-far', 'practice'] as const satisfies readonly StoryName[];

/** A long record is read from end to end, on a machine that does other things too, ms. */
const READ_MS = 90_000;

/** So long is the practice rig's device listened to on the bench, s: all but the longest points have their say. */
const LISTENED_S = 100;

/** Where each of the pages without runs is, and what is done there. */
const WITHOUT_RUNS = {
  async bench(stand: Stand) {
    await stand.goto('#/bench');
    if ((await stand.link()).hello === null) {
      await stand.page.getByTestId('bench-practice').click();
      await stand.pass(LISTENED_S);
    }
    await stand.page.getByTestId('point-rate').waitFor();
  },
  async registers(stand: Stand) {
    await stand.goto('#/registers/new');
    await stand.page.getByTestId('map-open-file').setInputFiles('fixtures/maps/invented-transmitter.json');
    await stand.page.waitForTimeout(300);
    // What a map is for lies below its bus.
    await stand.page.getByTestId('registers-value-0').evaluate((e) => {
      scrollTo(0, e.getBoundingClientRect().top - 140);
    });
  },
};

type WithoutRuns = keyof typeof WITHOUT_RUNS;
/** They need no story to be played before. */
export const isWithoutRuns = (name: PageName): name is WithoutRuns => name in WITHOUT_RUNS;

/** Opens a page that shows no run. */
export async function openWithoutRuns(stand: Stand, name: WithoutRuns): Promise<void> {
  await stand.goto('#/about');
  await stand.page.waitForTimeout(50);
  await stand.page.evaluate(() => scrollTo(0, 0));
  await WITHOUT_RUNS[name](stand);
  await stand.page.mouse.move(0, 0);
}

/** Seals the repair's run and keeps its file besides. @returns how each page is reached */
export async function preparePages(
  stand: Stand,
  runs: ReadonlyMap<StoryName, string>,
): Promise<(name: PageName) => Promise<void>> {
  const { page } = stand;
  const run = (story: (typeof PAGE_STORIES)[number]): string => {
    const id = runs.get(story);
    if (id === undefined) throw new Error(`the pages need the run of ${story}, which was not made`);
    return id;
  };
  const repair = run('repair');
  await stand.goto(`#/run/${repair}`);
  await page.getByTestId('seal').click();
  await page.getByTestId('confirm-yes').click();
  await page.getByTestId('sealed').waitFor({ timeout: READ_MS });
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByTestId('save-job-file').click(),
  ]);
  const file = await download.path();
  const verifyFile = async () => {
    await page.getByTestId('verify-file').setInputFiles(file);
    // Every reading of the file is derived again.
    await page.getByTestId('verdict').waitFor({ timeout: READ_MS });
  };
  await stand.goto('#/verify');
  await verifyFile();
  await page.getByTestId('keep').click();
  await page.getByTestId('kept').waitFor({ timeout: READ_MS });
  await stand.goto('#/archive');
  const href = await page.locator('a[href^="#/record/"]').first().getAttribute('href');
  const kept = href?.replace('#/record/', '') ?? '';

  /** Address, and what is there once the page is. */
  const WHERE: Readonly<Record<Exclude<PageName, WithoutRuns>, readonly [hash: string, there: string]>> = {
    start: ['#/jobs', '.guide-picture svg'],
    sheet: [`#/job/${JOB_ID}`, '[data-testid=step-next]'],
    review: [`#/run/${repair}`, '[data-testid=sealed]'],
    'review-failed': [`#/run/${run('too-far')}`, '[data-testid=seal]'],
    archive: ['#/archive', '.record-row .sparkline'],
    compare: [`#/compare/${repair}/${run('too-far')}`, '.compare-picture svg'],
    record: [`#/record/${kept}`, '[data-testid=account-say]'],
    certificate: [`#/certificate/${repair}`, '.certificate h1'],
    verify: ['#/verify', '[data-testid=verify-file]'],
    packers: ['#/packer', '[data-testid=new-packer]'],
    packer: ['#/packer/mill-packer', '[data-testid=save-document]'],
    resins: ['#/resin', '[data-testid=new-resin]'],
    resin: ['#/resin/mill-resin', '[data-testid=save-document]'],
    sensors: ['#/sensor', '[data-testid=new-sensor]'],
    sensor: ['#/sensor/mill-transducer', '[data-testid=save-document]'],
    settings: ['#/settings', '[data-testid=key]'],
    backup: ['#/backup', '[data-testid=make-backup]'],
    folder: ['#/office', 'main h1'],
    about: ['#/about', '[data-testid=licences]'],
    'sheet-pipe': [`#/job/${JOB_ID}`, '[data-testid=step-pipe]'],
    'sheet-line': [`#/job/${JOB_ID}`, '[data-testid=step-line]'],
    'sheet-mixing': [`#/job/${JOB_ID}`, '[data-testid=step-mixing]'],
    'sheet-record': [`#/job/${JOB_ID}`, '[data-testid=step-record]'],
    'sheet-whole': [`#/job/${JOB_ID}`, '[data-testid=all-fields]'],
    checklists: ['#/checklist', '[data-testid=new-checklist]'],
    checklist: ['#/checklist/new', '[data-testid=save-document]'],
    practice: ['#/practice', '[data-testid=free-practice]'],
    debrief: [`#/debrief/${run('practice')}`, '[data-testid=debrief-plot]'],
    log: ['#/log', '[data-testid=log-leaves]'],
  };
  return async (name) => {
    if (isWithoutRuns(name)) return openWithoutRuns(stand, name);
    const [hash, there] = WHERE[name];
    // A page that stands already is opened anew.
    await stand.goto(name === 'about' ? '#/office' : '#/about');
    await page.waitForTimeout(50);
    await stand.goto(hash);
    await page.locator(there).first().waitFor({ timeout: READ_MS });
    if (name === 'verify') await verifyFile();
    // A step of the sheet, or all of them, is a press away.
    if (name.startsWith('sheet-')) await page.locator(there).click();
    // Sketches and traces come from the workers.
    await page.waitForTimeout(400);
    await page.evaluate(() => scrollTo(0, 0));
    // Where the pointer rested last, something would look pointed at.
    await page.mouse.move(0, 0);
  };
}
