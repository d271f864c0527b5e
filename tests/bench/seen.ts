import type { Page } from 'playwright-core';
import { PATTERNS } from '../../src/app/patterns.ts';
import { sleep } from '../e2e/stage.ts';

// What a page was seen and heard to do, for the latencies.

export interface Seen {
  /** UTC in ms, with fractions, when the page was handed the alarm; and when it was on the screen. */
  readonly handed: number[];
  readonly shown: number[];
  /** Every tone that was started: when it is to be heard, UTC in ms, and its pitch. */
  readonly tones: { readonly ms: number; readonly hz: number }[];
}

/**
 * Runs in the page before its own scripts: notes when the event of the alarm over rated comes from the worker, when the frame
 * that shows it was drawn, and when a tone begins by the audio clock.
 */
export function spy(): void {
  const seen: Seen = { handed: [], shown: [], tones: [] };
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
  const start = OscillatorNode.prototype.start;
  OscillatorNode.prototype.start = function (this: OscillatorNode, when = 0) {
    const waitS = Math.max(0, when - this.context.currentTime);
    if (this.context.state === 'running')
      seen.tones.push({ ms: utc() + 1000 * waitS, hz: this.frequency.value });
    return start.call(this, when);
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

/** When the alarm of the step at `fromMs` began to sound, UTC in ms. */
export async function soundedAt(page: Page, fromMs: number): Promise<number> {
  const found = await page.waitForFunction(
    ([from, hz]) =>
      (globalThis as unknown as { seen: Seen }).seen.tones.find(
        (t) => t.ms >= from! && Math.abs(t.hz - hz!) < 1,
      )?.ms,
    [fromMs, PATTERNS.urgent.pulses[0]!.hz],
    { timeout: 10_000 },
  );
  return (await found.jsonValue())!;
}

/**
 * Presses until the alarm is gone and none waits, so that nothing sounds when the next one comes. A press just after it came is
 * not taken (widgets/press-guard.ts): as a hand would, again.
 */
export async function acknowledge(page: Page): Promise<void> {
  const alarm = page.locator('[data-testid="alarm-over-rated"]');
  const waiting = page.locator('[data-testid^="alarm-"][data-state="unacknowledged"]');
  const ack = page.getByTestId('ack');
  for (let k = 0; k < 40; k++) {
    if (await ack.isVisible()) await ack.click({ timeout: 2000 }).catch(() => undefined);
    else if (!(await alarm.isVisible()) && (await waiting.count()) === 0) return;
    await sleep(300);
  }
  throw new Error('an alarm stays');
}

export const seenBy = (page: Page): Promise<Seen> =>
  page.evaluate(() => (globalThis as unknown as { seen: Seen }).seen);

/** Waits until the alarm has been on the screen `n` times. */
export const shownTimes = (page: Page, n: number): Promise<unknown> =>
  page.waitForFunction((k) => (globalThis as unknown as { seen: Seen }).seen.shown.length >= k, n, {
    timeout: 10_000,
  });
