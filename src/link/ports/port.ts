/** One interface for every transport: Web Serial in the worker, the rig. */

export interface PortIdentity {
  readonly kind: 'serial' | 'rig';
  readonly usbVendorId?: number;
  readonly usbProductId?: number;
}

/** What a port tells its owner. Bytes come in arbitrary chunks; the chunk is the owner's to keep. */
export interface PortEvents {
  bytes(chunk: Uint8Array): void;
  /** The stream erred and went on with a new one: bytes may be missing. */
  recovered(name: string): void;
  /** The port went away. No bytes follow until it is opened again. */
  gone(name: string): void;
  /** After gone(): a device that may be the lost one has come. Opening is worth a try now. */
  arrived?(): void;
}

/** How a port is opened. */
export interface OpenHow {
  /** Bits a second; what has no speed (a USB of its own, a simulated line) ignores it. */
  readonly baudRate: number;
  /** Left out: none, with one stop bit. */
  readonly framing?: { readonly parity: 'none' | 'even' | 'odd'; readonly stopBits: 1 | 2 };
  /** Where several granted ports fit: 0 the one that the user chose, then one after the other. */
  readonly turn: number;
}

/**
 * A port. open() settles once bytes can flow and rejects with a PortError. write() settles when the transport
 * took the bytes. close() always settles, may be called in any state, and after it no event is delivered.
 */
export interface Port {
  readonly identity: PortIdentity;
  open(events: PortEvents, how: OpenHow): Promise<void>;
  write(bytes: Uint8Array): Promise<void>;
  close(): Promise<void>;
}

export class PortError extends Error {
  override readonly name = 'PortError';
  constructor(
    readonly code: 'port-busy' | 'port-gone' | 'open-failed' | 'write-failed' | 'same-port' | 'alike-ports',
    message: string,
  ) {
    super(message);
  }
}
