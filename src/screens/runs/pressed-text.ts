import type { WatchView } from '../../watch/view.ts';
import { type DisplayUnits, pressure } from '../../words/format.ts';
import { isLinePressed } from '../live/pressed.ts';

/** What the line was read at last, where that is under pressure; null: no reading speaks against an empty packer. */
export function pressedText(
  view: Pick<WatchView, 'bar' | 'overBar' | 'uBar'> | null,
  units: DisplayUnits,
): string | null {
  if (view === null || !isLinePressed(view)) return null;
  const bar = view.bar ?? view.overBar;
  return bar === null ? null : pressure(bar, units);
}
