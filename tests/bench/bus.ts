import path from 'node:path';
import { startProgram } from '../../firmware-protocol/host/run.ts';
import { enterPacker, setStage, shownBar, sleep } from '../e2e/stage.ts';
import { NAMES, quantile, type Row } from './measure.ts';
import { acknowledge, seenBy, shownTimes, soundedAt, spy } from './seen.ts';

const REPEATS = 60;
const EVERY_MS = 20;
const GOAL_MS = 150;

const slave = path.join(import.meta.dirname, '..', 'e2e', 'modbus-slave.py');

/** The units of tests/e2e/modbus-slave.py on a bus that takes its time, as a device of the stage. */
const startSlave = (options: readonly string[] = []) => {
  const given = (name: string) => options[options.indexOf(name) + 1]!;
  return startProgram('python3', [
    slave,
    '--paced',
    ...['--serial', given('--serial')],
    ...['--tap', given('--tap')],
  ]);
};

const after = (name: string, answer: string): number =>
  Number(new RegExp(`${name}=([\\d.]+)`).exec(answer)?.[1]);

/** At one speed, from one browser: rows of the engine, the screen and the sound. */
async function at(baud: number): Promise<Row[]> {
  const stage = await setStage([], startSlave);
  try {
    await stage.context.addInitScript(`${NAMES}(${spy})()`);
    const { page, device, origin } = stage;
    await page.reload();
    await device.op('plug');
    await page.goto(`${origin}/#/registers/new`);
    await page.getByTestId('registers-name').fill('Bus of the bench');
    await page.getByTestId('registers-baud').selectOption(String(baud));
    await page.getByTestId('registers-channels.0.everyMs').fill(String(EVERY_MS));
    await page.getByTestId('save-document').click();
    await page.waitForURL((url) => !url.hash.endsWith('/new'));
    await enterPacker(page, 'Packer of the bench', 2.0);
    await device.op('bar 0');
    await page.goto(`${origin}/#/live`);
    await page.locator('[data-testid^="connect-map-"]').click();
    await page.getByTestId('drawer').getByText('Packer of the bench').first().click();
    // A zero needs a second of readings before it.
    while (!(await page.getByTestId('stage').isVisible())) {
      await page
        .getByTestId('zero')
        .click({ timeout: 2000 })
        .catch(() => undefined);
      await sleep(700);
    }
    const engine: number[] = [];
    const screen: number[] = [];
    const sound: number[] = [];
    for (let i = 0; i < REPEATS; i++) {
      await device.op('bar 1');
      await page.locator('[data-testid="alarm-over-rated"]').waitFor({ state: 'detached', timeout: 20_000 });
      while (Math.abs((await shownBar(page)) - 1) > 0.05) await sleep(50);
      await sleep(1200 + 13 * i);
      const from = after('at', await device.op('bar 2.5'));
      await shownTimes(page, i + 1);
      const seen = await seenBy(page);
      engine.push(seen.handed[i]! - from);
      screen.push(seen.shown[i]! - from);
      sound.push((await soundedAt(page, from)) - from);
      await device.op('bar 1');
      await acknowledge(page);
    }
    const [first, second] = [await device.op('state'), await sleep(2000).then(() => device.op('state'))];
    const hz =
      (1000 * (after('asked', second) - after('asked', first))) / (after('at', second) - after('at', first));
    const row = (what: string, values: readonly number[], goal: number | null): Row => ({
      what: `register change → alarm ${what}, ${baud} baud`,
      value: `p50 ${quantile(values, 0.5).toFixed(1)} ms, p90 ${quantile(values, 0.9).toFixed(1)} ms, p99 ${quantile(values, 0.99).toFixed(1)} ms`,
      beside: `${REPEATS} steps, ${hz.toFixed(1)} readings a second${goal === null ? '' : `; goal p99 ≤ ${goal} ms`}`,
      met: goal === null ? null : quantile(values, 0.99) <= goal,
    });
    return [
      row('from the engine', engine, null),
      row('on screen', screen, GOAL_MS),
      row('sounds', sound, GOAL_MS),
    ];
  } finally {
    await stage.close();
  }
}

/**
 * A register changes from 1.0 to 2.5 bar, rated 2.0, on units in another language behind the browser's real Web Serial: until the
 * engine tells the alarm, the screen shows it, its first tone begins by the audio clock. Characters take their time both ways.
 */
export async function benchBus(bauds: readonly number[] = [19_200, 115_200]): Promise<Row[]> {
  const rows: Row[] = [];
  for (const baud of bauds) rows.push(...(await at(baud)));
  return rows;
}
