import { describe, expect, it } from 'vitest';
import { createScriptedPort } from '../link/testing/device.ts';
import { suggestChannels } from '../sensing/suggest.ts';
import { createHostBench, practiceSetup } from './testing/bench.ts';

const SERIAL = {
  q: 'connect',
  port: { kind: 'serial', index: 0, usbVendorId: null, usbProductId: null },
} as const;

// 4-20 mA over 0-6 bar on 16 bits of 0-25 mA (the scripted device's own scale).
const counts = (bar: number): number => Math.floor(((4000 + (bar / 6) * 16_000) / 25_000) * 65_535);

async function connected() {
  const site = createScriptedPort();
  const b = createHostBench({ openPort: async () => ({ port: site.port, rig: null, speed: 1 }) });
  const { device } = site;
  const second = async (bar: number, ms = 1000) => {
    for (let i = 0; i < ms / 20; i++) {
      device.sample(counts(bar));
      await b.run(20);
    }
  };
  await b.ask(SERIAL);
  await second(-0.04);
  await b.ask({ q: 'command', command: { c: 'zero' } });
  await second(0);
  const open = async () => {
    const channels = suggestChannels(b.moment().link.channels);
    const setup = practiceSetup({ practice: false, channels });
    await b.ask({ q: 'open-run', jobId: 'j', title: 't', practice: false, setup });
    await second(1.4, 3000);
  };
  const limits = () => device.done.filter((k) => k.command.verb === 'limit').length;
  const lost = () => b.moment().view.alarms.find((a) => a.alarm === 'pressure-lost');
  /** Another device behind the same plug. */
  const swap = () => {
    device.reset(99);
    Object.assign(device.hello, { deviceId: 'sb-8' });
  };
  return { ...site, b, second, open, limits, lost, swap };
}

for (const recorded of [true, false])
  describe(`another device, ${recorded ? 'in a run' : 'after a run'}`, () => {
    async function running() {
      const site = await connected();
      await site.open();
      if (!recorded) {
        await site.b.ask({ q: 'end-run' });
        await site.second(1.4);
      }
      return site;
    }

    it('is told within 1.2 s of its hello, by an alarm that names it, and stays told', async () => {
      const { b, device, second, lost, swap } = await running();
      swap();
      device.greet();
      device.streaming = true;
      await second(0, 1200);
      expect(lost()).toMatchObject({ state: 'unacknowledged', values: { cause: 'other-device' } });
      await second(0, 5000);
      expect(lost()).toMatchObject({ values: { cause: 'other-device' } });
      expect(b.moment().link.error).toBe('other-device');
      expect(b.moment().link.hello?.deviceId).toBe('sb-7');
      expect(b.events().filter((e) => e.e === 'device' && e.what === 'other')).toHaveLength(1);
    });

    it('is never armed by the counts of the first, nor read by its scale, also where it streams already', async () => {
      const { b, device, second, limits, swap, pull, state } = await running();
      const before = limits();
      const { bar } = b.moment().view;
      pull();
      swap();
      state.present = true;
      device.streaming = true;
      await second(0.5, 6000);
      expect(limits()).toBe(before);
      expect(b.moment().view.bar).toBe(bar);
      const answer = await b.ask({ q: 'device-limit', mbar: 1400 }).catch((e: Error) => e);
      expect(answer).toBeInstanceOf(Error);
      expect(limits()).toBe(before);
    });

    it('the first one goes on where it was when it is back', async () => {
      const { b, device, second, lost, swap } = await running();
      swap();
      device.greet();
      await second(0, 3000);
      device.reset(100);
      Object.assign(device.hello, { deviceId: 'sb-7' });
      await second(1.4, 5000);
      expect(lost()?.state).toBe('returned');
      expect(b.moment().view.bar).toBeCloseTo(1.44, 2);
      expect(b.moment().link).toMatchObject({ state: 'streaming', error: null });
    });
  });
