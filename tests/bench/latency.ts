import { readFileSync } from 'node:fs';
import path from 'node:path';
import { countsAtBar } from '../../firmware-protocol/host/run.ts';
import { createDecoder } from '../../src/link/decode.ts';
import { enterPacker, setStage, sleep, startRun } from '../e2e/stage.ts';
import { NAMES, quantile, type Row } from './measure.ts';
import { acknowledge, seenBy, shownTimes, soundedAt, spy } from './seen.ts';

const REPEATS = 40;
/** A step from 1.0 to 2.5 bar, rated 2.0: the second sample over this makes the median of three pass. */
const CERTAINLY_OVER = countsAtBar(2.2);

/** When the byte at `offset` left the device: UTC in ms. */
function writtenAt(times: string, offset: number): number {
  for (const line of times.split('\n')) {
    const [us, bytes] = line.split(' ').map(Number);
    if (bytes !== undefined && bytes >= offset) return us! / 1000;
  }
  throw new Error('the device noted no time for that byte');
}

/** End of the second sample over the ceiling after `from`, bytes from the start. */
function decisive(sent: Buffer, from: number): number {
  let at = from;
  let over = 0;
  let found = -1;
  const decoder = createDecoder('device');
  const lines = sent.subarray(from);
  let start = 0;
  for (let i = 0; i < lines.length && found < 0; i++) {
    if (lines[i] !== 10) continue;
    decoder.push(lines.subarray(start, i + 1), {
      frame: (f) => {
        if (f.t === 'S' && (f.counts[0] ?? 0) > CERTAINLY_OVER && ++over === 2) found = i + 1;
      },
      stray: () => undefined,
    });
    start = i + 1;
  }
  at += found;
  if (found < 0) throw new Error('no sample over the ceiling was sent');
  return at;
}

/** Device write → alarm handed to the page by the engine, and → on the screen, over the browser's real Web Serial. */
export async function benchLatency(folder: string): Promise<Row[]> {
  const timesFile = path.join(folder, 'times');
  const stage = await setStage(['--times', timesFile]);
  try {
    await stage.context.addInitScript(`${NAMES}(${spy})()`);
    await stage.page.reload();
    await enterPacker(stage.page, 'Packer of the bench', 2.0);
    await startRun(stage, 'Packer of the bench');
    const { page, device } = stage;
    const engine: number[] = [];
    const screen: number[] = [];
    const sound: number[] = [];
    for (let i = 0; i < REPEATS; i++) {
      await device.op('true 100000 12000 14000 18000');
      await page.locator('[data-testid="alarm-over-rated"]').waitFor({ state: 'detached', timeout: 20_000 });
      await sleep(700 + 13 * i);
      const from = stage.sent().length;
      const line = stage.sent().lastIndexOf(10) + 1;
      await device.op('true 250000');
      await shownTimes(page, i + 1);
      const seen = await seenBy(page);
      const at = writtenAt(readFileSync(timesFile, 'utf8'), decisive(stage.sent(), Math.min(from, line)));
      engine.push(seen.handed[i]! - at);
      screen.push(seen.shown[i]! - at);
      sound.push((await soundedAt(page, at)) - at);
      await device.op('true 100000');
      await acknowledge(page);
    }
    const row = (what: string, values: readonly number[], goal: number): Row => ({
      what,
      value: `p50 ${quantile(values, 0.5).toFixed(1)} ms, p99 ${quantile(values, 0.99).toFixed(1)} ms`,
      beside: `${REPEATS} steps; goal p99 ≤ ${goal} ms`,
      met: quantile(values, 0.99) <= goal,
    });
    return [
      row('device write → alarm from the engine', engine, 50),
      row('device write → alarm on screen', screen, 100),
      row('device write → alarm begins to sound', sound, 150),
    ];
  } finally {
    await stage.close();
  }
}
