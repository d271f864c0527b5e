import { repairDevice } from '../stand/repair.ts';
import type { Stand } from '../stand/stand.ts';

/** What a person does at the page, by whatever they do it with. Each waits for its element and for what it is to show. */
export interface Hands {
  /** Presses a key; one that is to be held is held. */
  press(testId: string): Promise<void>;
  write(testId: string, text: string): Promise<void>;
  choose(testId: string, value: string): Promise<void>;
}

export const JOB = { title: 'Crack at 8.2 m', packer: 'Packer 9, 100-150', resin: 'Resin R-3' } as const;

/**
 * A first job from an empty app to the end of its run: packer, resin and short sheet, the device, three presses, the checklist,
 * mixing, seat, fill, hold, cure, let-down. The crew's hands at valve and vent are the stand's; all else is pressed. A real run:
 * its readings come over the port, its hours pass on the stand's clock.
 */
export async function firstJob(stand: Stand, hands: Hands): Promise<void> {
  const { page } = stand;
  const { press, write, choose } = hands;
  /** What was pressed has its effect while time passes. */
  const until = async (what: string, selector: string): Promise<void> => {
    const giveUp = Date.now() + 20_000;
    while (!(await page.locator(selector).first().isVisible())) {
      if (Date.now() > giveUp) throw new Error(`${what}: ${selector} does not come`);
      await stand.pass(0.1);
      // Code of a page is on its way, or a frame.
      await page.waitForTimeout(20);
    }
  };
  const stage = (name: string) => until(`stage ${name}`, `[data-testid=stage][data-stage="${name}"]`);
  const key = (does: string, to = '') =>
    until(`key ${does} ${to}`, `[data-testid=stage-key][data-does="${does}"][data-to="${to}"]`);
  const step = async (to: string): Promise<void> => {
    await key('stage', to);
    await press('stage-key');
    await stage(to);
  };
  /** Every item that is asked now. */
  const answerChecks = async (): Promise<void> => {
    await press('more');
    await until('checklist', '[data-testid=live-checklist]');
    const open = () =>
      page.evaluate(
        () =>
          [
            ...document.querySelectorAll<HTMLElement>(
              '[data-testid=live-checklist] > .checklist .check-key[aria-pressed=false]',
            ),
          ][0]?.dataset.testid ?? null,
      );
    for (let id = await open(); id !== null; id = await open()) {
      await press(id);
      await until(id, `[data-testid="${id}"][aria-pressed=true]`);
    }
    await press('more');
  };

  // The papers, from the sheet that asks for them.
  await press('new-job');
  await press('sheet-new-packer');
  await write('packer-name', JOB.packer);
  await write('packer-sizes.minMm', '100');
  await write('packer-sizes.maxMm', '150');
  await write('packer-ratings.0.diameterMm', '150');
  await write('packer-ratings.0.ratedBar', '2');
  await press('save-document');
  await press('sheet-new-resin');
  await write('resin-name', JOB.resin);
  await press('resin-curePoints-add');
  await write('resin-curePoints.0.c', '5');
  await write('resin-curePoints.0.minutes', '20');
  await write('resin-mix.resinParts', '100');
  await write('resin-mix.hardenerParts', '25');
  await press('save-document');
  await write('job-pipe.innerMm', '150');
  await choose('job-tap', 'hose');
  await choose('job-line', 'closed');
  await write('job-pressures.workingBar', '1.5');
  await press('step-next');
  await write('job-title', JOB.title);
  await press('step-next');
  await write('job-pressures.seatBar', '0.7');
  await press('step-next');
  await write('job-ground.temperatureC', '10');
  await press('to-live');

  // Three presses, on the one key.
  await stand.attach(repairDevice());
  await key('connect');
  await press('stage-key');
  await key('packer');
  await press('stage-key');
  await key('zero');
  await stand.pass(3);
  await press('stage-key');
  await stage('prepare');
  await stand.pass(2);

  await answerChecks();
  await press('mixed');
  await until('mixed', '[data-testid=zone-order]:not(:has([data-testid=mixed]))');
  await answerChecks();
  await stand.pass(60);

  await step('seat');
  await stand.hand({ hand: 'valve', open: 0.3 });
  await stand.passUntil('seated', 120, (v) => (v.bar ?? 0) > 0.6);
  await stand.hand({ hand: 'valve', open: 0 });
  await stand.pass(22);
  await key('compare');
  await press('stage-key');
  await write('gauge-value', ((await stand.view()).bar ?? 0).toFixed(2));
  await press('stage-key');
  await key('stage', 'inflate');
  await press('more');
  await step('inflate');
  await stand.hand({ hand: 'valve', open: 0.45 });
  await stand.passUntil('filled', 180, (v) => (v.bar ?? 0) > 1.48 || v.guard.closeInS?.value === 0);
  await stand.hand({ hand: 'valve', open: 0 });
  await stand.pass(14);
  await step('hold');
  await stand.passUntil('cure time met', 4 * 3600, (v) => (v.cure?.low ?? 0) >= 1);
  await stand.pass(5);
  await press('answer-hard');
  await until('noted', '[data-testid=answer-hard][aria-pressed=true]');
  await step('let-down');
  await stand.hand({ hand: 'vent', open: true });
  await stand.passUntil('empty', 600, (v) => (v.bar ?? 9) < 0.01);
  await stand.pass(40);
  await stand.hand({ hand: 'vent', open: false });
  await key('test');
  await press('stage-key');
  await stand.pass(40);
  await step('done');
  await answerChecks();
  await key('end');
  await press('stage-key');
  await until('review', '[data-testid=review-trace]');
}
