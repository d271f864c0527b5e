import type { Port } from '../link/ports/port.ts';
import type { Timers } from '../link/timers.ts';
import type { DocumentStore, FileStore } from '../record/stores/store.ts';
import type { RigSaid } from '../rig/truth-log.ts';
import type { FromEngine, PortChoice, RigFault, RigHand, RigView } from './messages.ts';
import type { StoreFaults } from './worker/stores.ts';

/** Hands and faults of the simulated site, and its truth for practice mode's picture. */
export interface RigControl {
  /** What is simulated. */
  readonly site: { readonly site: string; readonly seed: number };
  /** Is told what truly is and what is done, as it happens. */
  listen(listener: (said: RigSaid) => void): void;
  hand(hand: RigHand): void;
  fault(fault: RigFault): void;
  view(speed: number): RigView;
}

export interface OpenedPort {
  readonly port: Port;
  readonly rig: RigControl | null;
  /** Simulated seconds a real second. */
  readonly speed: number;
  /** It is not waited for any more. */
  giveUp?(): void;
}

/** Keeps two tabs from running one job: gives a release, or null when another holds the name. */
export interface RunLocks {
  acquire(name: string): Promise<(() => void) | null>;
  /** Settles once the tab that holds the name has given it back, or is gone. @throws where the platform does not say so */
  released(name: string): Promise<void>;
}

/** Everything of the platform that the engine uses; the worker gives the real ones, a test its own. */
export interface HostDeps {
  readonly timers: Timers;
  /** UTC, ms. */
  utcMs(): number;
  /** A new id for a run: lower-case letters, digits and hyphens, never given twice. */
  newId(): string;
  /** A random integer of 16 bits. */
  random16(): number;
  readonly files: FileStore;
  readonly documents: DocumentStore;
  /** What of the two stands in for a store that cannot be used. */
  readonly storeFaults: StoreFaults;
  readonly locks: RunLocks;
  /** The timers are the feed's own: scaled to simulated time on the rig. */
  openPort(choice: PortChoice, timers: Timers): Promise<OpenedPort>;
  post(message: FromEngine): void;
  /** Name and version of the program, kept in each record. */
  readonly software: string;
}
