import { FakeSerialPort } from '../../../src/link/ports/testing/fake-serial.ts';
import { createRigDevice, type RigDevice, type RigDeviceOptions } from '../../../src/rig/device.ts';
import type { Clock } from './clock.ts';

/** What the port of the simulated site is known by. */
export const USB_IDS = { usbVendorId: 0x1209, usbProductId: 0x0001 } as const;

/** Bytes come in bunches as from a USB bridge, not one by one. */
const BUNCH_MS = 20;

/** The browser's serial ports in the worker, with a simulated device of a simulated site on the far end. */
export interface SerialSite extends EventTarget {
  getPorts(): Promise<FakeSerialPort[]>;
  /** Plugs a device in, in the place of the one that is there. */
  attach(options: RigDeviceOptions): void;
  /** @throws Error where none was attached */
  device(): RigDevice;
}

export function createSerialSite(clock: Clock): SerialSite {
  let device: RigDevice | null = null;
  let port: FakeSerialPort | null = null;
  let attachedMs = 0;
  const site = new EventTarget() as SerialSite;

  function say(type: 'connect' | 'disconnect', of: FakeSerialPort): void {
    const event = new Event(type);
    Object.defineProperty(event, 'target', { value: of });
    site.dispatchEvent(event);
  }

  function plug(): void {
    port = new FakeSerialPort(USB_IDS, (bytes) => {
      catchUp();
      device?.receive(bytes);
    });
    say('connect', port);
  }

  function pull(): void {
    const was = port;
    port = null;
    if (was === null) return;
    was.pull();
    say('disconnect', was);
  }

  function catchUp(): void {
    device?.advance((clock.nowMs() - attachedMs) / 1000);
  }

  clock.after(
    BUNCH_MS,
    () => {
      if (device === null) return;
      catchUp();
      const bytes = device.take();
      if (!device.plugged) pull();
      else if (port === null) plug();
      if (bytes.length > 0) port?.deliver(bytes);
    },
    BUNCH_MS,
  );

  site.getPorts = async () => (port === null ? [] : [port]);
  site.attach = (options) => {
    pull();
    attachedMs = clock.nowMs();
    device = createRigDevice(options);
    plug();
  };
  site.device = () => {
    if (device === null) throw new Error('no device is attached');
    return device;
  };
  return site;
}
