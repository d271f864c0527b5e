export type BoardName = 'avr' | 'cm0';
export interface Board {
  readonly name: BoardName;
  /** Path of the program with its symbols. */
  readonly elf: string;
  readonly compiler: string;
  /** As it lies in flash. */
  readonly image: Uint8Array<ArrayBuffer>;
  readonly flashBytes: number;
  /** Static; the stack is besides. */
  readonly ramBytes: number;
  /** Address in data memory. */
  addressOf(symbol: string): number;
}
export const NAMES: readonly BoardName[];
export const NO_CROSS_COMPILER: string;
export function canBuild(name: BoardName): boolean;
export function buildBoard(name: BoardName): Board;
