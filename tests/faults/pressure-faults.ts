import { sleep } from '../e2e/stage.ts';
import { ANY } from './expect.ts';
import { ADDED_MS, type Fault, op, settled } from './fault.ts';
import { RATED_BAR, type Site } from './site.ts';
import { bring, calm, TRUE_BAR, type WalkStage } from './walk.ts';

/** What the air itself does. */

/** A valve that is wide open on a small packer, bar/s. */
const FAST_BAR_S = 0.4;

/** Over the end of the sensor's span, and how fast it gets there. */
const SPAN_TEST_BAR = 6.5;
const RISE_S = 2;

const back = (site: Site, stage: WalkStage) => bring(site, TRUE_BAR[stage]);

export const PRESSURE_FAULTS: readonly Fault[] = [
  {
    name: 'fill-on',
    title: 'Somebody fills on, past the rated pressure, at 0.4 bar/s',
    how: 'device: ramp to 2.4 bar; rated are 2.0',
    async inject(site, stage) {
      await op(site, `ramp 240000 ${(2.4 - TRUE_BAR[stage]) / FAST_BAR_S}`);
      return undefined;
    },
    clear: back,
    // By the time when the true pressure is at the rated one.
    expects: (stage) => ({
      shows: ['alarm-rising', 'alarm-ceiling', 'alarm-over-rated'],
      priority: 'urgent',
      withinMs: Math.round((1000 * (RATED_BAR - TRUE_BAR[stage])) / FAST_BAR_S),
    }),
  },
  {
    name: 'over-rated',
    title: 'The pressure is over rated at once, 2.3 of 2.0 bar',
    how: 'device: true 230000',
    async inject(site) {
      await op(site, 'true 230000');
      return undefined;
    },
    clear: back,
    expects: () => ({ shows: ['alarm-over-rated'], priority: 'urgent', withinMs: 100 + ADDED_MS }),
  },
  {
    name: 'over-range',
    title: 'The pressure rises over the sensor’s span, to 6.5 of 6 bar',
    how: 'device: ramp to 6.5 bar in 2 s',
    async inject(site) {
      await op(site, `ramp ${SPAN_TEST_BAR * 1e5} ${RISE_S}`);
      return undefined;
    },
    clear: back,
    expects: (stage) => ({
      shows: ['alarm-over-range'],
      priority: 'urgent',
      withinMs:
        Math.round((1000 * RISE_S * (6 - TRUE_BAR[stage])) / (SPAN_TEST_BAR - TRUE_BAR[stage])) +
        100 +
        ADDED_MS,
    }),
  },
  {
    name: 'over-range-jump',
    title:
      'The pressure’s counts jump over the sensor’s span and its measuring band: 6.5 of 6 bar from one sample to the next',
    how: 'device: true 650000',
    async inject(site) {
      await op(site, 'true 650000');
      return undefined;
    },
    clear: back,
    // A wire that touches the supply reads the same: it may be called lost, and is to be treated as full.
    expects: () => ({
      shows: ['alarm-over-range', 'alarm-pressure-lost', 'alarm-device-trip'],
      priority: 'urgent',
      withinMs: 500 + ADDED_MS,
    }),
  },
  {
    name: 'rise-after-vent',
    title: 'The pressure comes back after the vent was closed',
    how: 'vent open, zero, vent closed; device: ramp to 0.3 bar in 3 s',
    stages: ['let-down'],
    async inject(site) {
      await bring(site, 0);
      // The test of the vent begins from a second at zero; before that it is refused, and says so.
      await sleep(2000);
      await site.page.locator('[data-testid=stage-key][data-does=test]').click();
      await sleep(1500);
      await site.mark();
      const from = performance.timeOrigin + performance.now();
      await op(site, 'ramp 30000 3');
      return from;
    },
    async clear(site) {
      // Stands until a later test stays at zero or the packer is filled again: the crew says that it vents again.
      await site.page.getByTestId('vent-open').or(site.page.getByTestId('ack')).first().click();
      await calm(site, 3000);
      if (await site.page.getByTestId('vent-open').isVisible())
        await site.page.getByTestId('vent-open').click();
      await bring(site, TRUE_BAR['let-down']);
    },
    expects: () => ({ shows: ['alarm-rebound'], priority: 'high', withinMs: 2000 + ADDED_MS }),
  },
  {
    name: 'burst',
    title: 'The pressure falls by 0.8 bar/s: a hose or the packer has gone',
    how: 'device: ramp to 0.1 bar at 0.8 bar/s',
    stages: ['seat', 'inflate', 'hold'],
    async inject(site, stage) {
      const from = await settled(site, stage);
      await op(site, `ramp 10000 ${(TRUE_BAR[stage] - 0.1) / 0.8}`);
      return from;
    },
    clear: back,
    // While air goes in and out by hand a fall is the hand's own.
    expects: (stage) =>
      stage === 'hold'
        ? { shows: ['alarm-fast-fall'], priority: 'high', withinMs: 1000 + ADDED_MS }
        : { allows: ANY, forMs: 1500 },
  },
];
