import type { PortIds } from '../../engine/messages.ts';
import { parseReadingMap } from '../../job/documents.ts';
import type { Services } from '../context.ts';

/** A device that answered here before, with its port and the speed at which it did. */
export interface KnownDevice {
  readonly deviceId: string;
  /** Bits a second. */
  readonly baudRate: number;
  /** With the map by which it was read, where it does not speak the protocol. */
  readonly port: PortIds;
  /** It was a second adapter, beside the device of that name; null: it was the first. */
  readonly besideOf: string | null;
}

const DEVICE_ID = /^[A-Za-z0-9._-]{1,16}$/;
const isUsb = (value: unknown): value is number | null =>
  value === null || (typeof value === 'number' && Number.isInteger(value) && value >= 0 && value <= 0xffff);

/** What the store holds of one; null: kept by an earlier version, or damaged. */
export function knownDeviceIn(body: unknown): KnownDevice | null {
  if (typeof body !== 'object' || body === null) return null;
  const { deviceId, speeds, usbVendorId, usbProductId, map, besideOf } = body as Readonly<
    Record<string, unknown>
  >;
  const baudRate: unknown = Array.isArray(speeds) ? speeds[0] : null;
  if (typeof deviceId !== 'string' || !DEVICE_ID.test(deviceId)) return null;
  if (typeof baudRate !== 'number' || !Number.isInteger(baudRate) || baudRate < 1) return null;
  if (!isUsb(usbVendorId) || !isUsb(usbProductId)) return null;
  const read = map === undefined ? null : parseReadingMap(map);
  if (read?.ok === false || (besideOf !== undefined && typeof besideOf !== 'string')) return null;
  const port = { usbVendorId, usbProductId, ...(read === null ? {} : { map: read.value }) };
  return { deviceId, baudRate, port, besideOf: besideOf ?? null };
}

/** Devices that answered here, newest first. What cannot be read is no reason not to connect. */
export async function knownDevices(app: Pick<Services, 'ask'>): Promise<readonly KnownDevice[]> {
  try {
    const stored = await app.ask({ q: 'documents', kind: 'speed' });
    return [...stored]
      .sort((a, b) => b.savedUtcMs - a.savedUtcMs)
      .map(({ body }) => knownDeviceIn(body))
      .filter((known) => known !== null);
  } catch {
    return [];
  }
}
