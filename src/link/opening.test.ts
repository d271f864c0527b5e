import { describe, expect, it } from 'vitest';
import { encodeFrame } from './encode.ts';
import { LinkFault } from './fault.ts';
import { createOpening, type Opening, type OpeningSink } from './opening.ts';
import { createQueue } from './queue.ts';
import { createScriptedPort } from './testing/device.ts';
import { createManualTimers, settle } from './testing/timers.ts';

function bench(more: Partial<OpeningSink> = {}) {
  const timers = createManualTimers();
  const site = createScriptedPort();
  const told: string[] = [];
  const queue = createQueue((frame) => site.port.write(encodeFrame(frame)), timers, 1);
  const rate = { hz: 50 };
  const sink: OpeningSink = {
    frame: (f) => told.push(f.t === 'S' ? `S${f.seq}` : f.t),
    stray: (reason) => told.push(reason),
    opened: () => told.push('opened'),
    greeted: ({ hello }) => told.push(`greeted ${hello.deviceId}`),
    streaming: (hz) => told.push(`streaming ${hz}`),
    stopped: () => told.push('stopped'),
    answers: (ok) => told.push(ok ? 'answers' : 'deaf'),
    fault: (code) => told.push(code),
    gone: () => told.push('gone'),
    arrived: () => told.push('arrived'),
    ...more,
  };
  const make = (): Opening =>
    createOpening({
      port: site.port,
      timers,
      queue,
      sink,
      how: { baudRate: 500_000, turn: 0 },
      hellos: 10,
      rateHz: () => rate.hz,
    });
  /** What was told, frames of the handshake left out. */
  const news = () => told.filter((t) => t.length > 1);
  return { timers, site, queue, rate, told, news, make };
}

describe('one opening of a port', () => {
  it('greets, then streams at the rate that is wanted, then can be asked for another', async () => {
    const { timers, rate, news, make } = bench();
    const opening = make();
    expect(opening.started).toBe(false);
    const opened = opening.open();
    await timers.run(100);
    await opened;
    expect(opening.started).toBe(true);
    rate.hz = 20;
    await opening.start();
    expect(news()).toEqual(['opened', 'greeted sb-7', 'streaming 50', 'streaming 20']);
  });

  it('asked to start twice at once, it starts once', async () => {
    const { timers, site, rate, news, make } = bench();
    const opening = make();
    const opened = opening.open();
    await timers.run(100);
    await opened;
    const starts = () => site.device.done.filter((k) => k.command.verb === 'start').length;
    const before = starts();
    rate.hz = 20;
    await Promise.all([opening.start(), opening.start()]);
    expect(starts() - before).toBe(1);
    expect(news().filter((t) => t.startsWith('streaming'))).toEqual(['streaming 50', 'streaming 20']);
  });

  it('counts its own frames and stray bytes, and ends the line that the loss cut short', async () => {
    const { timers, site, told, make } = bench();
    const opening = make();
    const opened = opening.open();
    await timers.run(100);
    await opened;
    site.garbage(new Uint8Array([0, 1, 10]));
    site.device.sample();
    site.garbage(new Uint8Array([0x53, 0x2c]));
    site.pull();
    expect(told.slice(-4)).toEqual(['garbage', 'S1', 'partial', 'gone']);
    expect(opening.frames).toBe(told.filter((t) => t.length === 1 || t === 'S1').length);
    expect(opening.strayBytes).toBe(5);
  });

  it('ended, it says and does nothing more, whatever it waited for', async () => {
    for (const afterMs of [0, 60, 5000]) {
      const { timers, site, queue, told, make } = bench();
      site.device.deaf = true;
      const opening = make();
      const opened = opening.open().catch((e: unknown) => e);
      await settle();
      await timers.run(afterMs);
      opening.end();
      queue.drop('over');
      const before = told.length;
      site.device.deaf = false;
      site.device.streaming = true;
      site.device.sample();
      site.recovered('BreakError');
      site.pull();
      await timers.run(10_000);
      expect(await opened).toBeInstanceOf(LinkFault);
      expect(told.length).toBe(before);
      expect(site.device.done).toEqual([]);
      expect(timers.pending).toBe(0);
    }
  });

  it('an older one does not end or start a younger one', async () => {
    const { timers, site, news, make } = bench();
    const old = make();
    const first = old.open();
    await timers.run(100);
    await first;
    site.pull();
    old.end();
    site.state.present = true;
    const next = make();
    const second = next.open();
    await timers.run(100);
    await second;
    old.end();
    await old.start().catch(() => undefined);
    for (let i = 0; i < 30; i++) {
      site.device.sample();
      await timers.run(100);
    }
    expect(next.started).toBe(true);
    expect(old.started).toBe(false);
    expect(site.device.done.filter((k) => k.command.verb === 'beat').length).toBe(3);
    expect(news().filter((t) => t.startsWith('streaming'))).toEqual(['streaming 50', 'streaming 50']);
  });

  it('a device that greets and refuses to start is stopped, and asked again with the next beats', async () => {
    const { timers, site, news, make } = bench();
    const { receive } = site.device;
    let refuse = true;
    site.device.receive = (bytes) => {
      const text = new TextDecoder().decode(bytes);
      const number = /^K,(\d+),start/.exec(text)?.[1];
      if (refuse && number !== undefined)
        site.device.send({ t: 'R', command: Number(number), result: 'refused', value: null });
      else receive(bytes);
    };
    const opening = make();
    const opened = opening.open();
    await timers.run(100);
    await opened;
    expect(news().slice(-2)).toEqual(['command-failed', 'stopped']);
    expect(opening.started).toBe(true);
    refuse = false;
    await timers.run(1500);
    expect(news().at(-1)).toBe('streaming 50');
  });

  it('a device that greets and never answers its start is stopped', async () => {
    const { timers, site, news, make } = bench();
    const { receive } = site.device;
    site.device.receive = (bytes) => {
      if (!/^K,\d+,start/.test(new TextDecoder().decode(bytes))) receive(bytes);
    };
    const opening = make();
    const opened = opening.open().catch((e: unknown) => e);
    await timers.run(1400);
    await opened;
    expect(news()).toEqual(['opened', 'greeted sb-7', 'command-failed', 'stopped']);
  });

  it('a greeting that the session refuses while it streams is the end of it', async () => {
    const { timers, site, news, make } = bench({
      greeted({ hello }) {
        if (hello.deviceId !== 'sb-7') throw new LinkFault('other-device', hello.deviceId);
      },
    });
    const opening = make();
    const opened = opening.open();
    await timers.run(100);
    await opened;
    Object.assign(site.device.hello, { deviceId: 'sb-9' });
    site.device.reset(99, true);
    await timers.run(100);
    expect(news().at(-1)).toBe('gone');
  });
});
