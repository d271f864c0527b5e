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
] as const;
export type PageName = (typeof PAGES)[number];

/** The runs that the pages show. */
export const PAGE_STORIES = ['repair', 'too-far', 'practice'] as const satisfies readonly StoryName[];

/** A long record is read from end to end, on a machine that does other things too, ms. */
const READ_MS = 90_000;

/** Seals the repair's run. @returns how each page is reached */
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

  const HASH: Readonly<Record<Exclude<PageName, 'verify'>, string>> = {
    start: '#/jobs',
    sheet: `#/job/${JOB_ID}`,
    review: `#/run/${repair}`,
    'review-failed': `#/run/${run('too-far')}`,
    archive: '#/archive',
    compare: `#/compare/${repair}/${run('too-far')}`,
    record: `#/record/${repair}`,
    certificate: `#/certificate/${repair}`,
    packers: '#/packer',
    packer: '#/packer/mill-packer',
    resins: '#/resin',
    resin: '#/resin/mill-resin',
    sensors: '#/sensor',
    sensor: '#/sensor/mill-transducer',
    settings: '#/settings',
    backup: '#/backup',
    folder: '#/office',
    about: '#/about',
  };
  return async (name) => {
    await stand.goto(name === 'verify' ? '#/verify' : HASH[name]);
    if (name === 'verify') {
      await page.getByTestId('verify-file').setInputFiles(file);
      // Every reading of the file is derived again.
      await page.getByTestId('verdict').waitFor({ timeout: READ_MS });
    }
    // Lists and traces come from the workers.
    await page.waitForTimeout(400);
    await page.evaluate(() => scrollTo(0, 0));
  };
}
