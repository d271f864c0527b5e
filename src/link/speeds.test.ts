import { describe, expect, it } from 'vitest';
import { FakeSerial } from './ports/testing/fake-serial.ts';
import { createWebSerialPort, type SerialHost } from './ports/webserial.ts';
import { createSession } from './session.ts';
import { mostRateHz, speedOrder, USUAL_SPEEDS } from './speeds.ts';
import { createManualTimers } from './testing/timers.ts';

const NONE = { usbVendorId: null, usbProductId: null };

function bench(speeds: readonly number[] = USUAL_SPEEDS, index = 0) {
  const timers = createManualTimers();
  const serial = new FakeSerial({});
  const port = createWebSerialPort(serial as unknown as SerialHost, { index, ...NONE }, timers);
  const told: string[] = [];
  const session = createSession(
    port,
    timers,
    { frame() {}, stray() {}, state: (s) => told.push(s), error: (e) => told.push(e) },
    { rateHz: 50, expected: null, firstCommand: 1, speeds },
  );
  /** Connects; how it ended and after how long. */
  const connect = async (mostMs = 60_000) => {
    let end: unknown = null;
    const done = session.connect().then(
      () => {
        end = 'connected';
      },
      (cause: { code: string }) => {
        end = cause.code;
      },
    );
    let ms = 0;
    for (; end === null && ms < mostMs; ms += 50) await timers.run(50);
    await done;
    return { end, ms };
  };
  return { timers, serial, session, told, connect };
}

describe('the order of speeds', () => {
  it('begins with what worked, the newest first, and holds each once', () => {
    expect(speedOrder([])).toEqual(USUAL_SPEEDS);
    const order = speedOrder([9600, 38_400]);
    expect(order.slice(0, 3)).toEqual([9600, 38_400, 500_000]);
    expect(new Set(order).size).toBe(order.length);
  });

  it('begins with what the specification advises', () => {
    expect(USUAL_SPEEDS.slice(0, 2)).toEqual([500_000, 115_200]);
  });
});

describe('a first connection', () => {
  it('finds the device at each usual speed, and says only that it asks', async () => {
    for (const [n, speed] of USUAL_SPEEDS.entries()) {
      const { serial, session, told, connect } = bench();
      serial.speed = speed;
      const { end, ms } = await connect();
      expect(end).toBe('connected');
      expect(session.baudRate).toBe(speed);
      expect(serial.openedAt.filter((s, i, all) => s !== all[i - 1])).toEqual(USUAL_SPEEDS.slice(0, n + 1));
      expect(told).toEqual(['opening', 'greeting', 'streaming']);
      // 4 s at the first, 2.8 s at each other, and what a port needs to be given back.
      expect(ms).toBeLessThan(n === 0 ? 500 : 4500 + (n - 1) * 3300 + 500);
      await session.close();
    }
  });

  it('stays on the port that was chosen, where several fit', async () => {
    const { serial, connect } = bench(USUAL_SPEEDS, 1);
    serial.speed = 115_200;
    const chosen = serial.current!;
    serial.addStranger();
    expect((await connect()).end).toBe('connected');
    expect(chosen.readable).not.toBeNull();
  });

  it('passes over a speed that the converter does not know', async () => {
    const { serial, session, connect } = bench();
    serial.speed = 115_200;
    serial.current!.unknown = [500_000, 1_000_000];
    expect((await connect()).end).toBe('connected');
    expect(session.baudRate).toBe(115_200);
  });

  it('says that nothing answers only after each speed was tried, and that a port does not open', async () => {
    const silent = bench();
    silent.serial.device.deaf = true;
    const { end, ms } = await silent.connect();
    expect(end).toBe('no-hello');
    expect(silent.serial.openedAt).toEqual(expect.arrayContaining([...USUAL_SPEEDS]));
    expect(ms).toBeLessThan(22_000);
    expect(silent.session.state).toBe('idle');
    expect(silent.session.strayLine).toBeNull();
    const dead = bench();
    dead.serial.current!.unknown = USUAL_SPEEDS;
    expect((await dead.connect()).end).toBe('open-failed');
  });

  it('ends when it is closed in between, and opens nothing afterwards', async () => {
    for (const afterMs of [1000, 4050, 5000]) {
      const { timers, serial, session } = bench();
      serial.device.deaf = true;
      const done = session.connect().catch((cause: unknown) => cause);
      await timers.run(afterMs);
      const closed = session.close();
      await timers.run(3000);
      await closed;
      expect(await done).toMatchObject({ code: 'port-gone' });
      const opened = serial.openedAt.length;
      await timers.run(30_000);
      expect(serial.openedAt.length).toBe(opened);
      expect(session.state).toBe('idle');
      expect(timers.pending).toBe(0);
    }
  });
});

describe('bytes that are no frames', () => {
  /** A device that hears nothing of ours and says the same again and again. */
  async function talking(line: string, speed: number | null = null) {
    const b = bench();
    b.serial.device.deaf = true;
    b.serial.speed = speed;
    let on = true;
    const talk = (): void => {
      if (!on) return;
      b.serial.current?.deliver(new TextEncoder().encode(line));
      b.timers.after(100, talk);
    };
    talk();
    const { end, ms } = await b.connect();
    on = false;
    return { ...b, end, ms };
  }

  it('are told by what is the matter with them, with the last line', async () => {
    const cr = await talking('R,1,ok,,1d1c07a3\r\n');
    expect([cr.end, cr.session.strayLine]).toEqual(['line-ends', 'R,1,ok,,1d1c07a3␍␊']);
    const check = await talking('R,1,ok,,00000000\n');
    expect([check.end, check.session.strayLine]).toEqual(['check', 'R,1,ok,,00000000␊']);
    // What can be read was sent at this speed: no other is tried.
    for (const { ms, serial } of [cr, check]) {
      expect(ms).toBeLessThan(5000);
      expect(new Set(serial.openedAt).size).toBe(1);
    }
    const text = await talking('temp=21.5\n');
    expect([text.end, text.session.strayLine]).toEqual(['not-protocol', 'temp=21.5␊']);
    const speed = await talking('S,1,2,3,4,00000000\n', 31_250);
    expect(speed.end).toBe('speed');
    expect(speed.session.strayLine?.length).toBeGreaterThan(0);
  });

  it('frames that come while no command is answered are a device that does not hear', async () => {
    const b = bench();
    b.serial.device.deaf = true;
    b.serial.device.streaming = true;
    const sample = (): void => {
      b.serial.device.sample();
      if (b.session.state !== 'idle') b.timers.after(20, sample);
    };
    b.timers.after(1, sample);
    expect((await b.connect()).end).toBe('deaf');
    expect(new Set(b.serial.openedAt).size).toBe(1);
  });

  it('a hello that stays incomplete is told as that', async () => {
    const b = bench();
    const { greet } = b.serial.device;
    b.serial.device.greet = () => b.serial.device.send({ ...b.serial.device.hello, channels: 2 });
    expect((await b.connect()).end).toBe('half-hello');
    b.serial.device.greet = greet;
    expect((await b.connect()).end).toBe('connected');
    expect(b.session.error).toBeNull();
  });

  it('are told in the middle of a stream, too, and no longer when frames come again', async () => {
    const b = bench();
    expect((await b.connect()).end).toBe('connected');
    const { device } = b.serial;
    device.deaf = true;
    for (let i = 0; i < 50; i++) {
      b.serial.current?.deliver(new TextEncoder().encode('R,1,ok,,1d1c07a3\r\n'));
      await b.timers.run(50);
    }
    expect(b.session.error).toBe('line-ends');
    expect(b.session.strayLine).toBe('R,1,ok,,1d1c07a3␍␊');
    device.deaf = false;
    for (let i = 0; i < 50; i++) {
      device.sample();
      await b.timers.run(50);
    }
    expect(b.session.error).toBeNull();
    expect(b.session.strayLine).toBeNull();
  });
});

it('a line carries what the protocol’s own example says, and a device that keeps a tenth free is under it', () => {
  // SPEC.md, "Rate": 39 + 5 + 5 bytes, 918 Hz at 500 000 baud, 211 at 115 200 and 17 at 9600 with a tenth kept free.
  const channels = [
    { rawLo: 0, rawHi: 4095 },
    { rawLo: 0, rawHi: 4095 },
  ];
  for (const [baud, hz] of [
    [500_000, 918],
    [115_200, 211],
    [9600, 17],
  ] as const)
    expect(Math.floor(0.9 * mostRateHz(channels, baud))).toBe(hz);
  expect(mostRateHz(channels, 9600)).toBeLessThan(1000);
});
