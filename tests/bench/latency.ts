import { readFileSync } from 'node:fs';
import path from 'node:path';
import { countsAtBar } from '../../firmware-protocol/host/run.ts';
import { createDecoder } from '../../src/link/decode.ts';
import { enterPacker, setStage, sleep, startRun } from '../e2e/stage.ts';
import { NAMES, quantile, type Row } from './measure.ts';

const REPEATS = 40;
/** A step from 1.0 to 2.5 bar, rated 2.0: the second sample over this makes the median of three pass. */
const CERTAINLY_OVER = countsAtBar(2.2);

interface Seen {
  /** UTC in ms, with fractions, when the page was handed the alarm; and when it was on the screen. */
  readonly handed: number[];
  readonly shown: number[];
}

/** Notes when the ceiling alarm's event comes from the worker, and when the frame that shows it was drawn. */
function spy(): void {
  const seen: Seen = { handed: [], shown: [] };
  const utc = () => performance.timeOrigin + performance.now();
  (globalThis as unknown as { seen: Seen }).seen = seen;
  const Plain = globalThis.Worker;
  globalThis.Worker = class extends Plain {
    constructor(url: string | URL, options?: WorkerOptions) {
      super(url, options);
      this.addEventListener('message', (message) => {
        const { m, event } = message.data as {
          m: string;
          event?: { e: string; alarm?: string; to?: string };
        };
        if (
          m === 'event' &&
          event?.e === 'alarm' &&
          event.alarm === 'over-rated' &&
          event.to === 'unacknowledged'
        )
          seen.handed.push(utc());
      });
    }
  };
  const look = () =>
    document.querySelector('[data-testid="alarm-over-rated"]')?.getAttribute('data-state') ?? 'normal';
  let last = 'normal';
  new MutationObserver(() => {
    const state = look();
    if (state === 'unacknowledged' && last !== 'unacknowledged')
      requestAnimationFrame(() => setTimeout(() => seen.shown.push(utc()), 0));
    last = state;
  }).observe(document, { subtree: true, childList: true, attributes: true });
}

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
    for (let i = 0; i < REPEATS; i++) {
      await device.op('true 100000 12000 14000 18000');
      await page.locator('[data-testid="alarm-over-rated"]').waitFor({ state: 'detached', timeout: 20_000 });
      await sleep(700 + 13 * i);
      const from = stage.sent().length;
      const line = stage.sent().lastIndexOf(10) + 1;
      const n = i + 1;
      await device.op('true 250000');
      await page.waitForFunction((k) => (globalThis as unknown as { seen: Seen }).seen.shown.length >= k, n, {
        timeout: 10_000,
      });
      const seen = await page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);
      const at = writtenAt(readFileSync(timesFile, 'utf8'), decisive(stage.sent(), Math.min(from, line)));
      engine.push(seen.handed[i]! - at);
      screen.push(seen.shown[i]! - at);
      await device.op('true 100000');
      const ack = page.getByTestId('ack');
      // A press just after an alarm came is not taken (widgets/press-guard.ts): press as a hand would, again.
      const alarm = page.locator('[data-testid="alarm-over-rated"]');
      for (let k = 0; k < 20 && (await alarm.isVisible()); k++) {
        if (await ack.isVisible()) await ack.click();
        await sleep(300);
      }
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
    ];
  } finally {
    await stage.close();
  }
}
