import type { WatchView } from '../watch/view.ts';

/**
 * How a reading may be believed: good, old (greyed), lost (struck, never a live-looking number), or over the end of the
 * sensor's span, which is said as such.
 */
export type Trust = 'none' | 'good' | 'stale' | 'lost' | 'over';

/**
 * Shown trust of the pressure. A value of null is lost even when the engine calls it fresh; an engine that fell
 * silent makes every number old.
 */
export function trustOf(
  bar: number | null,
  ageS: number | null,
  stale: boolean,
  lost: boolean,
  silent: boolean,
  over: boolean,
): Trust {
  if (over) return silent ? 'lost' : 'over';
  if (ageS === null && bar === null) return lost ? 'lost' : 'none';
  if (lost || bar === null) return 'lost';
  return stale || silent ? 'stale' : 'good';
}

/** Trust of the pressure of a moment, alike wherever it is shown. */
export function viewTrust(view: WatchView | null, silent: boolean): Trust {
  if (view === null) return 'none';
  const lost = view.alarms.some((a) => a.alarm === 'pressure-lost' && a.state !== 'returned');
  return trustOf(view.bar, view.ageS, view.stale, lost, silent, view.overBar !== null);
}
