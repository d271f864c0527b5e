import { describe, expect, it } from 'vitest';
import type { Port } from './ports/port.ts';
import { createSession } from './session.ts';
import { createScriptedPort } from './testing/device.ts';
import { createManualTimers, settle } from './testing/timers.ts';

const OPTIONS = { rateHz: 50, expected: null, firstCommand: 100 };

function sink() {
  const told = { states: [] as string[], errors: [] as string[] };
  return {
    told,
    frame() {},
    stray() {},
    state: (s: string) => void told.states.push(s),
    error: (e: string) => void told.errors.push(e),
  };
}

describe('a port that hangs without a word', () => {
  it('is closed and opened again until the device answers', async () => {
    const timers = createManualTimers();
    const site = createScriptedPort();
    const heard = sink();
    const session = createSession(site.port, timers, heard, OPTIONS);
    const done = session.connect();
    await timers.run(100);
    await done;
    // A stale handle: neither bytes nor a 'disconnect'; a new opening would heal it.
    site.device.deaf = true;
    await timers.run(10_000);
    expect(site.state.opened).toBeGreaterThan(1);
    expect(heard.told.states).toContain('lost');
    site.device.deaf = false;
    await timers.run(10_000);
    expect(session.state).toBe('streaming');
  });

  it('is left alone while bytes come', async () => {
    const timers = createManualTimers();
    const site = createScriptedPort();
    const session = createSession(site.port, timers, sink(), OPTIONS);
    const done = session.connect();
    await timers.run(100);
    await done;
    for (let i = 0; i < 200; i++) {
      site.device.sample();
      await timers.run(100);
    }
    expect(site.state.opened).toBe(1);
  });
});

describe('an opening that never settles', () => {
  const stuck = (n: { opened: number }): Port => ({
    identity: { kind: 'serial' },
    open() {
      n.opened++;
      return new Promise<void>(() => {});
    },
    async write() {},
    async close() {},
  });

  it('is given up by itself', async () => {
    const timers = createManualTimers();
    const n = { opened: 0 };
    const session = createSession(stuck(n), timers, sink(), OPTIONS);
    const done = session.connect().catch((cause: unknown) => cause);
    await timers.run(20_000);
    expect(await done).toMatchObject({ code: 'open-failed' });
    expect(session.state).toBe('idle');
  });

  it('ends at once when the session is closed', async () => {
    const timers = createManualTimers();
    const n = { opened: 0 };
    const session = createSession(stuck(n), timers, sink(), OPTIONS);
    const done = session.connect().catch((cause: unknown) => cause);
    await settle();
    await session.close();
    await settle();
    expect(await done).toMatchObject({ code: 'port-gone' });
    expect(n.opened).toBe(1);
  });
});
