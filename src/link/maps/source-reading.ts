import type { StrayReason } from '../frames.ts';
import type { LinkError } from '../status.ts';
import type { Raw } from './raw.ts';

/** What a kind of source is to its opening: bytes in, samples out. */
export interface SourceReading {
  take(chunk: Uint8Array, nowUs: number): void;
  /** Begins to ask, where it is to be asked. */
  begin(): void;
  end(): void;
  /** Readings so often at most, Hz. */
  pace(hz: number): void;
  /** Why nothing can be read, as far as it is known; null: nothing is wrong. */
  readonly trouble: LinkError | null;
  /** The newest of what could not be read, for reading. */
  readonly line: string | null;
}

export interface SourceSink {
  /** A round of the bus, or a line; `main` false: the pressure was not in it. */
  sample(raw: Raw, main: boolean): void;
  stray(reason: StrayReason, bytes: Uint8Array): void;
}
