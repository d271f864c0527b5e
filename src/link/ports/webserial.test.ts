import { describe, expect, it } from 'vitest';
import { createSession } from '../session.ts';
import type { LinkState } from '../status.ts';
import { createManualTimers } from '../testing/timers.ts';
import { createPortClaims } from './claims.ts';
import { portContract } from './testing/contract.ts';
import { FakeSerial } from './testing/fake-serial.ts';
import { createWebSerialPort, type SerialHost } from './webserial.ts';

const ids = { usbVendorId: 0x2e8a, usbProductId: 0x000a };
const choice = { index: 0, ...ids };
const FIRST = { baudRate: 500_000, turn: 0 };

portContract('Web Serial (a strict fake)', (timers) => {
  const serial = new FakeSerial(ids);
  let heard = false;
  return {
    port: createWebSerialPort(serial as unknown as SerialHost, choice, timers),
    stir() {
      heard ||= serial.device.heard.length > 0;
      serial.device.send(serial.device.hello);
    },
    heard: () => heard,
    unplug: () => serial.pull(),
    replug: () => serial.plug(),
    glitch: () => serial.current?.glitch('FramingError'),
  };
});

describe('Web Serial', () => {
  const none = { bytes() {}, recovered() {}, gone() {} };

  it('asks for a large buffer', async () => {
    const timers = createManualTimers();
    const serial = new FakeSerial(ids);
    const port = createWebSerialPort(serial as unknown as SerialHost, choice, timers);
    await port.open(none, FIRST);
    expect(serial.current?.bufferSize).toBeGreaterThanOrEqual(65_536);
  });

  it('rejects with port-busy when the port is open elsewhere', async () => {
    const timers = createManualTimers();
    const serial = new FakeSerial(ids);
    await serial.current?.open({ baudRate: 9600 });
    const port = createWebSerialPort(serial as unknown as SerialHost, choice, timers);
    await expect(port.open(none, FIRST)).rejects.toMatchObject({ code: 'port-busy' });
  });

  it('tries a refused opening again, then says open-failed', async () => {
    const timers = createManualTimers();
    const serial = new FakeSerial(ids);
    serial.current!.refusals = 2;
    const port = createWebSerialPort(serial as unknown as SerialHost, choice, timers);
    const open = port.open(none, FIRST);
    await timers.run(1000);
    await open;
    await port.close();
    serial.current!.refusals = 9;
    const failed = expect(port.open(none, FIRST)).rejects.toMatchObject({ code: 'open-failed' });
    await timers.run(1000);
    await failed;
  });

  it('takes a hang-up without an event, and an event before the read fails, as gone, once', async () => {
    for (const order of ['event-first', 'read-first'] as const) {
      const timers = createManualTimers();
      const serial = new FakeSerial(ids);
      const port = createWebSerialPort(serial as unknown as SerialHost, choice, timers);
      let gone = 0;
      await port.open({ ...none, gone: () => gone++ }, FIRST);
      serial.pull(order);
      await timers.run(100);
      expect(gone).toBe(1);
    }
    const timers = createManualTimers();
    const serial = new FakeSerial(ids);
    const port = createWebSerialPort(serial as unknown as SerialHost, choice, timers);
    let gone = 0;
    await port.open({ ...none, gone: () => gone++ }, FIRST);
    serial.current?.pull();
    await timers.run(100);
    expect(gone).toBe(1);
  });

  it('finds the device by the handshake among ports that look alike, after a replug', async () => {
    const timers = createManualTimers();
    const serial = new FakeSerial({});
    const port = createWebSerialPort(
      serial as unknown as SerialHost,
      { index: 0, usbVendorId: null, usbProductId: null },
      timers,
    );
    const states: LinkState[] = [];
    const session = createSession(
      port,
      timers,
      { frame() {}, stray() {}, state: (s) => states.push(s), error() {} },
      { rateHz: 50, expected: null, firstCommand: 1 },
    );
    const connected = session.connect();
    await timers.run(500);
    await connected;
    session.expect({ deviceId: 'sb-7', channels: [] });
    serial.pull();
    await timers.run(100);
    expect(session.state).toBe('lost');
    serial.addStranger();
    serial.plug();
    await timers.run(20_000);
    expect(session.state).toBe('streaming');
    const closed = session.close();
    await timers.run(3000);
    await closed;
    expect(session.state).toBe('idle');
  });

  it('of ports that are all alike opens the chosen one first, then each in its turn', async () => {
    for (const [turn, openings] of [
      [0, 0],
      [1, 1],
      [2, 0],
      [3, 1],
    ] as const) {
      const serial = new FakeSerial(ids);
      // The chosen one is a stranger's; the device's own comes second.
      serial.addStranger();
      const port = createWebSerialPort(serial as unknown as SerialHost, choice, createManualTimers());
      await port.open(none, { ...FIRST, turn });
      expect(serial.openedAt, `turn ${turn}`).toHaveLength(openings);
    }
  });

  it('opens what has just come, whatever port was chosen or has its turn', async () => {
    const timers = createManualTimers();
    const serial = new FakeSerial(ids);
    const port = createWebSerialPort(serial as unknown as SerialHost, choice, timers);
    await port.open(none, FIRST);
    serial.pull();
    await timers.run(100);
    for (let i = 0; i < 2; i++) serial.addStranger();
    serial.plug();
    serial.openedAt.length = 0;
    // In turn it would be a stranger's.
    await port.open(none, { ...FIRST, turn: 1 });
    expect(serial.openedAt).toEqual([FIRST.baudRate]);
    await port.close();
  });
});

describe('two adapters that call themselves the same', () => {
  const none = { bytes() {}, recovered() {}, gone() {} };
  const again = { baudRate: 500_000, turn: 1 };

  /** Both on one computer, each with its port open. */
  async function both(map?: object) {
    const timers = createManualTimers();
    const [a, b] = [new FakeSerial(ids), new FakeSerial(ids)];
    const events = new EventTarget();
    const host = {
      getPorts: async () => [...(await a.getPorts()), ...(await b.getPorts())],
      addEventListener: events.addEventListener.bind(events),
      removeEventListener: events.removeEventListener.bind(events),
    } as unknown as SerialHost;
    const claims = createPortClaims<SerialPort>();
    const first = createWebSerialPort(
      host,
      { ...choice, ...(map === undefined ? {} : { map }) },
      timers,
      claims,
    );
    const second = createWebSerialPort(host, { ...choice, index: 1 }, timers, claims);
    await first.open(none, FIRST);
    await second.open(none, FIRST);
    return { a, b, first, second, timers };
  }

  it('the port of the one is never opened for the other', async () => {
    const { first, a } = await both({});
    await first.close();
    a.pull();
    // Only the other's is there.
    await expect(first.open(none, again)).rejects.toMatchObject({ code: 'port-gone' });
    await expect(first.open(none, { ...FIRST, turn: 0 })).rejects.toMatchObject({ code: 'same-port' });
  });

  it('away together, where one has no name, neither is taken for the other', async () => {
    const { first, second, a, b, timers } = await both({});
    for (const port of [first, second]) await port.close();
    a.pull();
    b.pull();
    b.plug();
    await expect(first.open(none, again)).rejects.toMatchObject({ code: 'alike-ports' });
    await expect(second.open(none, again)).rejects.toMatchObject({ code: 'alike-ports' });
    // Chosen by hand it is known.
    await timers.run(1000);
    await first.open(none, FIRST);
  });

  it('where both say who they are they are tried in turn, as ever', async () => {
    const { first, second, a, b, timers } = await both();
    for (const port of [first, second]) await port.close();
    a.pull();
    b.pull();
    b.plug();
    await timers.run(1000);
    await first.open(none, again);
  });
});
