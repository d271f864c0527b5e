import type { AlarmState, Priority } from '../watch/codes.ts';
import type { AlarmView } from '../watch/view.ts';

/** Alarms that want the eye: raised or waiting for an acknowledgement, not shelved, not children. */
export function visibleAlarms(alarms: readonly AlarmView[]): readonly AlarmView[] {
  return alarms.filter((a) => a.state !== 'normal' && a.state !== 'shelved' && a.state !== 'suppressed');
}

const ATTENTION: Partial<Record<AlarmState, number>> = { unacknowledged: 0, acknowledged: 1, returned: 2 };
const RANK: Record<Priority, number> = { urgent: 0, high: 1, low: 2 };

/** What wants the eye first stands first: not acknowledged, then by priority, then in the engine's order. */
export function ranked(alarms: readonly AlarmView[]): readonly AlarmView[] {
  return [...visibleAlarms(alarms)].sort(
    (a, b) => (ATTENTION[a.state] ?? 3) - (ATTENTION[b.state] ?? 3) || RANK[a.priority] - RANK[b.priority],
  );
}
