import { advance, endRun, readRunFile, shownBar } from '../e2e/stage.ts';
import { JOB_ID, plugIn, type Site, wait } from './site.ts';

/** The stages of a repair in their order; what the packer holds in each, bar, and how fast the hand gets there, bar/s. */
export const WALK = ['prepare', 'seat', 'inflate', 'hold', 'let-down', 'done'] as const;
export type WalkStage = (typeof WALK)[number];

export const TRUE_BAR: Readonly<Record<WalkStage, number>> = {
  prepare: 0,
  seat: 0.4,
  inflate: 1.0,
  hold: 1.5,
  'let-down': 0.6,
  done: 0,
};
const HAND_BAR_S = 0.25;
const VENT_BAR_S = 1;

/** Opens a run: plug, connect, packer, zero. */
export async function startRun(site: Site): Promise<void> {
  const { page, device } = site;
  await device.op('clear');
  await device.op('true 0 12000 14000 18000');
  await page.goto(`${site.origin}/#/live/${JOB_ID}`);
  if ((await device.state()).pts === '-') await plugIn(site);
  // After a run the device stays connected.
  const connect = page.getByTestId('connect-device');
  const job = page.getByTestId('use-job');
  await connect.or(job).first().waitFor();
  if (await connect.isVisible()) await connect.click();
  await job.click();
  // A reading that has just moved is no zero: it is pressed again.
  const zero = page.getByTestId('zero');
  const running = page.getByTestId('stage');
  const begun = await wait(
    async () => {
      if (await zero.isVisible()) await zero.click({ timeout: 1000 }).catch(() => undefined);
      return running.isVisible();
    },
    20_000,
    400,
  );
  if (!begun) throw new Error('no zero is taken');
}

const stageOf = async ({ page }: Site) => page.getByTestId('stage').getAttribute('data-stage');

/** Takes the pressure to `bar` as a hand does, and waits until it is shown. */
export async function bring(site: Site, bar: number): Promise<void> {
  const now = Number((await site.device.state()).truePa) / 1e5;
  const seconds = Math.max(0.3, Math.abs(bar - now) / (bar > now ? HAND_BAR_S : VENT_BAR_S));
  await site.device.op(`ramp ${bar * 1e5} ${seconds}`);
  const there = await wait(
    async () => Math.abs((await shownBar(site.page)) - bar) < 0.03,
    1000 * seconds + 8000,
  );
  if (!there) throw new Error(`${bar} bar are not shown`);
}

/** Goes on from the stage before: filled first where air is let in, said first where it is let out. */
export async function stepTo(site: Site, stage: WalkStage): Promise<void> {
  const at = await stageOf(site);
  if (at === stage) return;
  if (stage === 'hold' || stage === 'done') {
    await bring(site, TRUE_BAR[stage]);
    await advance(site, stage);
  } else {
    await advance(site, stage);
    await bring(site, TRUE_BAR[stage]);
  }
}

/** From wherever the run is to that stage, through all between. */
export async function walkTo(site: Site, stage: WalkStage): Promise<void> {
  const at = WALK.indexOf((await stageOf(site)) as WalkStage);
  for (const next of WALK.slice(at + 1, WALK.indexOf(stage) + 1)) {
    await stepTo(site, next);
    await calm(site, 6000);
  }
}

/** Acknowledges what is shown until nothing is; false when something stays for longer. */
export async function calm(site: Site, ms: number): Promise<boolean> {
  const { page } = site;
  const any = page.locator('[data-testid^="alarm-"][data-state]');
  const press = page.getByTestId('ack').or(page.getByTestId('answer-let-down')).first();
  return wait(async () => {
    // The driver waits for a button that does not move; the list takes no press right after it moved.
    if (await press.isVisible()) await press.click({ timeout: 1500 }).catch(() => undefined);
    if ((await any.count()) > 0) return false;
    return (await page.getByTestId('pressure').getAttribute('data-trust')) === 'good';
  }, ms);
}

/** Ends the run and gives its file. */
export async function finishRun(site: Site): Promise<Uint8Array> {
  await endRun(site);
  const runId = new URL(site.page.url()).hash.replace('#/run/', '');
  return readRunFile(site.page, runId);
}
