import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseDocument } from '../../job/documents.ts';
import type { ReadingMap, RegisterMap } from '../../job/reading-map.ts';
import { busMap, lineMap } from '../../job/testing/maps.ts';
import type { DeviceFrame, SampleFrame } from '../frames.ts';
import { withCrc } from '../modbus/crc16.ts';
import { requestBytes } from '../modbus/frames.ts';
import type { Port, PortEvents } from '../ports/port.ts';
import { createSession } from '../session.ts';
import type { LinkError, LinkState } from '../status.ts';
import { createBusSite, putFloat, registerOf } from '../testing/bus.ts';
import { createManualTimers, settle } from '../testing/timers.ts';
import { createHostClock } from './host-clock.ts';
import { sourceOf } from './opening.ts';
import type { Raw } from './raw.ts';
import { createTranslate } from './translate.ts';

function sessionOver(port: Port, map: ReadingMap, timers = createManualTimers()) {
  const frames: DeviceFrame[] = [];
  const raws: Raw[] = [];
  const states: LinkState[] = [];
  const errors: LinkError[] = [];
  const stray: string[] = [];
  const session = createSession(
    port,
    timers,
    {
      frame(frame, _, raw) {
        frames.push(frame);
        if (raw !== undefined) raws.push(raw);
      },
      stray: (reason, bytes) => stray.push(`${reason} ${bytes.length}`),
      state: (state) => states.push(state),
      error: (error) => errors.push(error),
    },
    {
      rateHz: 50,
      expected: null,
      firstCommand: 1,
      speeds: [map.baud],
      source: sourceOf(map, createHostClock(7)),
    },
  );
  const samples = (): SampleFrame[] => frames.filter((f): f is SampleFrame => f.t === 'S');
  return { session, timers, frames, raws, states, errors, stray, samples };
}

function parsedMap(input: unknown): RegisterMap {
  const parsed = parseDocument('registers', input);
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.issues));
  return parsed.value;
}

function bus(part: Partial<RegisterMap> = {}) {
  const timers = createManualTimers();
  const map = busMap(part);
  const site = createBusSite(timers, map.baud);
  const one = new Map([[registerOf(3, 2), 0]]);
  putFloat(one, 3, 0, 1.5);
  site.units.set(1, one);
  site.units.set(2, new Map([[registerOf(4, 10), 235]]));
  return { site, one, map, ...sessionOver(site.port, map, timers) };
}

const connect = async (
  { session, timers }: Pick<ReturnType<typeof bus>, 'session' | 'timers'>,
  ms = 5000,
) => {
  const connected = session.connect();
  connected.catch(() => undefined);
  await timers.run(ms);
  return connected;
};

describe('a bus in the place of a device', () => {
  it('greets by its map, and brings samples with what they were made of', async () => {
    const b = bus();
    await connect(b, 1000);
    expect(b.states).toEqual(['opening', 'greeting', 'streaming']);
    expect(b.frames.slice(0, 3).map((f) => f.t)).toEqual(['H', 'C', 'C']);
    expect(b.session.greeting).toMatchObject({
      hello: { deviceId: 'BUS-1', bootId: 7 },
      map: { is: 'registers' },
    });
    const [first, second] = b.samples();
    expect(first!.counts[0]).toBe(150_000);
    expect(b.samples().some((s) => s.counts[1] === 23_500)).toBe(true);
    // Numbers go on by one, and the clock is this computer's in 100 us.
    expect(second!.seq - first!.seq).toBe(1);
    expect(second!.tick - first!.tick).toBeCloseTo(500, -2);
    const translate = createTranslate(b.map);
    expect(b.raws.map((raw) => translate(raw).counts)).toEqual(b.samples().map((s) => s.counts));
  });

  it('by the map of a module whose data sheet counts in hexadecimal and tells shares of its span (docs/register-map.md)', async () => {
    const file = new URL('../../../fixtures/maps/invented-module.json', import.meta.url);
    const { version: _, ...map } = parsedMap(JSON.parse(readFileSync(file, 'utf8')));
    const b = bus(map);
    const unit = new Map<string, number>();
    const put = (register: number, value: number) => unit.set(registerOf(4, register), value & 0xffff);
    put(0x0000, 0b0000_0001);
    put(0x0002, 2500);
    put(0x0010, -55);
    put(0x0011, 0x7fff);
    b.site.units.set(0x20, unit);
    await connect(b, 2000);
    const last = (channel: number) => b.samples().findLast((s) => s.counts[channel] != null)?.counts[channel];
    // A quarter of 1.0 MPa in Pa, and 0.001 °C; the open wire's number lies far beyond the span.
    expect([last(0), last(1)]).toEqual([250_000, -5500]);
    expect(b.session.doubts).toMatchObject([{ channel: 2 }]);
    // Not measuring (bit 0 clear) takes all away, a broken sensor (bit 4) the pressure alone.
    for (const [status, comes] of [
      [0b0001_0001, [false, true]],
      [0, [false, false]],
    ] as const) {
      put(0x0000, status);
      await b.timers.run(1500);
      b.frames.length = 0;
      await b.timers.run(1500);
      expect([0, 1].map((c) => last(c) !== undefined)).toEqual(comes);
    }
  });

  it('comes as often as asked, not more often than the map says', async () => {
    const b = bus();
    await connect(b, 1000);
    expect(b.session.rateHz).toBe(20);
    await b.session.setRate(5);
    const before = b.samples().length;
    await b.timers.run(2000);
    expect(b.samples().length - before).toBeCloseTo(10, 0);
  });

  it('a wrong speed or address: nobody answers, and that is said', async () => {
    const b = bus();
    b.site.units.clear();
    await expect(connect(b)).rejects.toMatchObject({ code: 'no-unit' });
  });

  it('a unit without such registers says so; nothing is shown', async () => {
    const b = bus();
    b.one.clear();
    await connect(b, 1000);
    expect(b.samples().every((s) => s.counts[0] === null)).toBe(true);
    expect(b.session.doubts).toEqual([{ code: 'exception', channel: 0, value: 2 }]);
    await b.timers.run(3000);
    expect(b.errors).toEqual([]);
  });

  it('what speaks against a value stands until it is read again, not for one round', async () => {
    const b = bus();
    b.site.units.get(2)!.clear();
    await connect(b, 1000);
    for (let i = 0; i < 10; i++) {
      await b.timers.run(50);
      expect(b.session.doubts).toEqual([{ code: 'exception', channel: 1, value: 2 }]);
    }
    b.site.units.get(2)!.set(registerOf(4, 10), 235);
    await b.timers.run(1000);
    expect(b.session.doubts).toEqual([]);
  });

  it('a unit that falls silent is told, the other one is read on, and when it is back that is over', async () => {
    const b = bus();
    await connect(b, 1000);
    const unit = b.site.units.get(1)!;
    b.site.units.delete(1);
    const before = b.samples().length;
    await b.timers.run(3000);
    expect(b.session.error).toBe('no-unit');
    const dark = b.samples().slice(before + 1);
    expect(dark.length).toBeGreaterThan(1);
    expect(dark.every((s) => s.counts[0] === null && s.counts[1] !== null)).toBe(true);
    b.site.units.set(1, unit);
    await b.timers.run(1000);
    expect(b.session.error).toBeNull();
    expect(b.samples().at(-1)!.counts[0]).toBe(150_000);
    // The numbers of the rounds without an answer are missing.
    const seqs = b.samples().map((s) => s.seq);
    expect(seqs.at(-1)! - seqs[0]!).toBeGreaterThan(seqs.length);
  });

  it('two units of one address garble each other: told as that, bytes kept', async () => {
    const b = bus({ retries: 0 });
    await connect(b, 1000);
    b.site.disturb = (answer) => answer.map((byte, i) => (i % 3 === 1 ? byte ^ 0x55 : byte));
    await b.timers.run(3000);
    expect(b.session.error).toBe('bus-garbled');
    expect(b.stray.length).toBeGreaterThan(5);
    expect(b.session.strayLine).toMatch(/^01 /);
  });

  it('another master on the bus is told', async () => {
    const b = bus();
    await connect(b, 1000);
    b.site.units.clear();
    for (let i = 0; i < 20; i++) {
      b.site.say(requestBytes({ address: 1, fn: 3, register: 0, count: 2 }));
      await b.timers.run(100);
    }
    expect(b.session.error).toBe('other-master');
  });

  it('unplugged and back: the same numbers go on, no new start', async () => {
    const b = bus();
    await connect(b, 1000);
    b.site.pull();
    expect(b.session.state).toBe('lost');
    await b.timers.run(2000);
    const before = b.samples().at(-1)!.seq;
    b.site.replug();
    await b.timers.run(2000);
    expect(b.session.state).toBe('streaming');
    expect(b.samples().at(-1)!.seq).toBeGreaterThan(before);
    expect(b.frames.filter((f) => f.t === 'H').map((f) => f.t === 'H' && f.bootId)).toEqual([7, 7]);
  });

  it('takes no command and keeps no limit, and nothing of the kind goes over the bus', async () => {
    const b = bus();
    await connect(b, 1000);
    await expect(b.session.ask({ verb: 'silence' })).rejects.toMatchObject({ reason: 'no-answer' });
    expect(await b.session.limit(0, 1000, 1000)).toEqual({ kept: false, counts: null, mbar: null });
    expect(b.errors).toEqual([]);
    expect(b.site.asked.every((r) => r.length === 8)).toBe(true);
    await b.session.close();
    const asked = b.site.asked.length;
    await b.timers.run(1000);
    expect(b.site.asked.length).toBe(asked);
  });
});

/** A line that says what a test says. */
function line(part: Parameters<typeof lineMap>[0] = {}) {
  const timers = createManualTimers();
  let to: PortEvents | null = null;
  const port: Port = {
    identity: { kind: 'serial' },
    open: async (events) => {
      to = events;
    },
    write: () => Promise.reject(new Error('nothing is said to a plain line')),
    close: async () => {
      to = null;
    },
  };
  const say = (text: string): void => to?.bytes(new TextEncoder().encode(text));
  return { say, ...sessionOver(port, lineMap(part), timers) };
}

const begun = async (text: string, part: Parameters<typeof lineMap>[0] = {}) => {
  const l = line(part);
  const connected = l.session.connect();
  connected.catch(() => undefined);
  await settle();
  l.say(text);
  await l.timers.run(500);
  return { ...l, connected };
};

describe('a plain line in the place of a device', () => {
  it('is read by its columns, whatever ends its lines', async () => {
    const { say, samples, session } = await begun('boot\r\n1.25,22.5\r\n');
    expect(session.state).toBe('streaming');
    say('1.30,22.6\r1.35,22.7\n');
    expect(samples().map((s) => s.counts)).toEqual([
      [130_000, 22_600],
      [135_000, 22_700],
    ]);
  });

  it('columns that change in mid-run: not read, kept, told; back as it was it goes on', async () => {
    const { say, samples, stray, session, timers, errors } = await begun('\n1.25,22.5\n');
    say('7,1.25,22.5\n');
    expect(samples()).toEqual([]);
    expect(stray.at(-1)).toBe('form 12');
    await timers.run(2000);
    expect(errors).toEqual(['no-columns']);
    expect(session.strayLine).toBe('7,1.25,22.5␊');
    say('1.30,22.6\n');
    expect(session.error).toBeNull();
    expect(samples()).toHaveLength(1);
  });

  it('pressure and temperature in lines of their own: both are read, and neither is missing', async () => {
    const [p, t] = lineMap().channels;
    const named = {
      cells: null,
      channels: [
        { ...p!, key: 'p', column: null },
        { ...t!, key: 't', column: null },
      ],
    };
    const { say, samples, session, timers, errors } = await begun('\np=1.25\n', named);
    for (let i = 0; i < 30; i++) {
      say(i % 2 === 0 ? 't=22.5\n' : 'p=1.30\n');
      await timers.run(100);
    }
    expect(
      samples()
        .slice(-2)
        .map((s) => s.counts),
    ).toEqual([
      [null, 22_500],
      [130_000, null],
    ]);
    expect([session.doubts, errors]).toEqual([[], []]);
  });

  it('absurd numbers and over-long lines are unusable, and nothing of them is lost', async () => {
    const { say, samples, stray, session } = await begun('\n1.25,22.5\n');
    say('1e99,22.5\n');
    expect(samples().at(-1)!.counts).toEqual([null, 22_500]);
    expect(session.doubts).toMatchObject([{ code: 'no-number', channel: 0 }]);
    say(`${'8'.repeat(300)}\n`);
    expect(stray.slice(-2)).toEqual(['long 240', 'long 61']);
  });

  it('lines that are none of the map: connecting says so and names the last one', async () => {
    const { connected, timers, session } = await begun('hello\nhello world\n');
    await timers.run(5000);
    await expect(connected).rejects.toMatchObject({ code: 'no-columns' });
    expect(session.strayLine).toBe('hello world␊');
  });

  it('nothing at all, and bytes at a wrong speed', async () => {
    const silent = await begun('');
    await silent.timers.run(5000);
    await expect(silent.connected).rejects.toMatchObject({ code: 'no-hello' });
    const wrong = await begun('\n\u0001\u0002\u0003\u0004\u0005\u0006\u0010\u0011\n');
    await wrong.timers.run(5000);
    await expect(wrong.connected).rejects.toMatchObject({ code: 'speed' });
  });
});

it('an answer that comes after its time is never another request’s', async () => {
  const b = bus({ retries: 0, answerMs: 50 });
  await connect(b, 1000);
  b.site.disturb = () => null;
  const late = withCrc([2, 4, 2, 0x7f, 0xff]);
  for (let i = 0; i < 5; i++) {
    await b.timers.run(90);
    b.site.say(late);
  }
  expect(b.samples().every((s) => s.counts[1] === null || s.counts[1] === 23_500)).toBe(true);
});
