import { expect, it } from 'vitest';
import { lineMap } from '../../job/testing/maps.ts';
import type { Services } from '../context.ts';
import { knownDeviceIn, knownDevices } from './known-devices.ts';

const body = { speeds: [500_000, 9600], deviceId: 'SB-0042', usbVendorId: 0x1a86, usbProductId: null };

it('a device is known by what it answered last, and anything else is none', () => {
  expect(knownDeviceIn(body)).toEqual({
    deviceId: 'SB-0042',
    baudRate: 500_000,
    port: { usbVendorId: 0x1a86, usbProductId: null },
    besideOf: null,
  });
  const map = lineMap();
  expect(knownDeviceIn({ ...body, map, besideOf: 'SB-7' })).toMatchObject({
    port: { map },
    besideOf: 'SB-7',
  });
  const others = [
    null,
    7,
    { speeds: [500_000] },
    { ...body, deviceId: '<b>' },
    { ...body, speeds: [] },
    { ...body, speeds: ['9600'] },
    { ...body, usbVendorId: 70_000 },
    { ...body, map: { is: 'columns' } },
    { ...body, besideOf: 7 },
  ];
  for (const other of others) expect(knownDeviceIn(other)).toBeNull();
});

it('newest first; a store that fails knows none', async () => {
  const asking = (answer: () => Promise<unknown>) => ({ ask: answer }) as unknown as Services;
  const known = await knownDevices(
    asking(async () => [
      { savedUtcMs: 1, body },
      { savedUtcMs: 3, body: { ...body, deviceId: 'SB-2' } },
      { savedUtcMs: 2, body: null },
    ]),
  );
  expect(known.map((k) => k.deviceId)).toEqual(['SB-2', 'SB-0042']);
  expect(await knownDevices(asking(() => Promise.reject(new Error('no disk'))))).toEqual([]);
});
