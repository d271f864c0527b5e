import { describe, expect, it } from 'vitest';
import { createScriptedPort } from '../link/testing/device.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

async function running() {
  const site = createScriptedPort();
  const b = createHostBench({ openPort: async () => ({ port: site.port, rig: null, speed: 1 }) });
  const port = {
    kind: 'serial',
    index: 0,
    usbVendorId: null,
    usbProductId: null,
  } as const;
  await b.ask({ q: 'connect', port });
  const second = async (ms = 1000) => {
    for (let i = 0; i < ms / 20; i++) {
      site.device.sample();
      await b.run(20);
    }
  };
  await second();
  const channels = suggestChannels(b.moment().link.channels);
  const setup = practiceSetup({ practice: false, channels });
  const open = () => b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
  const state = () => b.moment().view.alarms.find((a) => a.alarm === 'device-deaf')?.state ?? 'normal';
  return { ...site, b, second, open, state };
}

describe('a device that streams and takes no command', () => {
  it('is told within 3 s, in any stage, and over when it answers again, with the limit set anew', async () => {
    const { b, device, second, open, state } = await running();
    await open();
    await second(3000);
    expect(state()).toBe('normal');
    device.deaf = true;
    await second(3000);
    expect(b.moment().view.stage).toBe('prepare');
    expect(state()).toBe('unacknowledged');
    expect(b.moment().link.error).toBe('command-failed');
    const limits = () => device.done.filter((k) => k.command.verb === 'limit').length;
    const before = limits();
    device.deaf = false;
    await second(6000);
    expect(state()).toBe('returned');
    expect(b.moment().link.error).toBeNull();
    expect(limits()).toBeGreaterThan(before);
  });

  it('is told before a limit is there to be told', async () => {
    const { device, second, state } = await running();
    device.deaf = true;
    await second(3000);
    expect(state()).toBe('unacknowledged');
  });
});
