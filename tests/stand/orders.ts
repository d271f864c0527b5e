import type { EngineNews } from '../../src/engine/messages.ts';
import type { RigDeviceOptions } from '../../src/rig/device.ts';
import type { RigFault, RigHand } from '../../src/rig/faults.ts';
import type { WatchView } from '../../src/watch/view.ts';

/** What the stand asks of the hook in the engine's worker. */
export type Order =
  /** Time stands still. */
  | { readonly o: 'hold' }
  /** So much time passes; `until` is the text of a function of the view that stops it. */
  | { readonly o: 'pass'; readonly ms: number; readonly until: string | null }
  /** A simulated device is plugged in behind Web Serial. */
  | { readonly o: 'attach'; readonly device: RigDeviceOptions }
  | { readonly o: 'hand'; readonly hand: RigHand }
  | { readonly o: 'fault'; readonly fault: RigFault }
  /** The disk refuses what is written, by an error of that name; null: it takes it again. */
  | { readonly o: 'refuse'; readonly name: string | null };

export interface Asked {
  readonly stand: number;
  readonly order: Order;
}

export interface Done {
  readonly stand: number;
  readonly ok: boolean;
  /** Of 'pass': whether it was stopped; else null. Of a failure its text. */
  readonly value: unknown;
}

/** What the worker says to the page: the engine's own news, with the wall clock of the moment beside it. */
export type Stamped = EngineNews & { readonly standUtcMs?: number };

export type Until = (view: WatchView) => boolean;

/** Wall clock at which every stand begins: 14 April 2026, 08:05 UTC. */
export const START_UTC_MS = Date.UTC(2026, 3, 14, 8, 5);
