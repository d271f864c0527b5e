/** How a condition is made of a limit. */
import type { Condition } from './machine.ts';

export const when = (on: boolean): Condition => (on ? 'on' : 'off');

/** The stronger of two conditions for one alarm. */
export function either(a: Condition, b: Condition): Condition {
  if (a === 'on' || b === 'on') return 'on';
  return a === 'between' || b === 'between' ? 'between' : 'off';
}

/** Over a limit with the deadband under it. */
export function over(value: number, limit: number, deadband: number): Condition {
  return value >= limit ? 'on' : value >= limit - deadband ? 'between' : 'off';
}

/** Under a limit with the deadband over it. */
export function under(value: number, limit: number, deadband: number): Condition {
  return value < limit ? 'on' : value < limit + deadband ? 'between' : 'off';
}
