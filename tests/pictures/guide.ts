import { openPanel } from '../e2e/stage.ts';
import {
  acknowledge,
  beginRepair,
  hold,
  inflate,
  jobSheet,
  keepFirm,
  letDown,
  PACKER_ID,
  RESIN_ID,
  repairDevice,
  seat,
  shutVent,
} from '../stand/repair.ts';
import type { Stand } from '../stand/stand.ts';
import { GUIDE_LIVE, GUIDE_PAGE_WIDTH, type GuidePicture } from './guide-names.ts';
import type { Size } from './plan.ts';

/**
 * The job of docs/guide.md: one repair from an empty app to the packer on the bank, by the same hands as the states of Live
 * (tests/stand/repair.ts) and the same keys as the tests (tests/e2e/stage.ts). It stands still where a picture is taken.
 */

export type Take = (name: GuidePicture, size: Size) => Promise<void>;

/** A whole record is read, on a machine that does other things too, ms. */
const READ_MS = 90_000;
/** Sketches, traces and what a key has changed come from the workers, ms. */
const DRAWN_MS = 500;

const SUPPLY_BAR = 1.65;
const ROOT_SHEET = { title: 'Roots at 21.8 m, 150 mm clay' };

/** Every item that is asked now is answered. */
async function answerChecks(stand: Stand): Promise<void> {
  const { page } = stand;
  const open = page.locator('[data-testid=live-checklist] > :not(details) .check-key[aria-pressed=false]');
  for (let left = await open.count(); left > 0; left = await open.count()) {
    await open.first().click();
    await stand.pass(0.3);
  }
}

/** A page is opened anew and read from its head, or from an element on. */
async function show(stand: Stand, hash: string, there: string, from: string | null = null): Promise<void> {
  const { page } = stand;
  await stand.goto(hash);
  await page.locator(there).first().waitFor({ timeout: READ_MS });
  await page.waitForTimeout(DRAWN_MS);
  await readFrom(stand, from);
}

/** @param from a selector of what stands at the head of the picture; null: the page's own head */
async function readFrom({ page }: Stand, from: string | null): Promise<void> {
  await page.evaluate((selector) => {
    const at = selector === null ? null : document.querySelector(selector);
    scrollTo(0, at === null ? 0 : at.getBoundingClientRect().top + scrollY - 12);
  }, from);
  await page.mouse.move(0, 0);
}

const sized = (height: number): Size => ({ width: GUIDE_PAGE_WIDTH, height });

/** Walks the job, and takes each picture on the way. */
export async function walkGuide(stand: Stand, take: Take): Promise<void> {
  const { page } = stand;
  const live = (name: GuidePicture) => take(name, GUIDE_LIVE);
  const at = async (size: Size) => page.setViewportSize({ ...size });

  // At the desk: an empty app, then what a firm enters once.
  await at(sized(1000));
  await show(stand, '#/jobs', '.guide-picture svg');
  await take('start', sized(880));
  await keepFirm(stand);
  await show(stand, `#/packer/${PACKER_ID}`, '[data-testid=save-document]');
  await take('packer', sized(1000));
  await stand.goto('#/settings');
  for (const [initials, name] of [
    ['A.B.', 'Ada Brook'],
    ['C.D.', 'Carl Dale'],
  ] as const) {
    await page.getByTestId('person-initials').fill(initials);
    await page.getByTestId('person-name').fill(name);
    await page.getByTestId('add-person').click();
    await page.getByTestId(`here-${initials}`).check();
  }
  await readFrom(stand, '#people');
  await take('people', sized(520));

  // The job sheet, its five answers typed; the rest of it as the stand has it.
  await stand.goto('#/jobs');
  await page.getByTestId('new-job').click();
  await page.getByTestId('job-packerId').waitFor();
  const jobId = (await page.evaluate(() => location.hash)).replace('#/job/', '');
  await page.getByTestId('step-pipe').click();
  await page.getByTestId('job-title').fill(jobSheet().title);
  await page.getByTestId('step-run').click();
  await page.getByTestId('job-packerId').selectOption(PACKER_ID);
  await page.getByTestId('job-pipe.innerMm').fill('150');
  await page.getByTestId('job-tap').selectOption('hose');
  await page.getByTestId('job-line').selectOption('closed');
  await page.getByTestId('job-resin.resinId').selectOption(RESIN_ID);
  await page.getByTestId('job-pressures.workingBar').fill('1.9');
  await page.waitForTimeout(2 * DRAWN_MS);
  await readFrom(stand, null);
  await take('refused', sized(1180));
  await page.getByTestId('job-pressures.workingBar').fill('1.5');
  await page.waitForTimeout(2 * DRAWN_MS);
  await readFrom(stand, null);
  await take('plan', sized(1180));
  await stand.goto('#/about');
  await page.getByTestId('licences').waitFor();
  await stand.put({ kind: 'job', id: jobId, body: jobSheet(false, { answers: [] }) });
  const { defect } = jobSheet();
  await stand.put({
    kind: 'job',
    id: 'mill-roots',
    body: jobSheet(false, {
      ...ROOT_SHEET,
      answers: [],
      defect: { ...defect, kind: 'roots', chainageM: 21.8 },
    }),
  });
  await show(stand, '#/jobs', '[data-testid=today]');
  await take('day', sized(1000));

  // At the manhole: three presses, then what is looked at before air goes in.
  await beginRepair(
    stand,
    // Proved, it stands a little over the working pressure.
    repairDevice({ regulator: { setBar: SUPPLY_BAR } }),
    async (what) => {
      if (what === 'not-connected') await live('connect');
      if (what === 'packer') await live('choose-packer');
      if (what === 'zero') await live('zero');
    },
    jobId,
  );
  await openPanel(page, 'checklist');
  await page.getByTestId('who-A.B.').click();
  await stand.pass(0.3);
  await live('checklist');
  await answerChecks(stand);
  await openPanel(page, 'checks');
  await page.getByTestId('sound-play').click();
  await page.getByTestId('sound-heard').click();
  await warm(stand, live);
  await page.getByTestId('more').click();
  await proveSupply(stand, live);
  await live('mix');
  await stand.command({ c: 'mixed' });
  await stand.pass(7 * 60);
  await answerAll(stand);
  await live('mixed');

  await stand.hand({ hand: 'vent', open: false });
  await seat(stand);
  await live('seat');
  await stand.pass(14);
  await openPanel(page, 'checks');
  await page.getByTestId('gauge-value').fill(((await stand.view()).bar ?? 0).toFixed(2));
  await page.getByTestId('gauge-send').click();
  await stand.pass(0.5);
  await live('gauge');
  await page.getByTestId('more').click();

  await inflate(stand);
  await stand.passUntil('cue', 60, (v) => v.guard.closeInS !== null && v.guard.closeInS.value < 8);
  await live('cue');
  // Somebody knocks the regulator: the valve is shut, the regulator turned down, and it goes on.
  await stand.fault({ fault: 'regulator', bar: 2.6 });
  await stand.passUntil('urgent', 60, (v) => v.alarms.some((a) => a.priority === 'urgent'));
  await stand.pass(0.4);
  await live('alarm');
  await stand.hand({ hand: 'valve', open: 0 });
  await stand.hand({ hand: 'regulator', bar: SUPPLY_BAR });
  await stand.pass(12);
  await acknowledge(stand);
  await stand.command({ c: 'supply', said: 'turned' });
  await stand.pass(2);
  await stand.hand({ hand: 'valve', open: 0.3 });
  await hold(stand);
  await stand.pass(12 * 60);
  await live('hold');
  await stand.fault({ fault: 'unplug' });
  await stand.passUntil('lost', 10, (v) => v.alarms.some((a) => a.alarm === 'pressure-lost'));
  await stand.pass(18);
  await live('lost');
  await stand.fault({ fault: 'replug' });
  await stand.pass(12);
  await acknowledge(stand);
  await stand.passUntil('cure time met', 6 * 3600, (v) => (v.cure?.low ?? 0) >= 1);
  await stand.pass(90);
  await live('cure');

  await stand.command({ c: 'witness', hard: true, atPipeTemperature: true });
  await answerAll(stand);
  await letDown(stand);
  await stand.passUntil('half down', 60, (v) => (v.bar ?? 9) < 0.7);
  await live('let-down');
  await stand.passUntil('empty', 600, (v) => (v.bar ?? 9) < 0.01);
  await stand.pass(40);
  await shutVent(stand);
  await stand.pass(14);
  await live('vent-test');
  await stand.pass(20);
  await stand.command({ c: 'stage', to: 'done' });
  await stand.pass(4);
  await live('done');
}

async function answerAll(stand: Stand): Promise<void> {
  await openPanel(stand.page, 'checklist');
  await answerChecks(stand);
  await stand.page.getByTestId('more').click();
}

/** Each probe in the hand beside a thermometer. */
async function warm(stand: Stand, live: (name: GuidePicture) => Promise<void>): Promise<void> {
  const { page } = stand;
  await stand.hand({ hand: 'warm', held: true });
  // Only what stands still is compared.
  await stand.pass(150);
  const task = page.locator('details.task', { has: page.getByTestId('warm-sleeve') });
  await task.locator('summary').click();
  const { temps } = await stand.view();
  for (const { place, c } of temps) {
    await page.getByTestId(`warm-${place}`).fill((c ?? 0).toFixed(0));
    await page.getByTestId(`warm-send-${place}`).click();
    await stand.pass(0.5);
  }
  await task.evaluate((e) => e.scrollIntoView({ block: 'start' }));
  await live('warm');
  await stand.hand({ hand: 'warm', held: false });
  await task.locator('summary').click();
}

/** The hose off the packer, its end shut; it is coupled once the line is empty again. */
async function proveSupply(stand: Stand, live: (name: GuidePicture) => Promise<void>): Promise<void> {
  await stand.hand({ hand: 'couple', coupled: false });
  await stand.hand({ hand: 'end', shut: true });
  await stand.command({ c: 'prove-supply', end: 'shut' });
  await stand.pass(1);
  await stand.hand({ hand: 'valve', open: 1 });
  await stand.passUntil('supply is watched', 120, (v) => v.supply?.phase === 'watching');
  await stand.pass(12);
  await live('supply');
  await stand.passUntil('valve to be shut', 240, (v) => v.supply?.phase === 'shut');
  await stand.hand({ hand: 'valve', open: 0 });
  await stand.pass(1);
  await stand.command({ c: 'supply', said: 'valve-shut' });
  await stand.passUntil('line is tight', 120, (v) => v.supply?.phase === 'vent');
  await stand.hand({ hand: 'vent', open: true });
  await stand.passUntil('line empty', 300, (v) => (v.bar ?? 9) < 0.01);
  await stand.passUntil('proved', 60, (v) => v.supply?.proved === true && v.supply.phase === null);
  await stand.hand({ hand: 'end', shut: false });
  await stand.hand({ hand: 'couple', coupled: true });
  await stand.pass(2);
}
