import { describe, expect, it } from 'vitest';
import { createScriptedPort } from '../link/testing/device.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

const SERIAL = {
  q: 'connect',
  port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
} as const;

/** A run on a device that samples as often as the test says. */
async function running() {
  const site = createScriptedPort();
  const b = createHostBench({ openPort: async () => ({ port: site.port, rig: null, speed: 1 }) });
  let k = 0;
  const stream = async (hz: number, ms: number) => {
    for (let i = 0; i < (hz * ms) / 1000; i++) {
      // A little noise, lest it is taken for stuck.
      site.device.sample(10_490 + (k++ % 3) * 4, Math.round(10_000 / hz));
      await b.run(1000 / hz);
    }
  };
  await b.ask(SERIAL);
  const channels = suggestChannels(b.moment().link.channels);
  const setup = practiceSetup({ practice: false, channels });
  await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
  await stream(50, 3000);
  const slow = () => b.moment().view.alarms.find((a) => a.alarm === 'slow-readings');
  return { b, site, stream, slow };
}

describe('a rate that falls in a run', () => {
  it('is told within four seconds with both numbers, high while air is let in, and is over when it is back', async () => {
    const { b, stream, slow } = await running();
    expect(slow()).toBeUndefined();
    await stream(5, 4000);
    expect(slow()).toMatchObject({
      state: 'unacknowledged',
      priority: 'low',
      values: { perSecond: 5, perSecondBefore: 50 },
    });
    await b.ask({ q: 'command', command: { c: 'stage', to: 'inflate' } });
    await stream(5, 1000);
    expect(slow()?.priority).toBe('high');
    await stream(50, 3000);
    expect(slow()?.state).toBe('returned');
  });

  it('a short hole is none', async () => {
    const { b, site, stream, slow } = await running();
    await b.run(1800);
    // Its clock has gone on: what comes then is new, not late.
    site.device.sample(10_490, 1_800_000);
    await stream(50, 3000);
    expect(slow()).toBeUndefined();
    expect(b.events().some((e) => e.e === 'alarm' && e.alarm === 'slow-readings')).toBe(false);
  });
});
