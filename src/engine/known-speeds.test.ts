import { describe, expect, it } from 'vitest';
import { FakeSerial } from '../link/ports/testing/fake-serial.ts';
import { createWebSerialPort, type SerialHost } from '../link/ports/webserial.ts';
import { USUAL_SPEEDS } from '../link/speeds.ts';
import { createMemoryDocuments } from '../record/stores/memory-documents.ts';
import { StoreError } from '../record/stores/store.ts';
import { createHostBench } from './testing/bench.ts';

const IDS = { usbVendorId: 0x1a86, usbProductId: 0x7523 };
const connectTo = (ids: { usbVendorId: number; usbProductId: number }) =>
  ({ q: 'connect', port: { kind: 'serial', index: 0, ...ids } }) as const;

/** An engine with a device at this speed behind a converter. */
function site(speed: number | null, documents = createMemoryDocuments(), ids = IDS) {
  const serial = new FakeSerial(ids);
  serial.speed = speed;
  const b = createHostBench({
    documents,
    openPort: async (choice, on) => {
      if (choice.kind !== 'serial') throw new Error('only a serial port is here');
      return { port: createWebSerialPort(serial as unknown as SerialHost, choice, on), rig: null, speed: 1 };
    },
  });
  return { b, serial, documents, connect: () => b.ask(connectTo(ids), 30_000) };
}

describe('the speed of a serial line', () => {
  it('is found, shown, and remembered for ports of its kind', async () => {
    const first = site(57_600);
    await first.connect();
    await first.b.run(100);
    expect(first.b.moment().link).toMatchObject({ baudRate: 57_600, state: 'streaming', error: null });
    expect(first.serial.openedAt[0]).toBe(500_000);
    // Another start of the program on the same tablet.
    const second = site(57_600, first.documents);
    await second.connect();
    expect(second.serial.openedAt).toEqual([57_600]);
    const other = site(115_200, first.documents, { usbVendorId: 1, usbProductId: 2 });
    await other.connect();
    expect(other.serial.openedAt[0]).toBe(USUAL_SPEEDS[0]);
  });

  it('of several devices behind like converters is the newest that worked, then the others', async () => {
    const { documents } = site(null);
    for (const speed of [57_600, 115_200, 57_600]) await site(speed, documents).connect();
    const last = site(115_200, documents);
    await last.connect();
    expect(last.serial.openedAt.filter((s, i, all) => s !== all[i - 1])).toEqual([57_600, 115_200]);
  });

  it('a memory that is damaged, that fails or that never answers costs half a second and no connection', async () => {
    for (const body of [null, 7, { speeds: 'x' }, { speeds: [0.5, -1, '9600', 1e12] }]) {
      const damaged = createMemoryDocuments();
      await damaged.put({ kind: 'speed', id: 'usb-1a86-7523', revision: 0, savedUtcMs: 0, body });
      const b = site(500_000, damaged);
      await b.connect();
      expect(b.serial.openedAt).toEqual([500_000]);
      expect((await damaged.get('speed', 'usb-1a86-7523'))?.body).toEqual({
        speeds: [500_000],
        deviceId: 'sb-7',
        ...IDS,
      });
    }
    const memory = createMemoryDocuments();
    const failing = async () => {
      throw new StoreError('failed', 'no disk');
    };
    const never = () => new Promise<never>(() => {});
    for (const get of [failing, never]) {
      const b = site(500_000, { ...methods(memory), get });
      await b.connect();
      expect(b.serial.openedAt).toEqual([500_000]);
    }
  });
});

/** The methods of a store as properties, so that one can be replaced. */
function methods(store: ReturnType<typeof createMemoryDocuments>) {
  return {
    get: store.get.bind(store),
    list: store.list.bind(store),
    put: store.put.bind(store),
    remove: store.remove.bind(store),
  };
}
