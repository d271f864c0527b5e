import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { choosePort } from './serial.ts';

const port = (usbVendorId: number, connected = true) => ({
  connected,
  getInfo: () => ({ usbVendorId, usbProductId: 1 }),
});
const ids = (usbVendorId: number) => ({ usbVendorId, usbProductId: 1 });

let granted: ReturnType<typeof port>[] = [];
const requestPort = vi.fn<(options?: object) => Promise<unknown>>();

beforeEach(() => {
  granted = [];
  requestPort.mockReset();
  requestPort.mockImplementation(async () => granted.at(-1));
  vi.stubGlobal('navigator', { ...navigator, serial: { getPorts: async () => granted, requestPort } });
});
afterEach(() => {
  vi.unstubAllGlobals();
});

it('the one port that is there is taken without asking, unless another one is wanted', async () => {
  granted = [port(1, false), port(2)];
  expect(await choosePort(false)).toMatchObject({ index: 1, ...ids(2) });
  expect(requestPort).not.toHaveBeenCalled();
  await choosePort(true);
  // Without a filter: the chooser shows all ports.
  expect(requestPort.mock.calls).toEqual([[]]);
});

it('of several the one that a known device answered on last is taken, where it is there once', async () => {
  granted = [port(1), port(2), port(3)];
  expect(await choosePort(false, [ids(9), ids(3), ids(1)])).toMatchObject({ index: 2, ...ids(3) });
  expect(requestPort).not.toHaveBeenCalled();
  await choosePort(true, [ids(3)]);
  await choosePort(false, [ids(9)]);
  await choosePort(false);
  expect(requestPort).toHaveBeenCalledTimes(3);
});

it('of two alike nobody can tell which it was: the chooser opens, and closing it is no error', async () => {
  granted = [port(3), port(3), port(1)];
  requestPort.mockRejectedValue(Object.assign(new Error('none chosen'), { name: 'NotFoundError' }));
  expect(await choosePort(false, [ids(3), ids(1)])).toBeNull();
  expect(requestPort).toHaveBeenCalledOnce();
});

it('beside a port that is read the one other port is taken; of two like it the chooser tells which', async () => {
  granted = [port(1), port(2)];
  expect(await choosePort(false, [], ids(1))).toMatchObject({ index: 1, ...ids(2) });
  expect(requestPort).not.toHaveBeenCalled();
  granted = [port(1), port(1)];
  await choosePort(false, [], ids(1));
  granted = [port(1)];
  await choosePort(false, [], ids(1));
  expect(requestPort).toHaveBeenCalledTimes(2);
});
