import { bits32 } from '../../src/estimate/testing/random.ts';
import { scanRun } from '../../src/record/reader.ts';
import { readRunFile, sleep } from '../e2e/stage.ts';
import { loadNow, messageOf } from './cell.ts';
import { inTime, JOB_ID, nowMs, plugIn, type Site, wait } from './site.ts';
import { calm, finishRun, startRun, stepTo, WALK, type WalkStage } from './walk.ts';

/** The browser is ended by SIGKILL at a random moment of a repair, and opened again. */
export interface Kill {
  readonly seed: number;
  /** Where the repair was; null: the run was just being opened. */
  readonly stage: WalkStage | null;
  /** What became of the run: gone on with; none was there yet that could be lost; it was just being ended, and is. */
  readonly outcome: 'resumed' | 'none-yet' | 'ended' | 'LOST' | 'failed';
  /** Seconds of samples before the kill that the record does not hold; null: no run yet. */
  readonly lostS: number | null;
  /** From the start of the browser until the page said that a packer may be full, ms. */
  readonly saidMs: number | null;
  /** From the start of the browser until the run went on with a good reading, ms. */
  readonly backMs: number | null;
  readonly detail: string;
  readonly load: number;
}

const BEFORE_ZERO = 'before its zero';
const STEP_MS = 60_000;
/** The kill comes after so long of work, ms: drawn evenly between the two. */
const WORK_MS = [300, 8000] as const;

function lastSeq(file: Uint8Array): number | null {
  let seq: number | null = null;
  scanRun(file, {
    entry: (e) => {
      if (e.l === 'frame' && e.frame.t === 'S') seq = e.frame.seq;
    },
  });
  return seq;
}

/** What the repair is at when it is interrupted. */
interface Work {
  /** The page had shown the run. */
  open: boolean;
  ending: boolean;
  stage: WalkStage | null;
  stop: boolean;
}

/** Repairs without end: a run is opened, walked through its stages, ended, and the next one begun. */
async function repair(site: Site, work: Work, random: () => number): Promise<void> {
  while (!work.stop) {
    if (!work.open) {
      await startRun(site);
      work.open = true;
    }
    const at = (await site.page.getByTestId('stage').getAttribute('data-stage')) as WalkStage;
    work.stage = at;
    const next = WALK[WALK.indexOf(at) + 1];
    await sleep(1500 * random());
    if (next === undefined) {
      work.ending = true;
      await finishRun(site);
      work.open = work.ending = false;
    } else {
      await calm(site, 3000);
      await stepTo(site, next);
    }
  }
}

/** The kill, and what is found afterwards. */
async function killAndLook(site: Site, work: Work): Promise<Omit<Kill, 'seed' | 'load'>> {
  // What the device has sent when the kill falls, not when the last process is gone.
  const killing = site.killBrowser();
  const { seq, rate, pts } = await site.device.state();
  await killing;
  work.stop = true;
  if (pts !== '-') await site.device.op('unplug');
  const { stage, open, ending } = work;
  const from = nowMs();
  await site.reopen();
  const { page } = site;
  const offered = page.locator('[data-testid^="open-run-"]').first();
  const isThere = await wait(() => offered.isVisible(), open ? 8000 : 2500);
  if (!isThere) {
    const outcome = ending ? 'ended' : open ? 'LOST' : 'none-yet';
    return { stage, outcome, lostS: null, saidMs: null, backMs: null, detail: '' };
  }
  const saidMs = Math.round(nowMs() - from);
  const runId = ((await offered.getAttribute('data-testid')) ?? '').replace('open-run-', '');
  const file = await readRunFile(page, runId);
  const torn = scanRun(file).damage.filter((d) => d.what !== 'torn');
  const last = lastSeq(file);
  const lostS = last === null ? null : Math.max(0, Number(seq) - last) / Number(rate);
  await page.goto(`${site.origin}/#/live/${JOB_ID}`);
  await plugIn(site);
  await page.locator('[data-testid="connect-resume"], [data-testid^="resume-"]').first().click();
  // A run that was killed before its zero asks for it first.
  const asks = page.getByTestId('zero');
  await page.getByTestId('stage').or(asks).first().waitFor();
  const beforeZero = await asks.isVisible();
  const trust = () => page.getByTestId('pressure').getAttribute('data-trust');
  const isGood = await wait(async () => (await trust()) === 'good', 10_000);
  return {
    stage,
    outcome: isGood && torn.length === 0 ? 'resumed' : 'failed',
    lostS: lostS === null ? null : Math.round(100 * lostS) / 100,
    saidMs,
    backMs: Math.round(nowMs() - from),
    detail:
      torn.length > 0
        ? `damage: ${torn.map((d) => d.what).join(' ')}`
        : !isGood
          ? 'no good reading'
          : beforeZero
            ? BEFORE_ZERO
            : '',
  };
}

/** @param spoilt the site cannot be gone on with: a new one is made for the next kill */
export async function runKill(
  theSite: () => Promise<Site>,
  seed: number,
  spoilt: () => Promise<void>,
): Promise<Kill> {
  const load = loadNow();
  const bits = bits32(seed);
  const random = () => bits() / 4294967296;
  const work: Work = { open: false, ending: false, stage: null, stop: false };
  try {
    const site = await theSite();
    work.open = await site.page.getByTestId('stage').isVisible();
    const [least, most] = WORK_MS;
    const working = repair(site, work, random).catch((error: unknown) => String(error));
    await sleep(least + (most - least) * random());
    const found = await inTime(killAndLook(site, work), STEP_MS, 'the look after the kill');
    await inTime(working, STEP_MS, 'the end of the work');
    if (found.outcome !== 'resumed' || found.detail === BEFORE_ZERO) await spoilt();
    return { seed, ...found, load };
  } catch (error) {
    await spoilt();
    const detail = messageOf(error);
    return {
      seed,
      stage: work.stage,
      outcome: 'failed',
      lostS: null,
      saidMs: null,
      backMs: null,
      detail,
      load,
    };
  }
}
