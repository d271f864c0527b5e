import { speedOrder } from '../link/speeds.ts';
import { pause } from '../link/timers.ts';
import type { HostDeps } from './deps.ts';
import type { SerialChoice } from './messages.ts';

/** The speeds of a serial line that worked here and who answered last, remembered by the USB numbers of the port. */
export interface KnownSpeeds {
  /** Speeds to try, bits a second, in this order. A memory that cannot be asked in time is none. */
  order(choice: SerialChoice, asSecond?: boolean): Promise<readonly number[]>;
  /**
   * Remembers that this device answered at it, and by which map it was read. What cannot be kept is found again the next time.
   * @param besideOf as a second adapter, beside that device
   */
  worked(choice: SerialChoice, baudRate: number | null, deviceId: string, besideOf?: string): Promise<void>;
}

/** Converters of one kind may have several devices behind them, each at its speed. */
const KEPT = 4;
/** A store that does not answer by then must not hold up a connection. */
const ASK_MS = 500;

const hex = (n: number | null): string => (n === null ? 'none' : n.toString(16).padStart(4, '0'));
/** Two of a kind, one of them a second adapter, are remembered each for itself. */
const idOf = ({ usbVendorId, usbProductId }: SerialChoice, asSecond: boolean): string =>
  `${asSecond ? 'beside' : 'usb'}-${hex(usbVendorId)}-${hex(usbProductId)}`;

const isSpeed = (value: unknown): value is number =>
  typeof value === 'number' && Number.isInteger(value) && value >= 300 && value <= 20_000_000;

function speedsIn(body: unknown): readonly number[] {
  const kept = (body as { speeds?: unknown } | null)?.speeds;
  return Array.isArray(kept) ? kept.filter(isSpeed).slice(0, KEPT) : [];
}

export function createKnownSpeeds(deps: Pick<HostDeps, 'documents' | 'timers' | 'utcMs'>): KnownSpeeds {
  const resting = (choice: SerialChoice, asSecond: boolean) =>
    deps.documents.get('speed', idOf(choice, asSecond));
  return {
    async order(choice, asSecond = false) {
      const found = resting(choice, asSecond).catch(() => null);
      const document = await Promise.race([found, pause(deps.timers, ASK_MS).then(() => null)]);
      return speedOrder(speedsIn(document?.body ?? null));
    },
    async worked(choice, baudRate, deviceId, besideOf) {
      const asSecond = besideOf !== undefined;
      try {
        const document = await resting(choice, asSecond);
        const before = speedsIn(document?.body ?? null);
        const now = baudRate === null ? [] : [baudRate];
        const speeds = [...new Set([...now, ...before])].slice(0, KEPT);
        const { usbVendorId, usbProductId, map } = choice;
        await deps.documents.put({
          kind: 'speed',
          id: idOf(choice, asSecond),
          revision: document?.revision ?? 0,
          savedUtcMs: deps.utcMs(),
          body: {
            speeds,
            deviceId,
            usbVendorId,
            usbProductId,
            ...(map === undefined ? {} : { map }),
            ...(besideOf === undefined ? {} : { besideOf }),
          },
        });
      } catch {
        // Nothing hangs on it.
      }
    },
  };
}
