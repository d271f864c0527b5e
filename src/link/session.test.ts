import { describe, expect, it } from 'vitest';
import type { ChannelFrame, HelloFrame } from './frames.ts';
import { createSession, type SessionOptions } from './session.ts';
import type { LinkError, LinkState } from './status.ts';
import { CURRENT_LOOP, createScriptedPort } from './testing/device.ts';
import { createManualTimers, settle } from './testing/timers.ts';

function bench(
  changes: Partial<HelloFrame> = {},
  channel: Partial<ChannelFrame> = {},
  options: Partial<SessionOptions> = {},
) {
  const timers = createManualTimers();
  const site = createScriptedPort(changes, channel);
  const states: LinkState[] = [];
  const errors: LinkError[] = [];
  const got: string[] = [];
  let stray = 0;
  const session = createSession(
    site.port,
    timers,
    {
      frame: (f) => got.push(f.t === 'S' ? `S${f.seq}` : f.t),
      stray: (_reason, bytes) => {
        stray += bytes.length;
      },
      state: (s) => states.push(s),
      error: (e) => errors.push(e),
    },
    { rateHz: 50, expected: null, firstCommand: 100, ...options },
  );
  const verbs = () => site.device.done.map((k) => k.command.verb);
  return { timers, site, session, states, errors, got, verbs, strayed: () => stray };
}

/** The plug is pulled, and another device is on it. */
function replaced({ pull, device, state }: ReturnType<typeof bench>['site'], deviceId: string): void {
  pull();
  Object.assign(device.hello, { deviceId });
  device.streaming = false;
  state.present = true;
}

describe('a session with a device', () => {
  it('opens, greets, starts the stream and delivers samples', async () => {
    const { session, timers, site, states, got } = bench();
    const connected = session.connect();
    await timers.run(100);
    await connected;
    expect(states).toEqual(['opening', 'greeting', 'streaming']);
    expect(session.greeting?.hello.deviceId).toBe('sb-7');
    expect(session.rateHz).toBe(50);
    site.device.sample();
    site.device.sample();
    expect(got.slice(-2)).toEqual(['S1', 'S2']);
  });

  it('a pulled plug ends what waits for an answer, and nothing more is known of the device’s limit', async () => {
    const { session, timers, site } = bench();
    const connected = session.connect();
    await timers.run(100);
    await connected;
    await session.limit(0, 20_000, 1500);
    expect(session.guard).toMatchObject({ state: 'armed', limitMbar: 1500 });
    site.device.deaf = true;
    const asked = session.ask({ verb: 'silence' }).catch((e: unknown) => e);
    site.pull();
    await settle();
    expect(await asked).toMatchObject({ reason: 'dropped' });
    expect(session.guard).toBeNull();
  });

  it('keeps the rate that was asked for last, also where one is being set', async () => {
    const { session, timers, site } = bench();
    const connected = session.connect();
    await timers.run(100);
    await connected;
    site.device.deaf = true;
    const first = session.setRate(20);
    await timers.run(100);
    const second = session.setRate(10);
    site.device.deaf = false;
    await timers.run(1000);
    await Promise.all([first, second]);
    expect(session.rateHz).toBe(10);
    const starts = site.device.done.filter((k) => k.command.verb === 'start');
    expect(starts.at(-1)?.command).toEqual({ verb: 'start', rateHz: 10 });
  });

  it('repeats hello while a board boots, and takes the clamped rate', async () => {
    const { session, timers, site } = bench({}, {}, { rateHz: 1000 });
    site.device.deaf = true;
    const connected = session.connect();
    await timers.run(2000);
    site.device.deaf = false;
    await timers.run(500);
    await connected;
    expect(session.rateHz).toBe(200);
  });

  it('gives up with no-hello when nothing speaks the protocol, and can be tried again', async () => {
    const { session, timers, site, states } = bench();
    site.device.deaf = true;
    const failed = expect(session.connect()).rejects.toMatchObject({ code: 'no-hello' });
    await timers.run(6000);
    await failed;
    expect(states.at(-1)).toBe('idle');
    expect(timers.pending).toBe(0);
    site.device.deaf = false;
    const again = session.connect();
    await timers.run(200);
    await again;
    expect(session.state).toBe('streaming');
  });

  it.each([
    ['version', { version: 2 }, {}, {}],
    ['no-pressure', {}, { quantity: 'temp', signal: 'digital' }, {}],
    ['other-device', {}, {}, { expected: { deviceId: 'sb-8', channels: [] } }],
    ['rescaled', {}, { rangeHi: 1e6 }, { expected: { deviceId: 'sb-7', channels: [CURRENT_LOOP] } }],
  ] as const)('refuses with %s', async (code, hello, channel, options) => {
    const { session, timers } = bench(hello, channel, options);
    const failed = expect(session.connect()).rejects.toMatchObject({ code });
    await timers.run(6000);
    await failed;
    expect(session.state).toBe('idle');
  });

  it('says which end is busy', async () => {
    const { session, site, timers } = bench();
    site.state.busy = true;
    const failed = expect(session.connect()).rejects.toMatchObject({ code: 'port-busy' });
    await timers.run(10);
    await failed;
  });

  it('beats once a second while streaming', async () => {
    const { session, timers, site, verbs } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    for (let i = 0; i < 50; i++) {
      site.device.sample();
      await timers.run(100);
    }
    expect(verbs().filter((v) => v === 'beat').length).toBe(5);
  });

  it('is told of an unplug at once, waits, and streams again after the replug', async () => {
    const { session, timers, site, states, errors } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.pull();
    expect(session.state).toBe('lost');
    await timers.run(5000);
    expect(states.at(-1)).toBe('lost');
    site.state.present = true;
    await timers.run(1500);
    expect(states).toEqual(['opening', 'greeting', 'streaming', 'lost', 'streaming']);
    expect(errors).toEqual(['port-gone']);
    expect(session.error).toBeNull();
  });

  it('does not stream from another device once a run is bound to one', async () => {
    const { session, timers, site, states, errors } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    session.expect({ deviceId: 'sb-7', channels: [] });
    replaced(site, 'sb-9');
    await timers.run(8000);
    expect(site.device.streaming).toBe(false);
    expect(errors).toContain('other-device');
    expect(states.at(-1)).toBe('lost');
    Object.assign(site.device.hello, { deviceId: 'sb-7' });
    await timers.run(3000);
    expect(session.state).toBe('streaming');
  });

  it('leaves a device that turns into another on the same line, and takes its own up again', async () => {
    const { session, timers, site, got } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    session.expect({ deviceId: 'sb-7', channels: [] });
    Object.assign(site.device.hello, { deviceId: 'sb-9', bootId: 99 });
    site.device.reset(99, true);
    await timers.run(300);
    expect(session.state).toBe('lost');
    site.device.streaming = true;
    const before = got.length;
    site.device.sample();
    expect(got.length).toBe(before);
    site.device.streaming = false;
    Object.assign(site.device.hello, { deviceId: 'sb-7' });
    await timers.run(6000);
    expect(session.state).toBe('streaming');
  });

  it('opens another device that is now expected at once, and none after the end', async () => {
    const { session, timers, site, states } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    session.expect({ deviceId: 'sb-7', channels: [] });
    replaced(site, 'sb-9');
    // Refused again and again, with longer and longer waits between.
    await timers.run(20_000);
    expect(states.at(-1)).toBe('lost');
    session.expect({ deviceId: 'sb-9', channels: [] });
    await timers.run(300);
    expect(session.state).toBe('streaming');

    session.expect({ deviceId: 'sb-7', channels: [] });
    await timers.run(100);
    expect(session.state).toBe('lost');
    await session.close();
    session.expect({ deviceId: 'sb-9', channels: [] });
    await timers.run(10_000);
    expect(session.state).toBe('idle');
  });

  it('tries a port that is gone again after 0.2, 0.3, 0.5 s and then each second', async () => {
    const { session, timers, site } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.pull();
    await settle();
    const tries: number[] = [];
    let seen = site.state.tried;
    for (let ms = 10; ms <= 4100; ms += 10) {
      await timers.run(10);
      if (site.state.tried > seen) tries.push(ms);
      seen = site.state.tried;
    }
    const waits = tries.map((at, i) => at - (tries[i - 1] ?? 0));
    expect(waits).toEqual([200, 300, 500, 1000, 1000, 1000]);
  });

  it('starts the stream again after a reset, announced or silent', async () => {
    for (const announce of [true, false]) {
      const { session, timers, site, verbs, got } = bench();
      const connected = session.connect();
      await timers.run(50);
      await connected;
      site.device.sample();
      site.device.reset(42, announce);
      await timers.run(announce ? 100 : 2500);
      expect(site.device.streaming).toBe(true);
      expect(session.greeting?.hello.bootId).toBe(42);
      expect(verbs().filter((v) => v === 'start').length).toBe(2);
      expect(got.filter((t) => t === 'H').length).toBe(2);
    }
  });

  it('survives garbage and a recovered stream', async () => {
    const { session, timers, site, errors, got, strayed } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.garbage(new Uint8Array([0, 255, 13, 10]));
    site.recovered('BufferOverrunError');
    site.device.sample();
    expect(got.at(-1)).toBe('S1');
    expect(strayed()).toBe(4);
    expect(errors).toEqual(['read-recovered']);
    expect(session.state).toBe('streaming');
  });

  it('arms the limit and believes only what is read back', async () => {
    const { session, timers, site, errors } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    const kept = session.limit(0, 20_000, 1500);
    await timers.run(50);
    expect(await kept).toEqual({ kept: true, counts: 20_000, mbar: 1500 });
    site.device.deaf = true;
    const not = session.limit(0, 19_000, 1400);
    await timers.run(5000);
    expect(await not).toEqual({ kept: false, counts: null, mbar: null });
    expect(errors).toContain('limit-not-kept');
  });

  it('of a limit that a pulled plug cut off, it says that the device is gone and no more', async () => {
    const { session, timers, site, errors } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    const none = { kept: false, counts: null, mbar: null };
    site.device.deaf = true;
    const cut = session.limit(0, 20_000, 1500);
    await timers.run(50);
    site.pull();
    await settle();
    expect(await cut).toEqual(none);
    // Asked while nobody is there: no more is known of the device than before.
    expect(await session.limit(0, 19_000, 1400)).toEqual(none);
    expect([errors, session.error]).toEqual([['port-gone'], 'port-gone']);

    // The reply had come, its reading back is still waited for when the device goes and is back.
    site.device.deaf = false;
    site.state.present = true;
    await timers.run(3000);
    expect(session.state).toBe('streaming');
    const { send } = site.device;
    site.device.send = (frame) => {
      if (frame.t !== 'G') send(frame);
    };
    const halved = session.limit(0, 18_000, 1300);
    await timers.run(20);
    site.pull();
    site.state.present = true;
    await timers.run(3000);
    expect(await halved).toEqual(none);
    expect([errors, session.error]).toEqual([['port-gone', 'port-gone'], null]);
  });

  it('of a limit that is cut off by the closing it says nothing', async () => {
    const { session, timers, site, errors } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.device.deaf = true;
    const cut = session.limit(0, 20_000, 1500);
    const closed = session.close();
    await timers.run(3000);
    await closed;
    expect(await cut).toEqual({ kept: false, counts: null, mbar: null });
    expect(errors).toEqual([]);
  });

  it('closes from any state and delivers nothing afterwards', async () => {
    const { session, timers, site, got, states } = bench();
    await session.close();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    const closed = session.close();
    await timers.run(500);
    await closed;
    expect(site.device.streaming).toBe(false);
    const before = got.length;
    site.device.streaming = true;
    site.device.sample();
    await settle();
    expect(got.length).toBe(before);
    expect(states.at(-1)).toBe('idle');
    expect(timers.pending).toBe(0);
  });

  it('that is being closed says so, whatever the device leaves unanswered', async () => {
    const { session, timers, site, states, errors } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.device.deaf = true;
    const rate = session.setRate(20).catch((e: unknown) => e);
    await timers.run(700);
    const closed = session.close();
    await timers.run(3000);
    await closed;
    expect(states).toEqual(['opening', 'greeting', 'streaming', 'closing', 'idle']);
    expect(errors).toEqual([]);
    expect(await rate).toMatchObject({ code: 'port-gone' });
  });

  it('counts what came over all its openings', async () => {
    const { session, timers, site, got } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.garbage(new Uint8Array([0, 255, 13, 10]));
    site.pull();
    site.state.present = true;
    await timers.run(1000);
    site.garbage(new Uint8Array([1, 255, 10]));
    site.device.sample();
    expect(session.frames).toBe(got.length);
    expect(got.filter((t) => t === 'H').length).toBe(2);
    expect(session.strayBytes).toBe(7);
  });

  it('closing while the port is away ends the waiting', async () => {
    const { session, timers, site } = bench();
    const connected = session.connect();
    await timers.run(50);
    await connected;
    site.pull();
    await timers.run(700);
    const closed = session.close();
    await timers.run(500);
    await closed;
    site.state.present = true;
    await timers.run(3000);
    expect(session.state).toBe('idle');
    expect(timers.pending).toBe(0);
  });
});
