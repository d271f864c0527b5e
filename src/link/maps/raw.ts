/**
 * What came over the line for one sample, as it came: the evidence behind its counts. A leaf.
 */
export interface RawPart {
  /** Which request of the register map this answers (asks.ts); 0 for a line. */
  readonly ask: number;
  readonly bytes: Uint8Array;
}
export type Raw = readonly RawPart[];
