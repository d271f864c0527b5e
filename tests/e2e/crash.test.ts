import { afterEach, expect, it } from 'vitest';
import { scanRun } from '../../src/record/reader.ts';
import { endRun, enterPacker, needSerial, type Stage, setStage, shownBar, sleep, startRun } from './stage.ts';

// The browser's processes are killed with SIGKILL in mid-hold, ten times over, on one and the same run.

let stage: Stage | null = null;
afterEach(async () => {
  await stage?.close();
  stage = null;
});

const PACKER = 'Packer of the test';
// Few in every run of the tests; `npm run faults -- kills` makes a hundred.
const KILLS = Number(process.env.STEADYBAR_KILLS ?? 2);

function lastSeq(file: Uint8Array): number {
  let seq = -1;
  scanRun(file, {
    entry: (e) => {
      if (e.l === 'frame' && e.frame.t === 'S') seq = e.frame.seq;
    },
  });
  return seq;
}

it(`killed ${KILLS} times in mid-hold: at most 1 s of trace lost, the run offered and taken up again`, async (context) => {
  needSerial(context);
  stage = await setStage();
  const { device } = stage;
  await enterPacker(stage.page, PACKER, 2.0);
  await startRun(stage, PACKER);
  await device.op('true 150000 12000 14000 18000');
  await expect.poll(() => shownBar(stage!.page), { timeout: 10_000 }).toBeCloseTo(1.5, 1);
  const lostS: number[] = [];
  for (let kill = 0; kill < KILLS; kill++) {
    await sleep(1300 + 137 * kill); // at another phase of the half-second pages each time
    const rate = Number((await device.state()).rate);
    expect(rate).toBeGreaterThan(0);
    for (const pid of stage.browserPids()) {
      try {
        process.kill(pid, 'SIGKILL');
      } catch {
        // a child that went with its parent
      }
    }
    const seqAtKill = Number((await device.state()).seq);
    expect(await device.op('wait_closed 5000')).toBe('ok open=0');
    await device.op('unplug');

    await stage.reopen();
    const { page } = stage;
    await page.locator('[data-testid^="open-run-"]').waitFor();
    const file = await stage.runFile();
    expect(scanRun(file).damage.every((d) => d.what === 'torn')).toBe(true);
    lostS.push((seqAtKill - lastSeq(file)) / rate);

    await page.locator('[data-testid^="resume-open-"]').click();
    expect(await device.op('plug')).toMatch(/^ok/);
    // It connects by itself to the port of the run, and goes on with it by a press.
    await page.locator('[data-testid^="resume-"]').first().click();
    await expect
      .poll(() => page.getByTestId('pressure').getAttribute('data-trust'), { timeout: 10_000 })
      .toBe('good');
    await page.getByTestId('stage').waitFor();
  }
  expect(Math.max(...lostS), `seconds lost: ${lostS.map((s) => s.toFixed(2)).join(' ')}`).toBeLessThanOrEqual(
    1,
  );
  console.log(`seconds of trace lost at each kill: ${lostS.map((s) => s.toFixed(2)).join(' ')}`);

  await endRun(stage);
  const file = await stage.runFile();
  const gaps: string[] = [];
  const scan = scanRun(file, { event: (e) => e.e === 'gap' && gaps.push(e.reason) });
  expect(scan.damage).toEqual([]);
  expect(scan.resumed).toBe(true);
  expect(gaps.filter((g) => g === 'resumed')).toHaveLength(KILLS);
}, 300_000);
