export interface Fault {
  /** Of the file, from 1. */
  readonly line: number;
  /** The line as it is, trimmed. */
  readonly was: string;
  readonly is: string;
  /** The whole file with the fault in it. */
  readonly text: string;
}
export function faultsIn(source: string): Fault[];
export function sample<T>(list: readonly T[], count: number, seed: number): T[];
