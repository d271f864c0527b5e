import type { SecondView } from '../view.ts';
import type { Pair } from './pair.ts';
import { isSecondSeen, secondNow } from './second.ts';

/** What a screen shows of the second pressure; null: there is none. */
export function secondView({ signal, outlet, path }: Pair, tUs: number): SecondView | null {
  const { role } = signal;
  if (role === null) return null;
  const seen = isSecondSeen(signal, tUs);
  const bar = seen ? secondNow(signal, tUs) : null;
  return {
    role,
    bar: bar === null ? null : (signal.bar ?? bar),
    lost: !seen,
    zeroed: signal.zeroed,
    stoodBar: outlet.stood?.bar ?? null,
    path: bar === null ? null : path,
  };
}
