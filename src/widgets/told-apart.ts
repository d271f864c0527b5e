import { ordinals } from '../units/ordinals.ts';
import { NUMBERED } from '../words/terms.ts';

/** The names as they stand, those that are the same with a number behind them. */
export function toldApart(names: readonly string[]): readonly string[] {
  return ordinals(names).map((n, i) => (n === null ? names[i]! : NUMBERED(names[i]!, n)));
}
